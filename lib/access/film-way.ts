import { degreesFromRadians } from "@/lib/measure";
import { sitePoint, type SitePoint } from "@/lib/plane";
import { placed, type BodyPoint, type Configuration } from "@/lib/turning";
import { judgeFor, meetingAt, type Judge } from "./judge";
import { hidingOf, viewOf, type Hiding, type View } from "./sight";
import type { Post, Spotting } from "./spotter";
import type { Train, TrainBox } from "./train";
import type { Keep, Leg, Meeting, Tightest, Way } from "./types";
import type { WayGround } from "./way-ground";

/** One body of a train as it is drawn, in its own frame: u forward from the middle of its (rear) axles, v to the left. Millimetres. */
export interface FilmedBody {
  readonly boxes: readonly Pick<TrainBox, "part" | "u0" | "u1" | "halfWidth">[];
  /** Where its tires meet the ground. */
  readonly wheels: readonly { readonly at: BodyPoint; readonly steered: boolean }[];
  /** How far ahead of its axles it hangs on what draws it; null for what steers. */
  readonly hitch: number | null;
}

/** What comes nearest to what at a moment. */
export interface Nearest extends Meeting {
  /** What lies between the two, mm; from a tire's outer edge where it is the edge of the ground. Null where the clearance is not kept. */
  readonly gap: number | null;
}

/** One moment of a leg, as driven. */
export interface Moment {
  /** How far the front axle has rolled since the leg began, mm. */
  readonly along: number;
  /** How far the front wheels are turned, and the bends behind them, degrees, to the left above zero. */
  readonly steer: number;
  readonly hitches: readonly number[];
  /** Of every body; `heading` in degrees, going on beyond a full turn rather than jumping back. */
  readonly poses: readonly { readonly at: SitePoint; readonly heading: number }[];
  readonly nearest: Nearest;
  /** The post that is stood on then, by its place among all posts, and through what the driver sees it from where. Null where none is. */
  readonly helper: { readonly post: number; readonly seen: { readonly view: View; readonly eye: SitePoint } | null } | null;
}

/** A way moment by moment, as plain data. */
export interface FilmedWay {
  readonly bodies: readonly FilmedBody[];
  /** For each leg, in the order driven. */
  readonly legs: readonly (readonly Moment[])[];
}

/** A way moment by moment, at least one every so many millimetres and one where it is tightest. */
export function filmWay(ground: WayGround, train: Train, { legs, tightest }: Pick<Way, "legs" | "tightest">, { posts }: Pick<Spotting, "posts">, keep: Keep, every: number): FilmedWay {
  const judge = judgeFor(train, ground, keep), hiding = hidingOf(train, ground.standing);
  return { bodies: bodiesOf(train), legs: legs.map((leg, i) => momentsOf({ judge, hiding, posts }, leg, i, alongs(leg, tightest.leg === i ? tightest : null, every))) };
}

/** What comes nearest to what, with the gap between the two as somebody with a tape would read it. */
export function nearestOf(meeting: Meeting, { footing, touch }: Keep): Nearest {
  const { part, other, room, from, to } = meeting, apart = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (part !== "wheels" || other !== "ground") return { ...meeting, gap: room < -touch ? null : apart };
  // Ground is judged at a tire's middle; what one sees is its outer edge.
  const t = apart > footing ? footing / apart : 0;
  return { ...meeting, from: sitePoint(from[0] + (to[0] - from[0]) * t, from[1] + (to[1] - from[1]) * t), gap: room < -touch ? null : Math.max(0, room) };
}

function bodiesOf({ boxes, combination: { bodies, units, vehicle } }: Train): FilmedBody[] {
  return bodies.map(({ wheels }, b) => ({
    boxes: boxes[b]!.map(({ part, u0, u1, halfWidth }) => ({ part, u0, u1, halfWidth })),
    wheels: wheels.map((at) => ({ at, steered: b === 0 && at[0] === vehicle.wheelbase })),
    hitch: b === 0 ? null : units[b - 1]!.hitchToAxle,
  }));
}

function alongs({ drive: { reached } }: Leg, tightest: Tightest | null, every: number): number[] {
  const n = Math.max(1, Math.ceil(reached / every)), even = Array.from({ length: n + 1 }, (_, i) => (reached * i) / n);
  if (!tightest || even.some((along) => Math.abs(along - tightest.along) < 1)) return even;
  return [...even, Math.min(reached, Math.max(0, tightest.along))].sort((a, b) => a - b);
}

interface Watched {
  readonly judge: Judge;
  readonly hiding: Hiding;
  readonly posts: readonly Post[];
}

function momentsOf(watched: Watched, { kind, drive }: Leg, leg: number, moments: readonly number[]): Moment[] {
  const before: number[] = [];
  return moments.map((along) => {
    const c = drive.at(kind === "back" ? drive.reached - along : along);
    return {
      along, steer: degreesFromRadians(c.steer), hitches: c.hitches.map(degreesFromRadians),
      poses: c.poses.map(({ axle, heading }, b) => ({ at: axle, heading: (before[b] = onward(degreesFromRadians(heading), before[b])) })),
      nearest: nearestOf(meetingAt(watched.judge, c), watched.judge.keep), helper: helperAt(watched, c, leg, along),
    };
  });
}

/** The same direction, within half a turn of the one before. */
function onward(degrees: number, before: number | undefined): number {
  return before === undefined ? degrees : degrees + 360 * Math.round((before - degrees) / 360);
}

function helperAt({ hiding, posts }: Watched, c: Configuration, leg: number, along: number): Moment["helper"] {
  const post = posts.findIndex((p) => p.leg === leg && along >= p.span[0] - 1 && along <= p.span[1] + 1), stood = posts[post];
  if (!stood) return null;
  const view = viewOf(hiding, c, stood.at), look = hiding.outlooks.find((outlook) => outlook.view === view);
  return { post, seen: view && look ? { view, eye: placed(c.poses[0]!, look.eye) } : null };
}
