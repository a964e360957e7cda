import { addDays, dayNumber, daysInMonth, readDate, weekday, type IsoDate } from "./dates";
import { mostNights } from "./nights";

export type ReadDay = { readonly ok: true; readonly date: IsoDate } | { readonly ok: false; readonly why: "empty" | "not-a-date" | "no-such-day" | "past" };

const monthStems = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
const dayStems = ["sun", "mon", "tue", "wed", "thu", "fri", "sat"];
const monthPattern = "(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\\.?";

/**
 * The date that somebody types in a hurry: `jun 18`, `18 jun`, `6/18` (month first, as in North America), `6/18/27`, `2027-06-18`, `fri`, `today`,
 * `tomorrow`, `+3` (days from today). Without a year it is the next such day, today included; a day of the week is the coming one,
 * today included. A date given with its year may not lie before yesterday.
 */
export function readDay(text: string, today: IsoDate): ReadDay {
  const plain = text.trim().toLowerCase().replace(/,/g, " ").replace(/\s+/g, " ");
  if (plain === "") return { ok: false, why: "empty" };
  if (plain === "today" || plain === "tonight") return { ok: true, date: today };
  if (plain === "tomorrow") return { ok: true, date: addDays(today, 1) };
  const later = /^\+ ?(\d{1,3})$/.exec(plain);
  if (later) return { ok: true, date: addDays(today, Number(later[1])) };
  const named = dayStems.findIndex((stem) => new RegExp(`^${stem}[a-z]*$`).test(plain));
  if (named >= 0) return { ok: true, date: addDays(today, (named - weekday(today) + 7) % 7) };
  const parts = partsOf(plain);
  return parts ? settle(parts, today) : { ok: false, why: "not-a-date" };
}

export type ReadDeparture = { readonly ok: true; readonly date: IsoDate } | { readonly ok: false; readonly why: "empty" | "not-a-date" | "no-such-day" | "not-after" | "too-long" };

/** When they leave, as somebody types it: `3` or `3 nights`, `2 weeks`, or a date, the next such day after the arrival. */
export function readDeparture(text: string, arrive: IsoDate): ReadDeparture {
  const plain = text.trim().toLowerCase();
  const count = /^\+? ?(\d{1,3}) ?(n|nights?|w|weeks?)?$/.exec(plain);
  if (count) {
    const nights = Number(count[1]) * (count[2]?.startsWith("w") ? 7 : 1);
    if (nights === 0) return { ok: false, why: "not-after" };
    return nights > mostNights ? { ok: false, why: "too-long" } : { ok: true, date: addDays(arrive, nights) };
  }
  const read = readDay(text, addDays(arrive, 1));
  if (!read.ok) return { ok: false, why: read.why === "past" ? "not-after" : read.why };
  const nights = dayNumber(read.date) - dayNumber(arrive);
  if (nights <= 0) return { ok: false, why: "not-after" };
  return nights > mostNights ? { ok: false, why: "too-long" } : { ok: true, date: read.date };
}

interface Parts {
  readonly year: number | null;
  readonly month: number;
  readonly day: number;
}

function partsOf(plain: string): Parts | null {
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(plain);
  if (iso) return { year: Number(iso[1]), month: Number(iso[2]), day: Number(iso[3]) };
  const slashed = /^(\d{1,2})[/.](\d{1,2})(?:[/.](\d{2}|\d{4}))?$/.exec(plain);
  if (slashed) return { year: yearOf(slashed[3]), month: Number(slashed[1]), day: Number(slashed[2]) };
  const monthFirst = new RegExp(`^${monthPattern} ?(\\d{1,2})(?:st|nd|rd|th)?(?: (\\d{2}|\\d{4}))?$`).exec(plain);
  if (monthFirst) return { year: yearOf(monthFirst[3]), month: monthStems.indexOf(monthFirst[1]!) + 1, day: Number(monthFirst[2]) };
  const dayFirst = new RegExp(`^(\\d{1,2})(?:st|nd|rd|th)? ?${monthPattern}(?: (\\d{2}|\\d{4}))?$`).exec(plain);
  if (dayFirst) return { year: yearOf(dayFirst[3]), month: monthStems.indexOf(dayFirst[2]!) + 1, day: Number(dayFirst[1]) };
  return null;
}

function yearOf(text: string | undefined): number | null {
  return text === undefined ? null : text.length === 2 ? 2000 + Number(text) : Number(text);
}

/** Leap days come up to eight years apart: 2096 and 2104. */
const farthestLeapDay = 8;

function settle({ year, month, day }: Parts, today: IsoDate): ReadDay {
  if (month < 1 || month > 12 || day < 1) return { ok: false, why: "no-such-day" };
  const first = Number(today.slice(0, 4));
  const years = year === null ? Array.from({ length: farthestLeapDay + 1 }, (_, i) => first + i) : [year];
  for (const one of years) {
    if (day > daysInMonth(one, month)) continue;
    const date = readDate(`${one}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`);
    if (date === null) return { ok: false, why: "no-such-day" };
    // The night before today is still the desk's, after midnight.
    if (year !== null && date < addDays(today, -1)) return { ok: false, why: "past" };
    if (year !== null || date >= today) return { ok: true, date };
  }
  return { ok: false, why: "no-such-day" };
}

