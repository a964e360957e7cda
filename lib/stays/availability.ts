import { addDays, dateOfDay, dayNumber, type IsoDate } from "./dates";
import { countNights, freeRuns, overlaps, type Nights } from "./nights";
import { isRunOut } from "./states";

/** A site that is taken for some nights, by a stay or a closure. */
export interface Occupancy {
  readonly site: string;
  readonly nights: Nights;
  /** Until when a hold or request lasts, milliseconds; null for what does not run out. */
  readonly until: number | null;
}

/** What still stands at `now` (milliseconds): a hold that has run out takes no night. */
export function standing<T extends Pick<Occupancy, "until">>(occupancies: readonly T[], now: number): T[] {
  return occupancies.filter(({ until }) => !isRunOut(until, now));
}

/** Which of `sites` nobody has for any of the `nights`, in the order given. A site that another leaves on the arrival day is free. */
export function freeSites(sites: readonly string[], occupancies: readonly Pick<Occupancy, "site" | "nights">[], nights: Nights): string[] {
  const taken = new Set(occupancies.filter((occupancy) => overlaps(occupancy.nights, nights)).map(({ site }) => site));
  return sites.filter((site) => !taken.has(site));
}

/** The free runs of every site within `span`, by site. */
export function freeRunsBySite(sites: readonly string[], occupancies: readonly Pick<Occupancy, "site" | "nights">[], span: Nights): Map<string, Nights[]> {
  const taken = new Map<string, Nights[]>(sites.map((site) => [site, []]));
  for (const { site, nights } of occupancies) taken.get(site)?.push(nights);
  return new Map([...taken].map(([site, list]) => [site, freeRuns(span, list)]));
}

/**
 * As many nights as `wanted`, all free, beginning as near to its arrival as can be had within `span`; of two equally
 * near the earlier. Null where there are none. `taken` are the nights of one site.
 */
export function nearestFree(wanted: Nights, taken: readonly Nights[], span: Nights): Nights | null {
  const count = countNights(wanted);
  const target = dayNumber(wanted.arrive);
  let best: number | null = null;
  for (const run of freeRuns(span, taken)) {
    const [first, last] = [dayNumber(run.arrive), dayNumber(run.depart) - count];
    if (last < first) continue;
    const start = Math.min(Math.max(target, first), last);
    if (best === null || Math.abs(start - target) < Math.abs(best - target)) best = start;
  }
  return best === null ? null : { arrive: dateOfDay(best), depart: dateOfDay(best + count) };
}

/** How many of `occupancies` there are on each night of `span`, closures and stays alike. */
export function countByNight(occupancies: readonly Pick<Occupancy, "nights">[], span: Nights): { readonly night: IsoDate; readonly taken: number }[] {
  const first = dayNumber(span.arrive);
  const steps = new Array<number>(countNights(span) + 1).fill(0);
  for (const { nights } of occupancies) {
    const [from, to] = [Math.max(0, dayNumber(nights.arrive) - first), Math.min(steps.length - 1, dayNumber(nights.depart) - first)];
    if (from >= to) continue;
    steps[from]! += 1;
    steps[to]! -= 1;
  }
  let taken = 0;
  return steps.slice(0, -1).map((step, i) => ({ night: addDays(span.arrive, i), taken: (taken += step) }));
}
