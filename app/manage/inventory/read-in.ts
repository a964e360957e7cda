import { RankingStopped } from "@/lib/jobs/fit-pool";
import { planUpload } from "@/lib/jobs/plan-upload";
import { StayRefused, StoreError } from "@/lib/store/errors";
import { applyImport, readInventory } from "@/lib/store/inventory";
import { getUpload, settleUpload } from "@/lib/store/inventory-uploads";
import { log } from "@/lib/store/log";
import { SitesInUse, type TellProgress } from "@/lib/store/site-changes";
import { changingPlaces } from "@/lib/store/stays-import";
import type { StaffActor } from "../../staff-session";
import { digestOf } from "./digest";

/** What somebody who presses the button sends: which files, what they saw that these would do, and why. */
export interface ReadInAsked {
  readonly id: string;
  readonly seen: string;
  readonly why: string;
}

/**
 * Reads an upload in, if it still does what was looked at. Answers the address that says what came of it. `onProgress` must not throw:
 * what it throws undoes all.
 */
export async function readIn(actor: StaffActor, { id, seen, why }: ReadInAsked, onProgress?: TellProgress): Promise<string> {
  const here = `/manage/inventory/files/${encodeURIComponent(id)}`, upload = await getUpload(actor, id);
  if (!upload || upload.outcome) return here;
  try {
    const plan = await planUpload(upload.files, await readInventory(actor, upload.files), upload.missing);
    if (plan.faultCount > 0 || digestOf(plan) !== seen) return `${here}?said=changed`;
    await applyImport(actor, plan, why.slice(0, 300), { also: (at, outcome) => settleUpload(at, id, outcome), ...(onProgress ? { onProgress } : {}) });
    return here;
  } catch (error) {
    // Pressed twice, or in two windows: the other one did it.
    if ((await getUpload(actor, id))?.outcome) return here;
    return `${here}?${new URLSearchParams(reasonOf(error)).toString()}`;
  }
}

function reasonOf(error: unknown): Record<string, string> {
  if (error instanceof SitesInUse) return { said: "in-use", sites: error.sites.slice(0, 20).map(({ siteId }) => siteId).join(", ") };
  if (error instanceof StayRefused && error.faults.some(({ code }) => code === "reason-needed")) return { said: "why-missing" };
  if (error instanceof StoreError && error.constraint === changingPlaces) return { said: "change-places" };
  if (error instanceof StoreError && error.kind === "stale") return { said: "stale" };
  if (error instanceof RankingStopped) return { said: error.why === "busy" ? "busy" : "slow" };
  log.error({ err: error }, "files could not be read in");
  return { said: "failed" };
}
