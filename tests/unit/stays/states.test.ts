import { describe, expect, it } from "vitest";
import { changes, judgeMove, mayChange, moves, occupies, stayStates, type ActorKind, type MoveFacts, type StayState } from "@/lib/stays";

const open: MoveFacts = { guestsMay: "book", daysToArrival: 0, runOut: true };
const allowed = (actor: ActorKind, facts = open) =>
  [null, ...stayStates].flatMap((from) => stayStates.filter((to) => judgeMove(from, to, actor, facts).allowed).map((to) => `${from ?? "new"} > ${to}`));

describe("who may move a stay", () => {
  it("a guest opens, asks, books where the park lets them, and cancels", () => {
    expect(allowed("guest")).toEqual([
      "new > requested", "new > held", "new > booked", "requested > cancelled", "held > requested", "held > booked", "held > cancelled", "booked > cancelled",
    ]);
    expect(judgeMove("held", "booked", "guest", { ...open, guestsMay: "ask" })).toEqual({ allowed: false, why: "guests-may-book" });
    expect(judgeMove("held", "booked", "desk", { ...open, guestsMay: "ask" })).toEqual({ allowed: true });
  });

  it("nobody but the desk says who arrived, left or did not come; the clock only the last, a day later", () => {
    expect(allowed("clock")).toEqual(["requested > cancelled", "held > cancelled"]);
    expect(allowed("clock", { ...open, daysToArrival: -1 })).toEqual(["requested > cancelled", "held > cancelled", "booked > no-show"]);
    expect(allowed("clock", { ...open, runOut: false })).toEqual([]);
    expect(judgeMove("booked", "arrived", "guest", open)).toEqual({ allowed: false, why: "not-theirs" });
  });

  it("nobody arrives, or fails to, before the day", () => {
    for (const to of ["arrived", "no-show"] as const) expect(judgeMove("booked", to, "desk", { ...open, daysToArrival: 1 })).toEqual({ allowed: false, why: "from-arrival" });
    expect(judgeMove(null, "arrived", "desk", { ...open, daysToArrival: 1 })).toEqual({ allowed: false, why: "from-arrival" });
  });

  it("a guest cancels up to the arrival day, the desk after it too", () => {
    expect(judgeMove("booked", "cancelled", "guest", { ...open, daysToArrival: 0 }).allowed).toBe(true);
    expect(judgeMove("booked", "cancelled", "guest", { ...open, daysToArrival: -1 })).toEqual({ allowed: false, why: "until-arrival" });
    expect(judgeMove("booked", "cancelled", "desk", { ...open, daysToArrival: -1 }).allowed).toBe(true);
  });

  it("a manager may whatever the desk may", () => expect(allowed("manager")).toEqual(allowed("desk")));

  it("the table names each move once, and no state leads to itself", () => {
    const names = moves.map(({ from, to }) => `${from} ${to}`);
    expect(new Set(names).size).toBe(names.length);
    for (const state of stayStates) expect(judgeMove(state, state, "manager", open)).toEqual({ allowed: false, why: "no-such-move" });
  });

  it("every state can be reached from a new stay, and left again by the desk", () => {
    const reached = new Set<StayState | null>([null]);
    for (let before = 0; before !== reached.size; ) {
      before = reached.size;
      for (const { from, to } of moves) if (reached.has(from)) reached.add(to);
    }
    expect(reached.size).toBe(stayStates.length + 1);
    for (const state of stayStates) expect(moves.some(({ from, by }) => from === state && by.desk)).toBe(true);
  });
});

describe("who may change a stay", () => {
  it("a guest what they bring, until they arrive; never where and when", () => {
    for (const state of stayStates) {
      const may = changes.filter((change) => mayChange(state, change, "guest"));
      expect(may).toEqual(["held", "requested", "booked"].includes(state) ? ["rig", "guest", "note"] : []);
      expect(changes.some((change) => mayChange(state, change, "clock"))).toBe(false);
      expect(changes.filter((change) => mayChange(state, change, "manager"))).toEqual(changes.filter((change) => mayChange(state, change, "desk")));
    }
  });

  it("only what occupies its nights can be moved", () => {
    expect(stayStates.filter((state) => !occupies(state))).toEqual(["cancelled", "no-show"]);
    for (const state of stayStates) if (mayChange(state, "site", "desk")) expect(occupies(state)).toBe(true);
  });
});
