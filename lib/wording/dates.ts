import { weekday, type IsoDate } from "@/lib/stays/dates";
import { countNights, type Nights } from "@/lib/stays/nights";

/** The names a calendar has in a language. */
export interface CalendarNames {
  /** From Sunday. */
  readonly days: readonly string[];
  readonly months: readonly string[];
}

const numbers = (date: IsoDate) => date.split("-").map(Number) as [number, number, number];
const short = (name: string) => name.slice(0, 3);

/** "Fri, Jun 18", with the year where it is not `year`. */
export function formatDay(date: IsoDate, { days, months }: CalendarNames, year?: number): string {
  const [y, m, d] = numbers(date);
  return `${short(days[weekday(date)]!)}, ${short(months[m - 1]!)} ${d}${y === year ? "" : `, ${y}`}`;
}

/** "Friday, June 18, 2027". */
export function formatLongDay(date: IsoDate, { days, months }: CalendarNames): string {
  const [y, m, d] = numbers(date);
  return `${days[weekday(date)]}, ${months[m - 1]} ${d}, ${y}`;
}

/** "Fri, Jun 18 to Sun, Jun 20, 2027 (2 nights)". */
export function formatNights(nights: Nights, names: CalendarNames, nightsWord: (count: number) => string): string {
  const [year] = numbers(nights.depart);
  const sameYear = numbers(nights.arrive)[0] === year;
  return `${formatDay(nights.arrive, names, sameYear ? year : undefined)} to ${formatDay(nights.depart, names)} (${nightsWord(countNights(nights))})`;
}
