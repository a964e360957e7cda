import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addDays, asDate, countByNight, countNights, dateOfDay, freeRuns, freeRunsBySite, freeSites, hasNight, listNights, meet, nearestFree, nights, overlaps, readNights, sharedNights, standing, type Nights } from "@/lib/stays";

const seed = 20261125;
/** Runs within one short stretch over a leap day, so that they often meet. */
const anyRun = fc.tuple(fc.integer({ min: 21_230, max: 21_270 }), fc.integer({ min: 1, max: 12 })).map(([from, count]): Nights => ({ arrive: dateOfDay(from), depart: dateOfDay(from + count) }));
const runs = fc.array(anyRun, { maxLength: 8 });
const span: Nights = nights("2028-02-20", "2028-04-10");

/** What the laws are held to: a set of dates, counted out one by one. */
const datesOf = (...list: Nights[]) => new Set(list.flatMap(listNights));

describe("readNights", () => {
  it("leaves the departure day free", () => {
    const stay = nights("2026-12-30", "2027-01-02");
    expect(listNights(stay)).toEqual(["2026-12-30", "2026-12-31", "2027-01-01"]);
    expect(hasNight(stay, asDate("2027-01-02"))).toBe(false);
    expect(countNights(stay)).toBe(3);
  });

  it("refuses a stay of no nights, one backwards and one of more than 400", () => {
    expect(readNights("2027-06-18", "2027-06-18")).toEqual({ ok: false, faults: ["no-nights"] });
    expect(readNights("2027-06-18", "2027-06-17")).toEqual({ ok: false, faults: ["backwards"] });
    expect(readNights("2027-01-01", addDays(asDate("2027-01-01"), 401))).toEqual({ ok: false, faults: ["too-many-nights"] });
    expect(readNights("2027-01-01", addDays(asDate("2027-01-01"), 400))).toMatchObject({ ok: true });
    expect(() => nights("2027-06-18", "2027-06-18")).toThrow("no-nights");
  });

  it("tells both dates that are none", () => {
    expect(readNights("2027-02-30", "soon")).toEqual({ ok: false, faults: ["arrive-not-a-date", "depart-not-a-date"] });
  });

  it("counts the nights on which clocks are put forward or back as one each, and the leap day's", () => {
    expect(countNights(nights("2027-03-13", "2027-03-15"))).toBe(2);
    expect(countNights(nights("2027-11-06", "2027-11-08"))).toBe(2);
    expect(countNights(nights("2028-02-28", "2028-03-01"))).toBe(2);
    expect(countNights(nights("2027-02-28", "2027-03-01"))).toBe(1);
  });
});

describe("two runs of nights", () => {
  it("touch where one leaves on the day the other arrives, which is no overlap", () => {
    const [a, b] = [nights("2027-06-01", "2027-06-03"), nights("2027-06-03", "2027-06-05")];
    expect(meet(a, b)).toEqual({ kind: "touching" });
    expect(overlaps(a, b)).toBe(false);
    expect(meet(a, nights("2027-06-06", "2027-06-07"))).toEqual({ kind: "apart", between: 3 });
    expect(meet(a, nights("2027-06-02", "2027-06-09"))).toEqual({ kind: "overlapping", shared: 1 });
  });

  it("overlap exactly where some date is in both, whichever is named first", () => {
    fc.assert(
      fc.property(anyRun, anyRun, (a, b) => {
        const shared = [...datesOf(a)].filter((date) => datesOf(b).has(date));
        expect(overlaps(a, b)).toBe(shared.length > 0);
        expect(overlaps(b, a)).toBe(overlaps(a, b));
        expect(meet(a, b)).toEqual(meet(b, a));
        const both = sharedNights(a, b);
        expect(both ? listNights(both) : []).toEqual(shared);
        const meeting = meet(a, b);
        if (meeting.kind === "overlapping") expect(meeting.shared).toBe(shared.length);
        if (meeting.kind === "apart") expect(datesOf(a, b).size + meeting.between).toBe(countNights({ arrive: a.arrive < b.arrive ? a.arrive : b.arrive, depart: a.depart > b.depart ? a.depart : b.depart }));
      }),
      { seed, numRuns: 500 },
    );
  });
});

describe("free nights", () => {
  it("are those of the span that nobody has, in runs that do not touch", () => {
    fc.assert(
      fc.property(runs, (taken) => {
        const free = freeRuns(span, taken);
        expect(free.flatMap(listNights)).toEqual(listNights(span).filter((date) => !datesOf(...taken).has(date)));
        free.slice(1).forEach((run, i) => expect(meet(free[i]!, run).kind).toBe("apart"));
        expect(freeRuns(span, [...taken].reverse())).toEqual(free);
        // Taking what is free leaves nothing.
        expect(freeRuns(span, [...taken, ...free])).toEqual([]);
      }),
      { seed, numRuns: 500 },
    );
  });

  it("make a site free for a stay exactly where the stay lies in one free run", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom("a", "b", "c"), anyRun), { maxLength: 8 }), anyRun, (entries, wanted) => {
        const occupancies = entries.map(([site, run]) => ({ site, nights: run }));
        const free = freeSites(["c", "a", "b"], occupancies, wanted);
        const within = freeRunsBySite(["c", "a", "b"], occupancies, wanted);
        expect(free).toEqual(["c", "a", "b"].filter((site) => within.get(site)!.length === 1 && countNights(within.get(site)![0]!) === countNights(wanted)));
        const counts = countByNight(occupancies, span);
        for (const { night, taken } of counts) expect(taken).toBe(occupancies.filter((occupancy) => hasNight(occupancy.nights, night)).length);
      }),
      { seed, numRuns: 300 },
    );
  });

  it("nearest to a wish are found as by trying every start", () => {
    fc.assert(
      fc.property(runs, anyRun, (taken, wanted) => {
        const count = countNights(wanted);
        const starts = listNights(span).filter((start) => {
          const run = { arrive: start, depart: addDays(start, count) };
          return run.depart <= span.depart && !taken.some((other) => overlaps(other, run));
        });
        const far = (start: string) => Math.abs(countDays(wanted.arrive, start));
        const best = starts.reduce<string | null>((kept, start) => (kept === null || far(start) < far(kept) ? start : kept), null);
        expect(nearestFree(wanted, taken, span)?.arrive ?? null).toBe(best);
      }),
      { seed, numRuns: 500 },
    );
  });

  it("come back when a hold has run out, at that very instant", () => {
    const hold = { until: 1000 };
    expect(standing([hold], 999)).toEqual([hold]);
    expect(standing([hold], 1000)).toEqual([]);
    expect(standing([{ until: null }], Number.MAX_SAFE_INTEGER)).toHaveLength(1);
  });
});

function countDays(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / 86_400_000;
}
