import type { ParkedPose } from "@/lib/access";
import { defaultPolicy } from "@/lib/fit";
import { siteSchema, type SiteInput } from "@/lib/park";
import { typicalRig, type Rig } from "@/lib/rig";
import { between, chance, pick, randomFrom, type Random } from "./random";
import type { WayScene } from "./way-scenes";

type Point = [number, number];
type Approach = NonNullable<SiteInput["approach"]>;

/** A way in that barely is, or barely is not, for one reason. */
export interface BarelyScene extends WayScene {
  readonly why: "gate" | "low" | "strip" | "chicane" | "road";
  /** What is left at the narrowest, mm, to either side or above; below zero where it is short. Of a chicane and a road nobody knows it in closed form. */
  readonly spare: number;
}

const { clearance, footing, wireRoom, limbRoom, headroom } = defaultPolicy;
/** How deep the pad lies behind the road's edge, mm. */
const SETBACK = 7000;

/** A pad behind a forecourt; all that can be in the way stands between. */
export function barelyScene(seed: number): BarelyScene {
  const r = randomFrom(seed * 104_729 + 7), kind = pick(r, ["van", "class-b", "class-c", "class-a", "travel-trailer", "folding-trailer"] as const);
  const rig = typicalRig(kind, pick(r, { van: [5600], "class-b": [6300], "class-c": [7600, 8500], "class-a": [9500], "travel-trailer": [6000, 7600], "folding-trailer": [4500] }[kind]));
  const why = pick(r, ["gate", "low", "strip", "chicane", "road"] as const), spare = chance(r, 0.5) ? between(r, -450, 0) : between(r, 35, 400);
  const half = rig.body.width / 2 + 700, length = rig.body.length + (rig.hitch?.length ?? 0) + 1500, pose: ParkedPose = { x: SETBACK + length - 700, y: 0, heading: "tail-in" };
  const width = why === "road" ? between(r, 2800, 4200) : between(r, 6000, 9000), court = why === "road" ? half + between(r, 0, 900) : half + between(r, 1500, 4000);
  const { obstacles = [], driveable = [[[-200, -court], [SETBACK + 100, -court], [SETBACK + 100, court], [-200, court]]], heightLimits = [] } = barrierFor(r, why, spare, rig, half);
  const site = siteSchema.parse({
    id: `barely-${seed}`, entry: "back-in", ground: { along: 0, across: 0 }, obstacles,
    pad: { outline: [[SETBACK, -half], [SETBACK + length, -half], [SETBACK + length, half], [SETBACK, half]] }, roadEdge: [[0, -1], [0, 1]],
    approach: { road: { centreline: [[-width / 2, 26_000], [-width / 2, -26_000]], width }, driveable, heightLimits },
  } satisfies SiteInput);
  return { site, rig, poses: [pose], why, spare };
}

function barrierFor(r: Random, why: BarelyScene["why"], spare: number, rig: Rig, half: number): { obstacles?: SiteInput["obstacles"]; driveable?: Point[][]; heightLimits?: Approach["heightLimits"] } {
  const gap = rig.body.width / 2 + clearance + spare, wall = (id: string, x: number, from: number, to: number) => ({ id, kind: "wall", outline: [[x, from], [x + 300, from], [x + 300, to], [x, to]] as Point[], from: 0, to: 3000 });
  switch (why) {
    case "gate": { const x = between(r, 2500, 6500); return { obstacles: [wall("left", x, gap, 12_000), wall("right", x, -12_000, -gap)] }; }
    case "low": { const kind = pick(r, ["wire", "limb", "gate"]), x = between(r, 1000, 6500); return { heightLimits: [{ id: "low", kind, across: [[x, -15_000], [x + between(r, -500, 500), 15_000]], height: rig.body.height + (kind === "wire" ? wireRoom : kind === "limb" ? limbRoom : headroom) + spare }] }; }
    case "strip": {
      const tyres = rig.supports.filter(({ kind }) => kind === "tyre").map(({ at }) => Math.abs(at[1])), wide = Math.max(...tyres, 900) + footing + spare;
      return { driveable: [[[-200, -half - 3000], [2500, -half - 3000], [2500, half + 3000], [-200, half + 3000]], [[2400, -wide], [SETBACK + 100, -wide], [SETBACK + 100, wide], [2400, wide]]] };
    }
    // One wall from the left, then one from the right, with room between them to weave.
    case "chicane": { const over = between(r, -900, 600), apart = between(r, 3500, 9000); return { obstacles: [wall("near", SETBACK - apart, over - 400, 14_000), wall("far", SETBACK - 600, -14_000, -over + 400 - rig.body.width)] }; }
    case "road": return {};
  }
}
