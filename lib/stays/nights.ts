import { addDays, compareDates, dateOfDay, dayNumber, daysBetween, readDate, type IsoDate } from "./dates";

/** The nights from `arrive` up to `depart`, not including it: the departure day's night is free for the next arrival. */
export interface Nights {
  readonly arrive: IsoDate;
  readonly depart: IsoDate;
}

/** The longest stay. Longer ones are leases, with rules of their own. */
export const mostNights = 400;

/** Why two dates are no stay: not a date at all, departure on the day of arrival or before it, or too long. */
export type NightsFault = "arrive-not-a-date" | "depart-not-a-date" | "no-nights" | "backwards" | "too-many-nights";

export type NightsRead = { readonly ok: true; readonly nights: Nights } | { readonly ok: false; readonly faults: readonly NightsFault[] };

/** The nights between two dates as typed, or all that is wrong with them. From 1 to {@link mostNights} nights, both included. */
export function readNights(arrive: string, depart: string): NightsRead {
  const [from, to] = [readDate(arrive), readDate(depart)];
  if (from === null || to === null) {
    return { ok: false, faults: [...(from === null ? ["arrive-not-a-date" as const] : []), ...(to === null ? ["depart-not-a-date" as const] : [])] };
  }
  const count = daysBetween(from, to);
  if (count === 0) return { ok: false, faults: ["no-nights"] };
  if (count < 0) return { ok: false, faults: ["backwards"] };
  return count > mostNights ? { ok: false, faults: ["too-many-nights"] } : { ok: true, nights: { arrive: from, depart: to } };
}

/** The nights of two dates that were checked before. Throws where they are none. */
export function nights(arrive: string, depart: string): Nights {
  const read = readNights(arrive, depart);
  if (!read.ok) throw new RangeError(`no nights from ${arrive} to ${depart}: ${read.faults.join(", ")}`);
  return read.nights;
}

export function countNights({ arrive, depart }: Nights): number {
  return daysBetween(arrive, depart);
}

/** The date of each night, in order. */
export function listNights({ arrive, depart }: Nights): IsoDate[] {
  const first = dayNumber(arrive);
  return Array.from({ length: Math.max(0, dayNumber(depart) - first) }, (_, i) => dateOfDay(first + i));
}

/** Whether the night that begins on `date` is one of them. The departure day's is not. */
export function hasNight({ arrive, depart }: Nights, date: IsoDate): boolean {
  return arrive <= date && date < depart;
}

/**
 * How two runs of nights lie to each other: `apart` with the free nights between them, `touching` where one leaves on
 * the day the other arrives, which is allowed, or `overlapping` with the nights they share.
 */
export type Meeting =
  | { readonly kind: "apart"; readonly between: number }
  | { readonly kind: "touching" }
  | { readonly kind: "overlapping"; readonly shared: number };

export function meet(a: Nights, b: Nights): Meeting {
  const shared = Math.min(dayNumber(a.depart), dayNumber(b.depart)) - Math.max(dayNumber(a.arrive), dayNumber(b.arrive));
  if (shared > 0) return { kind: "overlapping", shared };
  return shared === 0 ? { kind: "touching" } : { kind: "apart", between: -shared };
}

/** Whether some night is in both. Touching is no overlap. */
export function overlaps(a: Nights, b: Nights): boolean {
  return a.arrive < b.depart && b.arrive < a.depart;
}

/** The nights in both, or null. */
export function sharedNights(a: Nights, b: Nights): Nights | null {
  if (!overlaps(a, b)) return null;
  return { arrive: a.arrive > b.arrive ? a.arrive : b.arrive, depart: a.depart < b.depart ? a.depart : b.depart };
}

/** The nights that `after` adds to a stay: before and after where it grows, else as many at its end as it is longer. */
export function addedNights(before: Nights, after: Nights): Nights[] {
  if (after.arrive <= before.arrive && after.depart >= before.depart) {
    const [early, late] = [{ arrive: after.arrive, depart: before.arrive }, { arrive: before.depart, depart: after.depart }];
    return [early, late].filter(({ arrive, depart }) => arrive < depart);
  }
  const more = countNights(after) - countNights(before);
  return more > 0 ? [{ arrive: addDays(after.depart, -more), depart: after.depart }] : [];
}

/** What is left of `span` without `taken`, as runs that neither overlap nor touch, in order. `taken` may come in any order and overlap. */
export function freeRuns(span: Nights, taken: readonly Nights[]): Nights[] {
  const runs: Nights[] = [];
  let from = span.arrive;
  for (const { arrive, depart } of [...taken].sort((a, b) => compareDates(a.arrive, b.arrive))) {
    if (depart <= from) continue;
    if (arrive >= span.depart) break;
    if (arrive > from) runs.push({ arrive: from, depart: arrive });
    from = depart;
  }
  if (from < span.depart) runs.push({ arrive: from, depart: span.depart });
  return runs;
}
