import { asDate, dayNumber, daysInMonth, type IsoDate } from "@/lib/stays";

/** How long ago something was: whole months (an anniversary that a month lacks falls on its last day), and days in all. Counted on the calendar, not in milliseconds, so that no clock change and no leap day moves it. */
export interface Age {
  readonly months: number;
  /** Negative for a date to come. */
  readonly days: number;
}

export interface DateParts {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  /** 1 to 31. */
  readonly day: number;
}

export function partsOf(date: IsoDate): DateParts {
  const [year, month, day] = date.split("-").map(Number) as [number, number, number];
  return { year, month, day };
}

/** The date on the wall of whoever serves the page, where the moment is `now`. */
export function dateOf(now: Date): IsoDate {
  return dateFrom({ year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() });
}

export function ageOn(date: IsoDate, today: IsoDate): Age {
  const days = dayNumber(today) - dayNumber(date);
  const then = partsOf(date), now = partsOf(today);
  const apart = (now.year - then.year) * 12 + now.month - then.month;
  const reached = now.day >= Math.min(then.day, daysInMonth(now.year, now.month));
  return { months: days < 0 ? 0 : apart - (reached ? 0 : 1), days };
}

/** Whether more than `months` have gone by: the anniversary itself is not yet more. */
export function isOlderThan(date: IsoDate, months: number, today: IsoDate): boolean {
  return dayNumber(addMonths(date, months)) < dayNumber(today);
}

/** The same day so many months on; the last of the month where that has no such day. */
export function addMonths(date: IsoDate, months: number): IsoDate {
  const { year, month, day } = partsOf(date);
  const count = year * 12 + (month - 1) + months;
  const y = Math.floor(count / 12), m = count - y * 12 + 1;
  return dateFrom({ year: y, month: m, day: Math.min(day, daysInMonth(y, m)) });
}

function dateFrom({ year, month, day }: DateParts): IsoDate {
  const two = (n: number) => String(n).padStart(2, "0");
  return asDate(`${year}-${two(month)}-${two(day)}`);
}
