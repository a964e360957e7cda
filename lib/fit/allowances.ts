import type { Hookup, Obstacle, Site } from "@/lib/park";
import { unknownsOf, type UncertainNumber } from "@/lib/survey";

/** How far the errors of what was measured on a site could carry its slacks, and the site at its worst where errors switch a constraint on or off. */
export interface Allowances {
  /** In plan, mm: by the id of an obstacle or hookup, or `pad`, `lot`, `road`. What is not in it is exact. */
  readonly plan: ReadonlyMap<string, number>;
  /** Upright, mm, of hookups: height above the ground, and of the ground there. */
  readonly height: ReadonlyMap<string, number>;
  /** Of hookups' pressures, kPa. */
  readonly pressure: ReadonlyMap<string, number>;
  /** Of the slopes, as rise over run. */
  readonly slope: { readonly along: number; readonly across: number };
  /** The most that anything may be off in plan, mm. */
  readonly most: number;
  /** Every height, radius and slope at the end of its range that leaves less room. */
  readonly worst: Site;
  /** The record with its ground as two slopes, and without its survey: what numbers are changed in. */
  readonly bare: Site;
}

/** The record at one end of every range that opens or shuts things: limbs, tops, posts. Plan is left as it is. */
export type End = "worst" | "best";

const made = new WeakMap<Site, Allowances | "exact">();

/** Null where nothing was measured with an error. Worked out once a record. */
export function allowancesOf(site: Site): Allowances | null {
  let known = made.get(site);
  if (!known) made.set(site, (known = workOut(site)));
  return known === "exact" ? null : known;
}

function workOut(site: Site): Allowances | "exact" {
  const numbers = unknownsOf(site);
  if (numbers.length === 0) return "exact";
  const halves = new Map(numbers.map((number) => [number.field, number.max - number.typical]));
  const half = (field: string) => halves.get(field) ?? 0;
  const bare = withSlopes(site, numbers);
  const plan = new Map<string, number>(), height = new Map<string, number>(), pressure = new Map<string, number>();
  site.obstacles.forEach(({ id, outline }, i) => {
    const at = (field: string) => half(`site.obstacles.${i}.${field}`);
    keep(plan, id, Math.hypot(at("at.0"), at("at.1")) + Math.max(at("radius"), at("trunkRadius"), at("crownRadius")) + cornersOff(outline, (k) => at(`outline.${k}`)));
  });
  site.hookups.forEach(({ id }, i) => {
    const at = (field: string) => half(`site.hookups.${i}.${field}`);
    keep(plan, id, Math.hypot(at("at.0"), at("at.1")) + at("postRadius"));
    keep(height, id, at("height") + at("groundZ"));
    keep(pressure, id, at("pressure"));
  });
  keep(plan, "pad", cornersOff(site.pad.outline, (k) => half(`site.pad.outline.${k}`)));
  keep(plan, "lot", cornersOff(site.lot?.outline, (k) => half(`site.lot.outline.${k}`)));
  keep(plan, "road", Math.max(edgeOff(site.roadEdge, half("site.roadEdge.0.0")), edgeOff(site.exitEdge, half("site.exitEdge.0.0"))));
  const slope = { along: half("site.ground.along") / 100, across: half("site.ground.across") / 100 };
  return { plan, height, pressure, slope, most: Math.max(0, ...plan.values()), bare, worst: atEnd(bare, numbers, "worst") };
}

function keep(map: Map<string, number>, id: string, value: number): void {
  if (value > 0) map.set(id, value);
}

function cornersOff(outline: readonly unknown[] | undefined, halfOf: (corner: string) => number): number {
  return Math.max(0, ...(outline ?? []).map((_, k) => Math.hypot(halfOf(`${k}.0`), halfOf(`${k}.1`))));
}

/** As far from the middle of its front as a rig lies, mm: beyond the two points that give it, the road's edge is off by more than they are. */
const RIG_REACH = 10_000;

function edgeOff(edge: Site["roadEdge"], half: number): number {
  if (!edge) return 0;
  const length = Math.hypot(edge[1][0] - edge[0][0], edge[1][1] - edge[0][1]);
  return Math.SQRT2 * half * Math.max(1, (2 * RIG_REACH) / length);
}

/** A ground of spot heights as the slopes of its plane, heights of the ground at hookups counted from it: the same site to a fit, with slopes to change. */
function withSlopes(site: Site, numbers: readonly UncertainNumber[]): Site {
  const bare: Site = { ...site, survey: undefined };
  const along = numbers.find(({ field }) => field === "site.ground.along"), across = numbers.find(({ field }) => field === "site.ground.across");
  if (!site.ground.heights || !along || !across) return bare;
  const base = baseOf(site.ground.heights, along.typical / 100, across.typical / 100);
  return {
    ...bare,
    ground: { along: along.typical, across: across.typical, heights: undefined },
    hookups: site.hookups.map((hookup) => (hookup.groundZ === undefined ? hookup : { ...hookup, groundZ: hookup.groundZ - base })),
  };
}

function baseOf(spots: readonly (readonly [number, number, number])[], along: number, across: number): number {
  return spots.reduce((sum, [x, y, z]) => sum + z - along * x - across * y, 0) / spots.length;
}

/** The site with its heights and slopes at one end of their ranges. */
export function atEnd(bare: Site, numbers: readonly UncertainNumber[], end: End): Site {
  const halves = new Map(numbers.map((number) => [number.field, number.max - number.typical])), sign = end === "worst" ? 1 : -1;
  const raised = <T extends Obstacle | Hookup>(thing: T, list: string, i: number, fields: Partial<Record<keyof T, 1 | -1>>): T => {
    const changed = Object.entries(fields).flatMap(([field, way]) => {
      const half = halves.get(`site.${list}.${i}.${field}`), value = thing[field as keyof T];
      return half !== undefined && typeof value === "number" ? [[field, value + sign * Number(way) * half] as const] : [];
    });
    return changed.length === 0 ? thing : { ...thing, ...Object.fromEntries(changed) };
  };
  const slope = (way: "along" | "across") => {
    const value = bare.ground[way], half = halves.get(`site.ground.${way}`) ?? 0;
    return value === undefined ? undefined : Math.sign(value || 1) * Math.max(0, Math.abs(value) + sign * half);
  };
  return {
    ...bare,
    ground: bare.ground.heights ? bare.ground : { along: slope("along"), across: slope("across"), heights: undefined },
    obstacles: bare.obstacles.map((o, i) => raised(o, "obstacles", i, { from: -1, to: 1, crownFrom: -1, crownTo: 1 })),
    hookups: bare.hookups.map((h, i) => raised(h, "hookups", i, { postHeight: 1 })),
  };
}

