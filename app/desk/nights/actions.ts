"use server";

import { revalidatePath } from "next/cache";
import { requireDesk } from "../../staff-session";
import { fitOn, guestMayHave } from "@/lib/jobs/stay-fit";
import { nightsSchema, readDate, type FitOverride, type IsoDate, type Minor, type Nights } from "@/lib/stays";
import { closeSite, liftClosure } from "@/lib/store/closures";
import { NightsTaken, StayRefused, StoreError } from "@/lib/store/errors";
import { getPark } from "@/lib/store/parks";
import { getSiteLabel } from "@/lib/store/sites";
import { changeNights, getStay, moveStay, priceMoreNights } from "@/lib/store/stays-change";
import { catalogueOf } from "@/lib/wording";

const { stays: words, nights: board } = catalogueOf();

export interface Move {
  readonly stay: string;
  readonly version: number;
  /** Where it goes; null where it stays on the site it has. */
  readonly site: string | null;
  readonly nights: Nights;
  readonly reason: string | null;
  /** The added price that was shown and agreed to. */
  readonly accepts: Minor | null;
}

export type Moved =
  | { readonly outcome: "moved"; readonly version: number }
  /** Somebody has to say why, or to agree to a price. */
  | { readonly outcome: "confirm"; readonly sentences: readonly string[]; readonly needsReason: boolean; readonly accepts: Minor | null }
  | { readonly outcome: "refused"; readonly sentences: readonly string[] };

/** Puts a stay on another site or on other nights. What takes a person's word comes back to be confirmed first. */
export async function moveOnBoard(move: Move): Promise<Moved> {
  const { actor } = await requireDesk();
  try {
    const park = await getPark(actor.park);
    const stay = await getStay(actor, actor.park, move.stay);
    const nights = nightsSchema.safeParse(move.nights);
    if (!park || !nights.success) return refused([words.fault({ code: "no-nights" })]);
    const site = move.site !== null && move.site !== stay.site ? move.site : null;
    const changes = nights.data.arrive !== stay.nights.arrive || nights.data.depart !== stay.nights.depart;
    // One kind of change at a time, so that neither is half done.
    if (site !== null && changes) return refused([board.oneAtATime]);
    if (site === null && !changes) return { outcome: "moved", version: stay.version };
    const editing = { version: move.version, ...(move.reason ? { reason: move.reason } : {}) };
    if (site === null) return await moveNights(actor, stay.id, nights.data, move, editing);
    const result = await fitOn(park, site, stay.rig);
    const poor = result && !guestMayHave(result.verdict) ? result : null;
    if (!move.reason && (poor || stay.siteChosen)) {
      return { outcome: "confirm", needsReason: true, accepts: null, sentences: [...(poor ? [board.poorFit(await getSiteLabel(actor.park, site), board.verdicts[poor.verdict])] : []), ...(stay.siteChosen ? [board.chosen] : [])] };
    }
    const override: { override?: FitOverride } = poor ? { override: { verdict: poor.verdict, codes: poor.reasons.map(({ code }) => code), why: move.reason! } } : {};
    const saved = await moveStay(actor, actor.park, stay.id, site, { ...editing, ...override });
    return { outcome: "moved", version: saved.version };
  } catch (error) {
    return refusalOf(error, actor.park);
  }
}

async function moveNights(actor: Parameters<typeof changeNights>[0], stayId: string, nights: Nights, move: Move, editing: { version: number; reason?: string }): Promise<Moved> {
  const park = (actor as { park: string }).park;
  const more = await priceMoreNights(actor, park, stayId, nights);
  const sentences = [board.newNights(words.day(nights.arrive), words.day(nights.depart)), ...(more ? [board.costs(words.money(more.total, more.currency))] : [])];
  if (move.accepts === null) return { outcome: "confirm", needsReason: false, accepts: more?.total ?? 0, sentences };
  const saved = await changeNights(actor, park, stayId, nights, { ...editing, ...(more ? { accepts: move.accepts } : {}) });
  return { outcome: "moved", version: saved.version };
}

function refused(sentences: readonly string[]): Moved {
  return { outcome: "refused", sentences };
}

async function refusalOf(error: unknown, parkSlug: string): Promise<Moved> {
  if (error instanceof NightsTaken) return refused([board.takenBy(await getSiteLabel(parkSlug, error.site))]);
  if (error instanceof StayRefused) return refused(error.faults.map(words.fault));
  if (error instanceof StoreError && error.kind === "stale") return refused([board.stale]);
  throw error;
}

export interface ClosureState {
  readonly values: Readonly<Record<"site" | "starts" | "ends" | "reason", string>>;
  readonly faults: Readonly<Partial<Record<"site" | "starts" | "ends" | "reason", string>>>;
  readonly done: boolean;
}

/** Closes a site for some nights, from the form under the ledger. */
export async function closeFromForm(_before: ClosureState, form: FormData): Promise<ClosureState> {
  const { actor } = await requireDesk();
  const values = { site: field(form, "site"), starts: field(form, "starts"), ends: field(form, "ends"), reason: field(form, "reason") };
  const [starts, ends] = [readDate(values.starts), readDate(values.ends)];
  const faults: Partial<Record<keyof typeof values, string>> = {
    ...(starts ? {} : { starts: board.needsDate }),
    ...(ends ? {} : { ends: board.needsDate }),
    ...(starts && ends && ends <= starts ? { ends: board.needsLater } : {}),
    ...(values.reason === "" ? { reason: board.needsReason } : {}),
  };
  if (Object.keys(faults).length > 0) return { values, faults, done: false };
  try {
    await closeSite(actor, actor.park, values.site, { starts: starts as IsoDate, ends: ends as IsoDate, reason: values.reason });
  } catch (error) {
    if (error instanceof NightsTaken) return { values, faults: { site: board.takenBy(await getSiteLabel(actor.park, values.site)) }, done: false };
    if (error instanceof StoreError && error.kind === "missing") return { values, faults: { site: board.noSuchSite }, done: false };
    throw error;
  }
  revalidatePath("/desk/nights");
  return { values: { site: "", starts: "", ends: "", reason: "" }, faults: {}, done: true };
}

export async function liftFromForm(form: FormData): Promise<void> {
  const { actor } = await requireDesk();
  await liftClosure(actor, actor.park, field(form, "closure"));
  revalidatePath("/desk/nights");
}

function field(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value.trim() : "";
}
