/**
 * The life of a stay, and who may move it on. One table, {@link moves}, decides; pages, interface and database code
 * ask it and have no rules of their own.
 */

export const stayStates = ["requested", "held", "booked", "arrived", "departed", "cancelled", "no-show"] as const;
export type StayState = (typeof stayStates)[number];

/** Who acts. A manager may do all that the desk may. The clock is what happens by itself when time runs out. */
export const actorKinds = ["guest", "desk", "manager", "clock"] as const;
export type ActorKind = (typeof actorKinds)[number];

/** What has to hold beside the right actor, all told by dates in the park's own calendar or by the park's settings. */
export type MoveCondition =
  /** Always. */
  | "any-time"
  /** The park lets guests book; else they ask. Only the guest is bound by it. */
  | "guests-may-book"
  /** The time of the hold or request has run out. */
  | "run-out"
  /** The arrival day or later: nobody has arrived, or failed to, before it. */
  | "from-arrival"
  /** The day after arrival or later: until then they may still come. */
  | "after-arrival"
  /** The arrival day or before it: a guest does not cancel nights that are past. */
  | "until-arrival";

interface Move {
  /** Null: a new stay. */
  readonly from: StayState | null;
  readonly to: StayState;
  readonly by: Readonly<Partial<Record<Exclude<ActorKind, "manager">, MoveCondition>>>;
}

/** Who may move a stay from what to what. What is not here is not allowed. */
export const moves: readonly Move[] = [
  { from: null, to: "held", by: { guest: "any-time", desk: "any-time" } },
  { from: null, to: "requested", by: { guest: "any-time", desk: "any-time" } },
  { from: null, to: "booked", by: { guest: "guests-may-book", desk: "any-time" } },
  // A walk-in.
  { from: null, to: "arrived", by: { desk: "from-arrival" } },
  { from: "held", to: "requested", by: { guest: "any-time", desk: "any-time" } },
  { from: "held", to: "booked", by: { guest: "guests-may-book", desk: "any-time" } },
  { from: "held", to: "cancelled", by: { guest: "any-time", desk: "any-time", clock: "run-out" } },
  // The desk keeps a site for someone who asked, until they have decided.
  { from: "requested", to: "held", by: { desk: "any-time" } },
  { from: "requested", to: "booked", by: { desk: "any-time" } },
  { from: "requested", to: "cancelled", by: { guest: "any-time", desk: "any-time", clock: "run-out" } },
  { from: "booked", to: "arrived", by: { desk: "from-arrival" } },
  { from: "booked", to: "no-show", by: { desk: "from-arrival", clock: "after-arrival" } },
  { from: "booked", to: "cancelled", by: { guest: "until-arrival", desk: "any-time" } },
  { from: "arrived", to: "departed", by: { desk: "any-time" } },
  // Undoing a slip, or they came after all. The nights are claimed again, which the database may refuse.
  { from: "arrived", to: "booked", by: { desk: "any-time" } },
  { from: "departed", to: "arrived", by: { desk: "any-time" } },
  { from: "no-show", to: "booked", by: { desk: "any-time" } },
  { from: "no-show", to: "arrived", by: { desk: "any-time" } },
  { from: "cancelled", to: "booked", by: { desk: "any-time" } },
];

/** What the conditions are judged by. */
export interface MoveFacts {
  readonly guestsMay: "ask" | "book";
  /** Days from today to the arrival: 0 on the day, negative after it. */
  readonly daysToArrival: number;
  /** Whether a hold or request has run out. */
  readonly runOut: boolean;
}

export type MoveJudgement = { readonly allowed: true } | { readonly allowed: false; readonly why: "no-such-move" | "not-theirs" | Exclude<MoveCondition, "any-time"> };

/** Whether `actor` may move a stay from `from` (null: a new one) to `to`, and if not, why. */
export function judgeMove(from: StayState | null, to: StayState, actor: ActorKind, facts: MoveFacts): MoveJudgement {
  const move = moves.find((entry) => entry.from === from && entry.to === to);
  if (!move) return { allowed: false, why: "no-such-move" };
  const condition = move.by[actor === "manager" ? "desk" : actor];
  if (condition === undefined) return { allowed: false, why: "not-theirs" };
  return condition === "any-time" || holds(condition, facts) ? { allowed: true } : { allowed: false, why: condition };
}

function holds(condition: Exclude<MoveCondition, "any-time">, { guestsMay, daysToArrival, runOut }: MoveFacts): boolean {
  switch (condition) {
    case "guests-may-book":
      return guestsMay === "book";
    case "run-out":
      return runOut;
    case "from-arrival":
      return daysToArrival <= 0;
    case "after-arrival":
      return daysToArrival < 0;
    case "until-arrival":
      return daysToArrival >= 0;
  }
}

/** What may be changed of a stay without moving it to another state. */
export const changes = ["site", "dates", "rig", "guest", "note"] as const;
export type Change = (typeof changes)[number];

/** Who may change what while the stay is in which state. Guests change what they bring, not where and when: for that they cancel or call. */
const changesBy: Readonly<Record<"guest" | "desk", Readonly<Partial<Record<StayState, readonly Change[]>>>>> = {
  guest: { held: ["rig", "guest", "note"], requested: ["rig", "guest", "note"], booked: ["rig", "guest", "note"] },
  desk: {
    held: changes,
    requested: changes,
    booked: changes,
    arrived: changes,
    departed: ["guest", "note"],
    cancelled: ["guest", "note"],
    "no-show": ["guest", "note"],
  },
};

/** Whether `actor` may change `change` of a stay that is in `state`. The clock changes nothing. */
export function mayChange(state: StayState, change: Change, actor: ActorKind): boolean {
  if (actor === "clock") return false;
  return changesBy[actor === "manager" ? "desk" : actor][state]?.includes(change) ?? false;
}

/**
 * The states in which a stay with a site occupies its nights. A request does too: the guest chose that site, and must
 * not lose it while the desk has not read the request. A stay without a site occupies nothing.
 */
export const occupyingStates: readonly StayState[] = ["requested", "held", "booked", "arrived", "departed"];

export function occupies(state: StayState): boolean {
  return occupyingStates.includes(state);
}

/** Whether a hold or request that lasts until `until` has run out at `now`, both milliseconds. At that very instant it has. Null never does. */
export function isRunOut(until: number | null, now: number): boolean {
  return until !== null && now >= until;
}
