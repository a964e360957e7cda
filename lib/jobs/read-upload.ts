import { pageLimits, planImport, type ExchangeFile, type ImportPlan, type Inventory, type Missing } from "@/lib/exchange";

export interface UploadTask {
  readonly files: readonly ExchangeFile[];
  readonly inventory: Inventory;
  readonly missing: Missing;
}

/** Runs in a worker thread. */
export function readUpload({ files, inventory, missing }: UploadTask): ImportPlan {
  return planImport(files, inventory, missing, pageLimits);
}
