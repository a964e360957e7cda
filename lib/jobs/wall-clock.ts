import type { DayNumber } from "@/lib/stays";

/** What the clock on a wall shows, with its date; months from 1. */
export interface Wall {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

/** The date in `zone` at `instant` (milliseconds), as a day number; any year. */
export function dayIn(zone: string, instant: number): DayNumber {
  const { year, month, day } = wallAt(zone, instant);
  return Math.floor(Date.UTC(year, month - 1, day) / 86_400_000);
}

/**
 * When the clock in `zone` shows `wall`, milliseconds. A time that a clock put forward leaves out is taken as the one as much later;
 * of one that it shows twice, either may come out: they lie on one date.
 */
export function instantOf(wall: Wall, zone: string): number {
  const asUtc = utcOf(wall);
  const first = asUtc - offsetAt(zone, asUtc);
  return asUtc - offsetAt(zone, first);
}

function offsetAt(zone: string, instant: number): number {
  return utcOf(wallAt(zone, instant)) - Math.floor(instant / 1000) * 1000;
}

function utcOf({ year, month, day, hour, minute, second }: Wall): number {
  return Date.UTC(year, month - 1, day, hour, minute, second);
}

function wallAt(zone: string, instant: number): Wall {
  const parts = new Map(formatterOf(zone).formatToParts(instant).map(({ type, value }) => [type, Number(value)]));
  const part = (name: Intl.DateTimeFormatPartTypes) => parts.get(name)!;
  return { year: part("year"), month: part("month"), day: part("day"), hour: part("hour"), minute: part("minute"), second: part("second") };
}

/** One is dear to make and asked for every event. */
const formatters = new Map<string, Intl.DateTimeFormat>();

function formatterOf(zone: string): Intl.DateTimeFormat {
  const known = formatters.get(zone);
  if (known) return known;
  const made = new Intl.DateTimeFormat("en-US", {
    timeZone: zone, calendar: "gregory", numberingSystem: "latn", hourCycle: "h23",
    year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", second: "numeric",
  });
  // Names come from files: what is kept of them is bounded.
  if (formatters.size < 100) formatters.set(zone, made);
  return made;
}
