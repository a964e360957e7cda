import { dayNumber } from "./dates";
import type { Nights } from "./nights";

/** Lays stays that have no site into as few rows as they need, each row's stays apart: by arrival, the first row that is free. One row number for each, in the order given. */
export function layInLanes(all: readonly Nights[]): number[] {
  const lanes: number[] = [];
  const rows = new Array<number>(all.length).fill(0);
  const byArrival = all.map((nights, i) => ({ nights, i })).sort((a, b) => dayNumber(a.nights.arrive) - dayNumber(b.nights.arrive) || a.i - b.i);
  for (const { nights, i } of byArrival) {
    const free = lanes.findIndex((until) => until <= dayNumber(nights.arrive));
    const lane = free < 0 ? lanes.length : free;
    lanes[lane] = dayNumber(nights.depart);
    rows[i] = lane;
  }
  return rows;
}
