import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  addDays, costOfCancelling, countByNight, countNights, dateOfDay, freeRuns, freeRunsBySite, freeSites, judgeMove, judgeNights, layInLanes, listNights, listsOf, mayChange, meet, moves, nearestFree,
  nights, overlaps, sharedNights, standing, stayStates, staySettingsSchema, weekday, changes, type ActorKind, type IsoDate, type MoveFacts, type Nights, type StayState,
} from "@/lib/stays";

const seed = 20261125;
const runsOf = (numRuns: number) => ({ seed, numRuns });

/** Runs of nights close enough together that they often meet, over a leap day. */
const anyNights = fc.tuple(fc.integer({ min: 21_200, max: 21_280 }), fc.integer({ min: 1, max: 20 })).map(([from, count]): Nights => ({ arrive: dateOfDay(from), depart: dateOfDay(from + count) }));
const several = fc.array(anyNights, { maxLength: 12 });
const anyShift = fc.integer({ min: -9000, max: 50_000 });
const occupied = fc.array(fc.record({ site: fc.constantFrom("a", "b", "c"), nights: anyNights }), { maxLength: 12 });
const wide = nights("2028-01-01", "2028-06-01");

const moved = (by: number) => ({ arrive, depart }: Nights): Nights => ({ arrive: addDays(arrive, by), depart: addDays(depart, by) });

describe("moving everything by the same days", () => {
  it("keeps how many nights there are and how two runs lie to each other", () => {
    fc.assert(fc.property(anyNights, anyNights, anyShift, (a, b, by) => {
      const shift = moved(by);
      expect(countNights(shift(a))).toBe(countNights(a));
      expect(listNights(shift(a))).toEqual(listNights(a).map((date) => addDays(date, by)));
      expect(meet(shift(a), shift(b))).toEqual(meet(a, b));
      const shared = sharedNights(a, b);
      expect(sharedNights(shift(a), shift(b))).toEqual(shared && shift(shared));
      expect(Math.abs((weekday(addDays(a.arrive, by)) - weekday(a.arrive) - by) % 7)).toBe(0);
    }), runsOf(500));
  });

  it("keeps what is free, the nearest free nights, and how many are taken each night", () => {
    fc.assert(fc.property(occupied, anyNights, anyShift, (list, wanted, by) => {
      const shift = moved(by), sites = ["b", "a", "c", "d"];
      const later = list.map(({ site, nights: some }) => ({ site, nights: shift(some) }));
      expect(freeSites(sites, later, shift(wanted))).toEqual(freeSites(sites, list, wanted));
      expect([...freeRunsBySite(sites, later, shift(wide))]).toEqual([...freeRunsBySite(sites, list, wide)].map(([site, runs]) => [site, runs.map(shift)]));
      const taken = list.map((one) => one.nights), near = nearestFree(wanted, taken, wide);
      expect(nearestFree(shift(wanted), taken.map(shift), shift(wide))).toEqual(near && shift(near));
      expect(countByNight(later, shift(wide))).toEqual(countByNight(list, wide).map(({ night, taken: count }) => ({ night: addDays(night, by), taken: count })));
    }), runsOf(200));
  });

  it("keeps the rows of the board, the lists of the day, the limits and what canceling costs", () => {
    const settings = staySettingsSchema.parse({ daysAhead: 30, longestStay: 14, cancellation: [{ daysBefore: 0, keep: { kind: "share", basisPoints: 10_000 } }, { daysBefore: 3, keep: { kind: "nights", nights: 2 } }, { daysBefore: 9, keep: { kind: "amount", amount: 500 } }] });
    fc.assert(fc.property(several, anyNights, fc.integer({ min: 21_190, max: 21_290 }), fc.integer({ min: -3, max: 3 }), fc.constantFrom(...stayStates), anyShift, (list, own, at, ahead, state, by) => {
      const shift = moved(by), today = dateOfDay(at), day = addDays(today, ahead), [todayThen, dayThen] = [addDays(today, by), addDays(day, by)];
      expect(layInLanes(list.map(shift))).toEqual(layInLanes(list));
      const stay = { state, nights: own, site: "a", freedFrom: null };
      expect(listsOf({ ...stay, nights: shift(own) }, dayThen, todayThen)).toEqual(listsOf(stay, day, today));
      for (const who of ["guest", "desk"] as const) {
        const then = judgeNights(shift(own), who, todayThen, settings).map((fault) => ("earliest" in fault ? { ...fault, earliest: addDays(fault.earliest, -by) } : "latest" in fault ? { ...fault, latest: addDays(fault.latest, -by) } : fault));
        expect(then).toEqual(judgeNights(own, who, today, settings));
      }
      const cost = (of: Nights, on: IsoDate) => costOfCancelling(settings.cancellation, { nights: of, total: 12_345, paid: 4000, today: on });
      expect(cost(shift(own), todayThen)).toEqual(cost(own, today));
    }), runsOf(300));
  });
});

describe("two runs of nights", () => {
  it("that touch never overlap; a run overlaps itself; overlapping goes both ways", () => {
    fc.assert(fc.property(anyNights, anyNights, fc.integer({ min: 1, max: 20 }), (a, b, count) => {
      const next: Nights = { arrive: a.depart, depart: addDays(a.depart, count) };
      expect(overlaps(a, next) || overlaps(next, a)).toBe(false);
      expect(meet(a, next)).toEqual({ kind: "touching" });
      expect(overlaps(a, a)).toBe(true);
      expect(sharedNights(a, a)).toEqual(a);
      expect(overlaps(a, b)).toBe(overlaps(b, a));
      expect(sharedNights(a, b)).toEqual(sharedNights(b, a));
    }), runsOf(500));
  });

  it("cut anywhere, the two parts touch, make up the whole, and meet a third exactly where the whole does", () => {
    fc.assert(fc.property(anyNights, anyNights, fc.nat(), (whole, other, where) => {
      fc.pre(countNights(whole) > 1);
      const cut = addDays(whole.arrive, 1 + (where % (countNights(whole) - 1)));
      const [one, two] = [{ arrive: whole.arrive, depart: cut }, { arrive: cut, depart: whole.depart }];
      expect([...listNights(one), ...listNights(two)]).toEqual(listNights(whole));
      expect(overlaps(one, two)).toBe(false);
      expect(overlaps(one, other) || overlaps(two, other)).toBe(overlaps(whole, other));
      expect(freeRuns(wide, [one, two])).toEqual(freeRuns(wide, [whole]));
    }), runsOf(500));
  });

  it("taking one more occupant never frees anything, and one that has run out takes nothing", () => {
    fc.assert(fc.property(occupied, fc.record({ site: fc.constantFrom("a", "b", "c"), nights: anyNights }), anyNights, fc.nat(1000), (list, more, wanted, now) => {
      const sites = ["a", "b", "c"], before = freeSites(sites, list, wanted), after = freeSites(sites, [...list, more], wanted);
      expect(before.filter((site) => after.includes(site))).toEqual(after);
      expect(before.length - after.length).toBeLessThanOrEqual(1);
      const held = standing([...list.map((one) => ({ ...one, until: null })), { ...more, until: now }], now);
      expect(freeSites(sites, held, wanted)).toEqual(before);
    }), runsOf(300));
  });
});

describe("the rows of stays without a site", () => {
  it("never hold two that overlap, and are no more than the night that most want", () => {
    fc.assert(fc.property(fc.array(anyNights, { maxLength: 40 }), (list) => {
      const lanes = layInLanes(list);
      expect(lanes).toHaveLength(list.length);
      list.forEach((a, i) => list.slice(i + 1).forEach((b, k) => { if (lanes[i] === lanes[i + 1 + k]) expect(overlaps(a, b)).toBe(false); }));
      const deepest = Math.max(0, ...countByNight(list.map((one) => ({ nights: one })), wide).map(({ taken }) => taken));
      expect(new Set(lanes).size).toBe(deepest);
      expect(Math.max(-1, ...lanes)).toBe(deepest - 1);
    }), runsOf(500));
  });
});

describe("the table of moves", () => {
  const ended: readonly StayState[] = ["departed", "cancelled", "no-show"];
  const anyFacts: fc.Arbitrary<MoveFacts> = fc.record({ guestsMay: fc.constantFrom("ask" as const, "book" as const), daysToArrival: fc.integer({ min: -400, max: 400 }), runOut: fc.boolean() });
  const anySteps = fc.array(fc.record({ actor: fc.constantFrom<ActorKind>("guest", "desk", "manager", "clock"), to: fc.constantFrom(...stayStates), facts: anyFacts }), { maxLength: 60 });

  it("has no way out of an end for a guest or for time, whatever the day and the park's rules; only the desk takes back a slip", () => {
    fc.assert(fc.property(fc.constantFrom(...ended), fc.constantFrom(...stayStates), anyFacts, (from, to, facts) => {
      for (const actor of ["guest", "clock"] as const) expect(judgeMove(from, to, actor, facts).allowed).toBe(false);
      if (judgeMove(from, to, "desk", facts).allowed) expect(["booked", "arrived"]).toContain(to);
      expect(judgeMove(from, to, "manager", facts)).toEqual(judgeMove(from, to, "desk", facts));
    }), runsOf(500));
    for (const { from, by } of moves) if (from !== null && ended.includes(from)) expect(Object.keys(by)).toEqual(["desk"]);
  });

  it("never leads a guest to a state that is the desk's to say, nor back to where nobody has asked yet", () => {
    fc.assert(fc.property(anySteps, (steps) => {
      let state: StayState | null = null;
      for (const { actor, to, facts } of steps) {
        if (!judgeMove(state, to, actor, facts).allowed) continue;
        if (actor === "guest") expect(["held", "requested", "booked", "cancelled"]).toContain(to);
        if (actor === "clock") expect(["cancelled", "no-show"]).toContain(to);
        // Once booked, a stay is never a mere hold or question again.
        if (state !== null && ["booked", "arrived", ...ended].includes(state)) expect(["held", "requested"]).not.toContain(to);
        if (to === "arrived" && state !== "departed" && state !== "no-show") expect(facts.daysToArrival).toBeLessThanOrEqual(0);
        state = to;
      }
    }), runsOf(2000));
  });

  it("lets nobody change where and when of a stay that has ended", () => {
    for (const state of ended) for (const change of changes) for (const actor of ["guest", "desk", "manager", "clock"] as const) if (["site", "dates", "rig"].includes(change)) expect(mayChange(state, change, actor)).toBe(false);
  });
});
