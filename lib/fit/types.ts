import type { SitePoint } from "@/lib/plane";

/** How the rig stands: backed in (its front to the road) or driven in. */
export type Heading = "tail-in" | "nose-in";

/** Where the rig point u = 0, v = 0 stands in the site frame (mm), and which way the rig faces. */
export interface Pose {
  readonly x: number;
  readonly y: number;
  readonly heading: Heading;
}

export type Verdict = "fits" | "gear" | "ask" | "unsettled" | "no";
export type Service = "power" | "water" | "sewer";
/** Met with what the guest has, met with something brought along, or not met. */
export type Means = "own" | "gear" | "no";

/** One wanted service: the pair of inlet and hookup used, and the run between them. */
export interface NeedResult {
  readonly service: Service;
  /** The hookup's id, or null where the site has none that could serve. */
  readonly hookup: string | null;
  /** Index into `rig.inlets`, or null. */
  readonly inlet: number | null;
  /** All of drop, path on the ground and climb, mm; null where there is no pair. */
  readonly route: number | null;
  /** The length the guest has, mm. */
  readonly own: number;
  /** What has to be brought beyond `own`, mm (0 where own gear reaches). */
  readonly extra: number;
  readonly ok: Means;
  /** The straight line passes under the rig. */
  readonly underBody: boolean;
  /** The run on the ground from below the inlet to the hookup, for drawing. */
  readonly line: readonly SitePoint[];
  /** Sewer only: drop from outlet to hookup with the ground included, and the drop the run needs, mm. */
  readonly fall?: { readonly drop: number; readonly needed: number };
}

export interface LevelResult {
  /** Lifts asked for, mm; 0 within tolerance. */
  readonly side: number;
  readonly along: number;
  readonly ok: Means;
}

export interface PowerResult {
  readonly receptacle: number;
  /** The adapter used, such as "50-to-30", or null where the plug goes straight in. */
  readonly through: string | null;
  readonly supplyVa: number;
  readonly usableVa: number;
  readonly runs: readonly string[];
  readonly shed: readonly string[];
}

/** The hard constraint with the least slack at the pose, and the two points between which the gap is measured. */
export interface Limit {
  readonly id: string;
  readonly slack: number;
  /** The plain distance between the two things, mm (slack plus the clearance kept). */
  readonly distance: number;
  readonly from: SitePoint;
  readonly to: SitePoint;
}

/**
 * A fact worth telling, as data; `wording` makes the sentence. `parts` are the two things that meet (ids of parts,
 * obstacles, hookups, loads or services). `short` is by how much it fails (mm, VA, kPa, or a count, as the code
 * says); `have` and `need` are the two numbers behind it where there are two.
 */
export interface Reason {
  readonly code: string;
  readonly parts: readonly string[];
  readonly short: number | null;
  readonly have?: number;
  readonly need?: number;
  /** The other constraints of the conflict, by id: it fails so much while these hold. */
  readonly while?: readonly string[];
}

/** Something the guest has to bring. `amount` is mm of lift, or the whole length of a hose or cord in mm. */
export interface Bring {
  readonly code: "cord" | "hose" | "sewer-hose" | "adapter" | "regulator" | "lift-side" | "lift-along";
  readonly amount: number | null;
  readonly what: string | null;
}

/**
 * Constraints (by id) that cannot hold together at this heading, or (null) at any that is allowed, while each one
 * dropped leaves the rest possible.
 */
export interface Conflict {
  readonly heading: Heading | null;
  readonly constraints: readonly string[];
  /** The nearest try, for drawing; null where no place would make a difference (a rule, a slope, a service not to be had). */
  readonly shown: Shown | null;
}

/** Where all of a conflict but one constraint hold, and that one fails least. Nobody can stand there. */
export interface Shown {
  /** The id of the constraint that fails. */
  readonly dropped: string;
  readonly pose: Pose;
  /** Null where there is nothing to measure between two points. */
  readonly gap: Missing | null;
}

/**
 * What is missing, as a line. `from` is the point of the rig that is in the way or too far out, `to` where it would
 * have to be, `short` apart. For a service the two ends of the run, with the run on the ground as `line`; `short` is
 * then what it is too long by, or for `fall:sewer` how much the drain lies too high.
 */
export interface Missing {
  readonly from: SitePoint;
  readonly to: SitePoint;
  readonly short: number;
  readonly line?: readonly SitePoint[];
}

/** A measurement that decides: the value at which the verdict turns (mm, or the field's own unit), and what it is on either side. */
export interface Ask {
  /** Such as `rig.inlets.2.u` or `site.obstacles.0.crownFrom`. */
  readonly field: string;
  readonly turnsAt: number;
  readonly below: Verdict;
  readonly above: Verdict;
}

/** One change to the site, the guest's gear or what the park allows. Amounts in mm (amperes for a receptacle). */
export type Change =
  | { readonly code: "remove"; readonly what: string }
  /** A crown's limbs taken off below this height. */
  | { readonly code: "trim"; readonly what: string; readonly amount: number }
  /** An obstacle or hookup carried off by so much along x and y. */
  | { readonly code: "move"; readonly what: string; readonly amount: number; readonly by: readonly [number, number] }
  | { readonly code: "lengthen" | "widen-left" | "widen-right"; readonly amount: number }
  | { readonly code: "add-receptacle"; readonly what: string; readonly amount: number }
  | { readonly code: "add-hookup"; readonly what: Service; readonly at: readonly [number, number] }
  | { readonly code: "level" }
  /** A rule set aside by the park's leave. */
  | { readonly code: "waive"; readonly what: string }
  | { readonly code: "leave-in"; readonly what: string }
  | { readonly code: "do-without"; readonly what: Service }
  | { readonly code: "park-elsewhere" }
  | { readonly code: "enter-from-either" }
  /** A run of so much in all, or a lift of so much, let pass though the park's settings allow less. */
  | { readonly code: "allow-run"; readonly what: Service; readonly amount: number }
  | { readonly code: "allow-lift"; readonly what: "side" | "along"; readonly amount: number };

/** The smallest change (or, where no single one does it, two together) that turns a `no`, and into what. */
export interface Remedy {
  readonly changes: readonly Change[];
  /** What the guest has to bring even then: longer hoses, an adapter, blocks. */
  readonly bring: readonly Bring[];
  readonly verdict: Extract<Verdict, "fits" | "gear">;
}

/** The ground plane under the site, per cent, and the worst misfit of its spot heights in mm (0 where given as slopes). */
export interface GroundResult {
  readonly along: number;
  readonly across: number;
  readonly worstResidual: number;
}

/** The way in, in short; all of it is told by `lib/access`. */
export interface AccessResult {
  /** `not-found` proves nothing: staff is to look. `no`: none can lead to any place on the pad. */
  readonly state: "found" | "not-found" | "no";
  /** From which side one comes, seen from the road looking onto the site; null where no way was found. */
  readonly from: "left" | "right" | null;
  /** Whether the rig turns to the side the driver looks at, or to the blind one. */
  readonly sight: "sight" | "blind" | null;
  /** The least room on the way, mm. */
  readonly room: number | null;
}

/** The answer for one rig on one site. */
export interface FitResult {
  readonly site: string;
  readonly verdict: Verdict;
  readonly tight: boolean;
  /** 0 to 100, orders sites within a verdict. Never shown to a guest as a number. */
  readonly score: number;
  readonly pose: Pose | null;
  /** The smallest hard slack at the pose, of all parts in force, mm. */
  readonly room: number | null;
  /** What the hard constraints of the must parts alone allow: some pose has `room`, none has more than `bound`. */
  readonly best: { readonly room: number; readonly bound: number };
  readonly limit: Limit | null;
  readonly needs: readonly NeedResult[];
  readonly level: LevelResult;
  readonly ground: GroundResult;
  readonly power: PowerResult | null;
  /** A stall's id, "in line", "hitched", "overflow", "no", or null where there is no vehicle to place. */
  readonly vehicle: string | null;
  /** Nice parts that have to stay in. */
  readonly leftIn: readonly string[];
  readonly conflicts: readonly Conflict[];
  /** Easiest first; empty unless asked for. */
  readonly remedies: readonly Remedy[];
  /** Measurements that are not known and decide the verdict. */
  readonly asks: readonly Ask[];
  /** Null where nobody has measured the way in, where there is no pose, and where it was not asked for. */
  readonly access: AccessResult | null;
  readonly bring: readonly Bring[];
  readonly reasons: readonly Reason[];
}
