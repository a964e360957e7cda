"use server";

import { redirect } from "next/navigation";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { planUpload } from "@/lib/jobs/plan-upload";
import { StoreError } from "@/lib/store/errors";
import { applyImport, readInventory, saveOrigin } from "@/lib/store/inventory";
import { dropUpload, getUpload, settleUpload } from "@/lib/store/inventory-uploads";
import { log } from "@/lib/store/log";
import { SitesInUse } from "@/lib/store/site-changes";
import { requireManager } from "../../staff-session";
import { digestOf } from "./digest";
import { readOriginForm } from "./read-origin-form";

/** Saves where the park's map lies; what cannot be read goes back into the form, with what is wrong with it. */
export async function saveOriginAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  const { texts, origin } = readOriginForm(Object.fromEntries(["latitude", "longitude", "bearing"].map((name) => [name, String(form.get(name) ?? "").slice(0, 40)])));
  if (!origin) redirect(`/manage/inventory?${new URLSearchParams({ where: "typed", ...texts })}#where`);
  await saveOrigin(actor, origin);
  redirect("/manage/inventory?where=saved#where");
}

/** Reads an upload in, if it still does what was looked at. */
export async function readInAction(id: string, seen: string, form: FormData): Promise<void> {
  const { actor } = await requireManager();
  const here = `/manage/inventory/files/${encodeURIComponent(id)}`, upload = await getUpload(actor, id);
  if (!upload || upload.outcome) redirect(here);
  let said: string | null = null;
  try {
    const plan = await planUpload(upload.files, await readInventory(actor), upload.missing);
    if (plan.faultCount > 0 || digestOf(plan) !== seen) said = "changed";
    else await applyImport(actor, plan, String(form.get("why") ?? "").slice(0, 300), { also: (at, outcome) => settleUpload(at, id, outcome) });
  } catch (error) {
    said = reasonOf(error);
  }
  redirect(said === null ? here : `${here}?${new URLSearchParams(said.startsWith("in-use ") ? { said: "in-use", sites: said.slice(7) } : { said })}`);
}

/** Forgets the files. */
export async function dropUploadAction(id: string): Promise<void> {
  const { actor } = await requireManager();
  await dropUpload(actor, id);
  redirect("/manage/inventory#in");
}

function reasonOf(error: unknown): string {
  if (error instanceof SitesInUse) return `in-use ${error.sites.slice(0, 20).map(({ siteId }) => siteId).join(", ")}`;
  if (error instanceof StoreError && error.kind === "stale") return "stale";
  if (error instanceof RankingStopped) return error.why === "busy" ? "busy" : "slow";
  log.error({ err: error }, "files could not be read in");
  return "failed";
}
