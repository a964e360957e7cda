/**
 * Dates as a park's calendar has them: a year, a month and a day, with no time and no zone. A night belongs to the date
 * on which it begins, so a night in which the clock is put forward or back is one night like any other.
 */

/** A date of the calendar such as `2027-06-18`, made only by {@link readDate} and {@link dateOfDay}. */
export type IsoDate = string & { readonly __calendar: "gregorian" };

/** Days from 1970-01-01, which is day 0. Dates are counted with these and with nothing else. */
export type DayNumber = number;

/** Outside these years a date is a slip of the keyboard. */
export const firstYear = 2000;
export const lastYear = 2199;

/** The date that `text` is, or null where it is none: 2026-02-30, 2027-02-29, 2026-6-1 and years outside 2000 to 2199. */
export function readDate(text: string): IsoDate | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return null;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const known = year >= firstYear && year <= lastYear && month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
  return known ? (text as IsoDate) : null;
}

/** The date that `text` is. Throws where it is none: for dates that were checked before, such as those of a database. */
export function asDate(text: string): IsoDate {
  const date = readDate(text);
  if (date === null) throw new RangeError(`not a date from ${firstYear} to ${lastYear}: ${JSON.stringify(text.slice(0, 40))}`);
  return date;
}

export function isLeapYear(year: number): boolean {
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
}

/** How many days the month has; `month` from 1 to 12. */
export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/**
 * Days from 1970-01-01. The year is taken to begin in March, so that a leap day is its last; after H. Hinnant,
 * "chrono-compatible low-level date algorithms" (2013), `days_from_civil`.
 */
export function dayNumber(date: IsoDate): DayNumber {
  const [year, month, day] = date.split("-").map(Number) as [number, number, number];
  const marchYear = month <= 2 ? year - 1 : year;
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

/** The date of a day number: {@link dayNumber} the other way, `civil_from_days` of the same source. Throws outside the known years. */
export function dateOfDay(day: DayNumber): IsoDate {
  const shifted = day + 719_468;
  const era = Math.floor(shifted / 146_097);
  const dayOfEra = shifted - era * 146_097;
  const yearOfEra = Math.floor((dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36_524) - Math.floor(dayOfEra / 146_096)) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const marchMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = marchMonth + (marchMonth < 10 ? 3 : -9);
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0);
  return asDate(`${pad(year, 4)}-${pad(month, 2)}-${pad(dayOfYear - Math.floor((153 * marchMonth + 2) / 5) + 1, 2)}`);
}

/** The date `days` later, earlier where it is negative. Throws outside the known years. */
export function addDays(date: IsoDate, days: number): IsoDate {
  return dateOfDay(dayNumber(date) + days);
}

/** Days from `from` to `to`: 0 on the same date, negative where `to` is the earlier. */
export function daysBetween(from: IsoDate, to: IsoDate): number {
  return dayNumber(to) - dayNumber(from);
}

/** 0 for Sunday to 6 for Saturday. 1970-01-01 was a Thursday. */
export function weekday(date: IsoDate): number {
  return (((dayNumber(date) + 4) % 7) + 7) % 7;
}

/** Below zero where `a` is the earlier date, above where it is the later: the text's own order is the calendar's. */
export function compareDates(a: IsoDate, b: IsoDate): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * The date it is in `zone` at `instant`, milliseconds from 1970-01-01T00:00Z. The only thing a time zone is asked.
 * `zone` is a name of the IANA database such as "America/Denver"; throws where {@link isTimeZone} says no.
 */
export function dateIn(zone: string, instant: number): IsoDate {
  const parts = new Map(formatterOf(zone).formatToParts(instant).map(({ type, value }) => [type, value]));
  return asDate(`${parts.get("year")}-${parts.get("month")}-${parts.get("day")}`);
}

/** Whether `zone` names a time zone known here. */
export function isTimeZone(zone: string): boolean {
  try {
    formatterOf(zone);
    return true;
  } catch {
    return false;
  }
}

function formatterOf(zone: string): Intl.DateTimeFormat {
  return new Intl.DateTimeFormat("en-US", {
    timeZone: zone,
    calendar: "gregory",
    numberingSystem: "latn",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
  });
}

function pad(value: number, width: number): string {
  return String(value).padStart(width, "0");
}
