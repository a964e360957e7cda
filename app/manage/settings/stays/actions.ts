"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { contentKey } from "@/lib/jobs/content-key";
import { staySettingsSchema, type StaySettings } from "@/lib/stays";
import { StoreError } from "@/lib/store/errors";
import { listStock } from "@/lib/store/loans";
import { getStayContext, listSettingsChanges, readParkSettings, saveParkSettings } from "@/lib/store/park-settings";
import { listStaysAhead } from "@/lib/store/stays-ahead";
import { catalogueOf } from "@/lib/wording";
import { requireManager, type StaffActor } from "../../../staff-session";
import { changeLines } from "../history";
import { stayChanges } from "../stay-words";
import { draftOf, readDraft, readSettings, type StaysDraft } from "./draft";
import { followsOf } from "./follow";
import { mergeSettings } from "./merge";
import { unitsOfDraft, type DraftContext } from "./draft-context";
import type { StaysPreview, StaysStale, StaysState } from "./state";

const { staySettings: words, settings: { history, stale: staleWords }, accounts } = catalogueOf();

const longestReason = 300, mostTold = 20;

/** What the form's buttons ask for: a line more, what would change, or to save what was looked at. Nothing is saved that was not shown. */
export async function staysAction(before: StaysState, form: FormData): Promise<StaysState> {
  const { actor } = await requireManager();
  const by = await unitsOfDraft(actor.park, String(form.get("units") ?? ""));
  const base = readBase(form) ?? (await readParkSettings(actor, actor.park)).stays;
  const typed = readDraft(form), wanted = String(form.get("do") ?? "check");
  const version = Number(form.get("version"));
  const state: StaysState = { round: before.round + 1, draft: typed, faults: {}, faulty: null, base: JSON.stringify(base), version, preview: null, stale: null, note: null };
  if (wanted.startsWith("more-")) return { ...state, draft: withLine(typed, wanted) };
  const read = readSettings(typed, base, by);
  if (!read.settings) return { ...state, faults: read.faults, faulty: words.faults.title(Object.keys(read.faults).length) };
  const now = await readParkSettings(actor, actor.park);
  if (now.version !== version) return onTopOf(actor, state, base, read.settings, now, by);
  const preview = await previewOf(actor, base, read.settings, by);
  if (preview.lines.length === 0) return { ...state, note: words.same };
  if (wanted !== "save") return { ...state, preview };
  if (form.get("agreed") !== preview.agreed) return { ...state, preview, note: words.edited };
  try {
    const reason = String(form.get("reason") ?? "").trim().slice(0, longestReason);
    await saveParkSettings(actor, actor.park, { stays: read.settings }, version, reason || undefined);
  } catch (error) {
    if (!(error instanceof StoreError) || error.kind !== "stale") throw error;
    return onTopOf(actor, state, base, read.settings, await readParkSettings(actor, actor.park), by);
  }
  revalidatePath("/", "layout");
  redirect("/manage/settings?saved=yes");
}

/** Somebody saved since the form was filled in: what is mine goes on top of theirs, and is looked at again. */
async function onTopOf(actor: StaffActor, state: StaysState, base: StaySettings, mine: StaySettings, theirs: { readonly version: number; readonly stays: StaySettings }, by: DraftContext): Promise<StaysState> {
  const { settings, both } = mergeSettings(base, mine, theirs.stays);
  const saves = await listSettingsChanges(actor, actor.park, Math.min(mostTold, Math.max(1, theirs.version - state.version)));
  const stale: StaysStale = {
    saves: saves.map((entry) => ({ title: history.line(entry.who, accounts.moment(new Date(entry.at), theirs.stays.zone)), reason: entry.reason, lines: changeLines(entry, by.units, by.currency) })),
    both: both.length > 0 ? staleWords.both(both.map((setting) => words.fields[setting].label)) : null,
  };
  const preview = await previewOf(actor, theirs.stays, settings, by);
  return { ...state, stale, draft: draftOf(settings, by), base: JSON.stringify(theirs.stays), version: theirs.version, preview: preview.lines.length > 0 ? preview : null };
}

async function previewOf(actor: StaffActor, before: StaySettings, after: StaySettings, { units, currency }: DraftContext): Promise<StaysPreview> {
  const [context, stock] = await Promise.all([getStayContext(actor.park), listStock(actor, actor.park)]);
  const staysAhead = context ? (await listStaysAhead(actor, actor.park, context.today)).length : 0;
  return { lines: stayChanges(before, after, units, currency), follows: followsOf(before, after, { staysAhead, stock }), agreed: contentKey(after) };
}

function withLine(draft: StaysDraft, wanted: string): StaysDraft {
  return { ...draft, steps: draft.steps + (wanted === "more-steps" ? 1 : 0), things: draft.things + (wanted === "more-things" ? 1 : 0) };
}

/** What the form was filled in with. Null where it does not say so in a way that can be read. */
function readBase(form: FormData): StaySettings | null {
  try {
    return staySettingsSchema.parse(JSON.parse(String(form.get("base"))));
  } catch {
    return null;
  }
}
