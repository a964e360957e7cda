import { daysInMonth, readDate } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";

const { months } = catalogueOf().stays.calendar;

/** "Jun 12" for 06-12 of every year, "Jul 2, 2027" for a date. */
export function formatBound(bound: string): string {
  const parts = bound.split("-");
  const [year, month, day] = parts.length === 3 ? parts : [null, ...parts];
  const name = months[Number(month) - 1]?.slice(0, 3);
  return name ? `${name} ${Number(day)}${year ? `, ${year}` : ""}` : bound;
}

/** An end of a season as it is typed: `Jun 12`, `June 12, 2027`, `6/12`, `06-12`, `2027-06-12`. Null where it is no day. */
export function readBound(text: string): string | null {
  const typed = text.trim().toLowerCase();
  const dated = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(typed);
  if (dated) return settle(dated[1], Number(dated[2]), Number(dated[3]));
  const numbers = /^(\d{1,2})[-/](\d{1,2})(?:[-/](\d{4}))?$/.exec(typed);
  if (numbers) return settle(numbers[3], Number(numbers[1]), Number(numbers[2]));
  const named = /^([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?(?:,? (\d{4}))?$/.exec(typed);
  if (!named) return null;
  const month = months.findIndex((name) => name.toLowerCase().startsWith(named[1]!)) + 1;
  return settle(named[3], month, Number(named[2]));
}

function settle(year: string | undefined, month: number, day: number): string | null {
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(Number(year ?? 2000), month)) return null;
  const [mm, dd] = [String(month).padStart(2, "0"), String(day).padStart(2, "0")];
  return year === undefined ? `${mm}-${dd}` : readDate(`${year}-${mm}-${dd}`);
}
