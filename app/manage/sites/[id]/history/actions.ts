"use server";

import { redirect } from "next/navigation";
import { getRevision } from "@/lib/store/site-changes";
import { createDraft } from "@/lib/store/site-drafts";
import { requireManager } from "../../../../staff-session";

/** Puts the record of an earlier revision up to be looked at, and restored from there. */
export async function lookAtRestoring(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  const { siteId, base } = read(form);
  const revision = await getRevision(actor, siteId, Number(form.get("number")));
  if (!revision?.record || base === null) redirect(`/manage/sites/${encodeURIComponent(siteId)}/history`);
  const draft = await createDraft(actor, { siteId, base, record: revision.record, cause: "restore" });
  redirect(`/manage/sites/${encodeURIComponent(siteId)}/change?draft=${draft}`);
}

/** Puts up that the site is to be taken out of use. */
export async function lookAtRetiring(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  const { siteId, base } = read(form);
  if (base === null) redirect(`/manage/sites/${encodeURIComponent(siteId)}/history`);
  const draft = await createDraft(actor, { siteId, base, record: null, cause: "edit" });
  redirect(`/manage/sites/${encodeURIComponent(siteId)}/change?draft=${draft}`);
}

/** The site as its history showed it. */
function read(form: FormData): { readonly siteId: string; readonly base: number | null } {
  const base = Number(form.get("base"));
  return { siteId: String(form.get("site") ?? ""), base: Number.isInteger(base) && base > 0 ? base : null };
}
