"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { after } from "next/server";
import { tellOfSiteChanges } from "@/lib/jobs/site-effects";
import { mergeSites, type MergeChoice } from "@/lib/park";
import { log } from "@/lib/store/log";
import { SiteFaults, SitesInUse, SitesStale } from "@/lib/store/site-changes";
import { DraftMovedOn, dropDraft, redoDraft, saveDraft } from "@/lib/store/site-drafts";
import { requireManager } from "../../../../staff-session";
import { bothChanges, changeContext } from "./context";

/** As long as a note may be. */
const longestWhy = 1000;

/** Saves what the draft holds, as it was shown. Where it cannot be, back to the page, which says why. */
export async function saveChange(form: FormData): Promise<void> {
  const { context, here } = await contextOf(form);
  const { actor, draft } = context;
  let saved: number;
  try {
    saved = await saveDraft(actor, draft, textOf(form, "why").slice(0, longestWhy));
  } catch (error) {
    if (error instanceof DraftMovedOn) redirect(anew(here));
    if (error instanceof SitesStale) redirect(`${here}&overtaken=yes#found`);
    // The page names the faults, and who is still on the site.
    if (error instanceof SiteFaults || error instanceof SitesInUse) redirect(here);
    throw error;
  }
  tellSoon();
  revalidatePath("/", "layout");
  redirect(`${siteOf(draft.siteId)}/history?saved=${saved}`);
}

/** Makes of a change and of what others saved meanwhile one change, to be looked at again. */
export async function putTogether(form: FormData): Promise<void> {
  const { context, here } = await contextOf(form);
  const { actor, draft, site } = context;
  if (!context.stale) redirect(here);
  const base = site?.version ?? null;
  const both = await bothChanges(context);
  if (!both && draft.record !== null && site && !site.retired) redirect(here);
  let record = draft.record;
  if (both) {
    const { conflicts } = mergeSites(both.base, both.mine, both.theirs);
    const choices = new Map(conflicts.flatMap(({ key }): [string, MergeChoice][] => { const kept = textOf(form, `keep.${key}`); return kept === "mine" || kept === "theirs" ? [[key, kept]] : []; }));
    if (choices.size < conflicts.length) redirect(`${here}&choose=all#found`);
    record = mergeSites(both.base, both.mine, both.theirs, choices).record;
  }
  await unlessMovedOn(redoDraft(actor, draft, { base, record }), here);
  redirect(here);
}

/** Forgets the change. */
export async function giveUpChange(form: FormData): Promise<void> {
  const { context, here } = await contextOf(form);
  await unlessMovedOn(dropDraft(context.actor, context.draft), here);
  redirect(context.site ? `${siteOf(context.draft.siteId)}/history?dropped=yes` : "/manage");
}

/** The change as it was shown; back to the page where it is gone, or where a survey has gone on since. */
async function contextOf(form: FormData) {
  const { actor } = await requireManager();
  const [siteId, draftId] = [textOf(form, "site"), textOf(form, "draft")];
  const context = await changeContext(actor, siteId, draftId), here = `${siteOf(siteId)}/change?draft=${encodeURIComponent(draftId)}`;
  if (!context) redirect(here);
  if (context.draft.digest !== textOf(form, "shown")) redirect(anew(here));
  return { context, here };
}

async function unlessMovedOn(doing: Promise<void>, here: string): Promise<void> {
  try {
    await doing;
  } catch (error) {
    if (error instanceof DraftMovedOn) redirect(anew(here));
    throw error;
  }
}

/** The page shows what came in meanwhile, and says so. */
function anew(here: string): string {
  return `${here}&more=yes`;
}

/** The desk hears of it as soon as it is worked out; should this process end before that, another does it. */
function tellSoon(): void {
  after(() => tellOfSiteChanges().catch((error: unknown) => log.warn({ err: error }, "what a site's change means for stays is told later")));
}

function siteOf(siteId: string): string {
  return `/manage/sites/${encodeURIComponent(siteId)}`;
}

function textOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value.trim() : "";
}
