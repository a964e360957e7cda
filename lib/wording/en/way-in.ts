import { list } from "./text";

/** How the driver sees the helper at a moment; `null`: not at all. */
export type Seeing = "window" | "left-mirror" | "right-mirror" | null;

/** What happens at one moment of a way, ready to be said. Lengths are texts in the reader's units. */
export interface MomentSaid {
  readonly backs: boolean;
  /** Which way the wheel is turned, and whether nearly all the way. */
  readonly wheel: "straight" | "left" | "right";
  readonly far: boolean;
  /** Whole degrees between what steers and what it draws; null where nothing is drawn. */
  readonly bend: number | null;
  readonly drawn: "trailer" | "car";
  readonly gap: string | null;
  /** By how much the clearance is not kept; null where it is. */
  readonly short: string | null;
  /** Names of the two that come nearest to each other. */
  readonly part: string;
  readonly other: string;
}

/** The way in, moving. Short sentences: they are read at the wheel. */
export const wayIn = {
  title: "Getting in",
  unknown: "Nobody has measured the way in. Walk it before you drive it, with a helper.",
  rule: "If you cannot see your helper, stop.",
  stopped: "Too much else is being worked out just now. Load this page again to see the way in.",

  notFound: "No way in found; staff to check on the ground.",
  notFoundWhy: "We looked for a way on the measurements and found none that keeps enough room. That is no proof. Call the desk before you come.",
  none: "This rig cannot get to its place here.",
  noneWhy: "Call the desk before you come: another site may be easy.",
  barredBy: (things: readonly string[]) => `In the way: ${list(things)}. There is no way around.`,
  barredOver: (things: readonly string[]) => `Too low for this rig: ${list(things)}. There is no way around.`,
  noGround: "The ground that wheels may roll on does not lead from the road to the place.",
  nearestTry: (short: string, part: string, other: string) => `The try that came nearest has ${short} too little room between ${part} and ${other}. It is drawn here. Do not drive it.`,
  tryPicture: (site: string) => `Plan of the try that came nearest on site ${site}: not a way to drive. The ground the rig would pass over is hatched.`,
  notAWay: "not a way to drive",
  unmeasured: (things: readonly string[]) => `Not measured: ${list(things)}. Look up.`,
  noWayOut: "A way in was found, but none out at the far end. Staff shows you how to leave.",

  picture: (site: string, from: string) => `Plan of the way in to site ${site}, with the site on the driver’s ${from}. The ground the rig passes over is hatched, places for a helper are numbered.`,
  plan: "The way in, moving",
  keys: "Space runs it and stops it. Left and right arrows step. Page keys go leg by leg. T tells what happens.",
  side: { left: "Site on your left", right: "Site on your right" },
  sides: "Which way you come",
  legs: { back: "Back in", in: "Drive in", out: "Drive out" },
  legChoice: "Leg",
  leg: (n: number, name: string) => `${n} ${name}`,
  controls: "Run the way in",
  run: "Run",
  again: "Run again",
  stop: "Stop",
  stepBack: "Step back",
  stepOn: "Step on",
  slider: "How far along",
  far: (at: string, of: string) => `${at} of ${of}`,
  speed: "Speed",
  speeds: { walk: "Slow, a walk", brisk: "Medium", fast: "Fast" },
  tell: "Read it out",
  legEnd: { back: "You are in. Stop and check all sides.", in: "You are in. Stop and check all sides.", out: "You are out on the road." },
  begin: (from: string) => `Start here, in line on the road, with the site on your ${from}.`,
  beginOut: "Leave from here. Walk around the rig first.",

  moment: ({ backs, wheel, far, bend, drawn, gap, short, part, other }: MomentSaid) => {
    const go = `${backs ? "Back" : "Drive"} slowly, wheel ${wheel === "straight" ? "straight" : `${far ? "far " : ""}to the ${wheel}`}`;
    const bent = bend === null ? null : bend === 0 ? `the ${drawn} is in line` : `the ${drawn} bends ${bend} ${bend === 1 ? "degree" : "degrees"}`;
    const near = short !== null ? `${short} too little from ${part} to ${other}` : gap === null ? null : `${gap} from ${part} to ${other}`;
    return `${[go, bent, near].filter((piece) => piece !== null).join("; ")}.`;
  },
  helper: (n: number, seeing: Seeing) => (seeing === null ? `You do not see the helper at ${n} here: stop.` : `Your helper at ${n} is in sight ${{ window: "through your window", "left-mirror": "in your left mirror", "right-mirror": "in your right mirror" }[seeing]}.`),
  noHelper: "No safe place for a helper here: stop, get out and look.",

  tightest: (gap: string) => `gap ${gap}`,
  short: (by: string) => `${by} short`,
  theLimit: (kind: string) => `the ${kind}`,
  withHeight: (name: string, height: string) => `${name}, ${height} up`,
  limit: (kind: string, height: string) => `${kind} ${height}`,
  limitUnmeasured: (kind: string) => `${kind}: look up`,
  road: "road",
  parts: { wheels: "the tires", body: "the rig", hitch: "the hitch", vehicle: "the truck", tow: "the car" },
  ground: "the edge of the firm ground",

  legend: "How to read it",
  legendLines: [
    "Drawn to scale, seen from above, the road at the bottom.",
    "Hatched: the ground the rig passes over. Dark is behind it, light is still to come.",
    "Heavy outline: the rig. Dashed outline: where the leg ends.",
    "Red line with end ticks: the tightest place, and its size.",
    "Numbers in circles: where a helper stands. Filled: the one in use. The dashed line is how the driver sees them.",
    "Scalloped ring: the edge of a tree’s limbs. Dashed line across: a limit to height.",
  ],
} as const;
