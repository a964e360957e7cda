/**
 * Plain calendar dates, with no time of day and no zone: the day a surveyor wrote on the sheet. Ages are counted on the
 * calendar, not in milliseconds, so that no clock change and no leap day moves them.
 */
export interface CalendarDate {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  /** 1 to 31. */
  readonly day: number;
}

/** How long ago something was: whole months (an anniversary that a month lacks falls on its last day), and days in all. */
export interface Age {
  readonly months: number;
  /** Negative for a date to come. */
  readonly days: number;
}

/** Reads `2026-04-25`; null for anything else, 2026-02-30 included. */
export function readDate(text: string): CalendarDate | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month) ? { year, month, day } : null;
}

/** The date on the wall of whoever serves the page, where the moment is `now`. */
export function dateOf(now: Date): CalendarDate {
  return { year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() };
}

/** Days since 1970-01-01, in the Gregorian calendar of all years. */
export function dayNumber({ year, month, day }: CalendarDate): number {
  // Years begin in March, so that the leap day is their last (Hinnant, "chrono-compatible low-level date algorithms").
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146_097 + dayOfEra - 719_468;
}

export function ageOn(date: CalendarDate, today: CalendarDate): Age {
  const days = dayNumber(today) - dayNumber(date);
  const apart = (today.year - date.year) * 12 + today.month - date.month;
  const reached = today.day >= Math.min(date.day, daysInMonth(today.year, today.month));
  return { months: days < 0 ? 0 : apart - (reached ? 0 : 1), days };
}

/** Whether more than `months` have gone by: the anniversary itself is not yet more. */
export function isOlderThan(date: CalendarDate, months: number, today: CalendarDate): boolean {
  return dayNumber(addMonths(date, months)) < dayNumber(today);
}

/** The same day so many months on; the last of the month where that has no such day. */
export function addMonths({ year, month, day }: CalendarDate, months: number): CalendarDate {
  const count = year * 12 + (month - 1) + months;
  const y = Math.floor(count / 12), m = count - y * 12 + 1;
  return { year: y, month: m, day: Math.min(day, daysInMonth(y, m)) };
}

function daysInMonth(year: number, month: number): number {
  if (month !== 2) return [4, 6, 9, 11].includes(month) ? 30 : 31;
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
}
