import type { ParkedPose } from "@/lib/access";
import { siteSchema, type Site, type SiteInput } from "@/lib/park";
import { isMotorized, rigSchema, typicalRig, type Rig, type RigInput } from "@/lib/rig";
import { between, chance, pick, randomFrom } from "./random";

/** A rig, a site whose way in is measured, and where it would stand. */
export interface WayScene {
  readonly site: Site;
  readonly rig: Rig;
  readonly poses: readonly ParkedPose[];
}

/** A flared back-in off a straight road that runs along y; every length can be changed. */
export function backInSite({ width = 6000, length = 14_000, padHalf = 1800, mouth = 3800, deep = 2000, traffic = "both", more = {}, approach = {} }: {
  readonly width?: number; readonly length?: number; readonly padHalf?: number; readonly mouth?: number; readonly deep?: number; readonly traffic?: "both" | "toward-left" | "toward-right";
  readonly more?: Partial<SiteInput>; readonly approach?: Partial<NonNullable<SiteInput["approach"]>>;
} = {}): Site {
  return siteSchema.parse({
    id: "site", entry: "back-in", ground: { along: 0, across: 0 },
    pad: { outline: [[0, -padHalf], [length, -padHalf], [length, padHalf], [0, padHalf]] },
    approach: {
      road: { centreline: [[-width / 2, 30_000], [-width / 2, -30_000]], width, traffic },
      driveable: [[[0, -mouth], [deep, -padHalf], [deep, padHalf], [0, mouth]]], ...approach,
    },
    ...more,
  } satisfies SiteInput);
}

/** Where a rig stands backed in with its rear face so far from the pad's end. */
export function backedIn(site: Site, gap = 1000, y = 0): ParkedPose {
  return { x: Math.max(...site.pad.outline.map(([x]) => x)) - gap, y, heading: "tail-in" };
}

export const trailer = typicalRig("travel-trailer", 8534);
export const coach = typicalRig("class-c", 8534);

export function withDrive(rig: Rig, drive: RigInput["drive"]): Rig {
  return rigSchema.parse({ ...rig, drive } as RigInput);
}

/** Site, rig and poses in a mirror held along the pad's line; the driver changes sides as well. */
export function mirroredScene({ site, rig, poses }: WayScene): WayScene {
  const flip = ([x, y]: readonly [number, number]): [number, number] => [x, -y], { approach } = site;
  const road = (r: NonNullable<Site["approach"]>["road"]) => ({ ...r, centreline: r.centreline.map(flip), traffic: r.traffic === "both" ? r.traffic : r.traffic === "toward-left" ? ("toward-right" as const) : ("toward-left" as const) });
  return {
    site: {
      ...site, pad: { ...site.pad, outline: site.pad.outline.map(flip) },
      obstacles: site.obstacles.map((o) => ({ ...o, at: o.at && flip(o.at), outline: o.outline?.map(flip) })), hookups: site.hookups.map((h) => ({ ...h, at: flip(h.at) })),
      approach: approach && {
        ...approach, road: road(approach.road), exitRoad: approach.exitRoad && road(approach.exitRoad), driveable: approach.driveable.map((g) => g.map(flip)),
        heightLimits: approach.heightLimits.map((l) => ({ ...l, across: [flip(l.across[0]), flip(l.across[1])] as typeof l.across })),
      },
    },
    rig: withDrive(rig, { ...rig.drive, driver: rig.drive?.driver === "right" ? "left" : "right" }),
    poses: poses.map((p) => ({ ...p, y: -p.y })),
  };
}

/** Sites where the way in may well decide: narrow roads, short mouths, trunks and posts beside them, roads askew and bent. */
export function randomWayScene(seed: number): WayScene {
  const r = randomFrom(seed), kind = pick(r, ["travel-trailer", "travel-trailer", "fifth-wheel", "folding-trailer", "class-c", "class-a", "van"] as const);
  const rig = typicalRig(kind, pick(r, { "travel-trailer": [19, 25, 31], "fifth-wheel": [29, 33], "folding-trailer": [15], "class-c": [25, 31], "class-a": [31, 39], van: [19] }[kind]) * 304.8);
  const length = rig.body.length + (rig.hitch?.length ?? 0) + between(r, 0, 4000), width = between(r, 3600, 8000), padHalf = rig.body.width / 2 + between(r, 250, 900), mouth = padHalf + between(r, 200, 3000);
  const lean = between(r, -25, 25) / 100, bent = between(r, -20, 20) / 100, far = 25_000, middle = -width / 2 - Math.abs(lean) * mouth - 200;
  const line: [number, number][] = [[middle + (lean + bent) * far, far], [middle, 0], [middle - lean * far, -far]];
  const obstacles = Array.from({ length: between(r, 0, 4) }, (_, i) => {
    const side = chance(r, 0.5) ? 1 : -1, at: [number, number] = [between(r, -600, 5000), side * (mouth + between(r, -400, 1500))];
    return chance(r, 0.5) ? { id: `tree-${i}`, kind: "tree", at, trunkRadius: 250, crownRadius: between(r, 800, 2600), crownFrom: between(r, 2400, 5000), crownTo: 12_000 } : { id: `post-${i}`, kind: "post", at, radius: between(r, 60, 400), from: 0, to: between(r, 150, 1500) };
  });
  const site = siteSchema.parse({
    id: `way-${seed}`, entry: "back-in", ground: { along: 0, across: 0 }, obstacles,
    pad: { outline: [[0, -padHalf], [length, -padHalf], [length, padHalf], [0, padHalf]] },
    approach: { road: { centreline: line, width, traffic: pick(r, ["both", "both", "toward-left", "toward-right"]) }, driveable: [[[middle, -mouth], [0, -mouth], [between(r, 600, 3000), -padHalf], [between(r, 600, 3000), padHalf], [0, mouth], [middle, mouth]]] },
  } satisfies SiteInput);
  const poses: ParkedPose[] = [backedIn(site, 600), backedIn(site, 1200)];
  return { site, rig, poses: isMotorized(rig.kind) && chance(r, 0.5) ? [{ x: length - rig.body.length - 600, y: 0, heading: "nose-in" }] : poses };
}
