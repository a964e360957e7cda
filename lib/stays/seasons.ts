import { daysInMonth, readDate, type IsoDate } from "./dates";

/** A run of nights with a season's prices: first to last night, both included. With a year, or without one for every year. */
export interface Period {
  readonly first: string;
  readonly last: string;
}

interface WithPeriods {
  readonly id: string;
  readonly periods: readonly Period[];
}

/** What is wrong with an end of a period, or null. 02-29 is right and comes only in leap years. */
export function periodFault(text: string): "not-a-date" | null {
  if (readDate(text) !== null) return null;
  const parts = /^(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return "not-a-date";
  const [month, day] = [Number(parts[1]), Number(parts[2])];
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(2000, month) ? null : "not-a-date";
}

/**
 * The season that the night of `date` is in, or null. A period with a year, such as one holiday weekend, goes before
 * those of every year. A yearly period whose last night comes before its first goes over the new year.
 */
export function seasonOf<T extends WithPeriods>(date: IsoDate, seasons: readonly T[]): T | null {
  const dated = seasons.find(({ periods }) => periods.some((period) => isDated(period) && holdsNight(period, date)));
  return dated ?? seasons.find(({ periods }) => periods.some((period) => !isDated(period) && holdsNight(period, date))) ?? null;
}

/** Tells every period that shares a night with an earlier one of its own kind: then the season of that night would be a matter of order. */
export function tellOverlaps(seasons: readonly WithPeriods[], fault: (path: PropertyKey[], message: string) => void): void {
  const before: Period[] = [];
  seasons.forEach((season, i) => {
    (Array.isArray(season?.periods) ? season.periods : []).forEach((period, j) => {
      if (!isRight(period)) return;
      const met = before.find((other) => isDated(other) === isDated(period) && meetPeriods(other, period));
      if (met) fault(["seasons", i, "periods", j], `shares nights with ${met.first} to ${met.last}`);
      before.push(period);
    });
  });
}

/** What is wrong in itself is told as that, and shares nights with nothing. */
function isRight(period: Partial<Period> | null | undefined): period is Period {
  const { first, last } = period ?? {};
  if (typeof first !== "string" || typeof last !== "string" || periodFault(first) !== null || periodFault(last) !== null) return false;
  return first.length === last.length && (first <= last || !isDated({ first, last }));
}

function isDated({ first }: Period): boolean {
  return first.length === 10;
}

function holdsNight({ first, last }: Period, date: IsoDate): boolean {
  const night = first.length === 10 ? date : date.slice(5);
  return first <= last ? first <= night && night <= last : night >= first || night <= last;
}

/** Cut at the new year, so that both are runs from a first to a last. */
function meetPeriods(a: Period, b: Period): boolean {
  return unwrap(a).some((x) => unwrap(b).some((y) => x.first <= y.last && y.first <= x.last));
}

function unwrap(period: Period): Period[] {
  if (period.first <= period.last) return [period];
  return [{ first: period.first, last: "12-31" }, { first: "01-01", last: period.last }];
}
