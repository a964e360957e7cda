import type { Hookup, Measurement, Obstacle, Site } from "@/lib/park";
import { isThere } from "./due";
import { measurementOf } from "./latest";

/** Measured at the site; in the record, but judged by eye, off a plan, or with no word of how; not in the record though the engine wants it. */
export type SurveyState = "measured" | "guessed" | "missing";

export interface SurveyItem {
  /** The field's path, as measurements name it. */
  readonly of: string;
  readonly state: SurveyState;
  readonly measurement: Measurement | null;
}

export interface SurveyProgress {
  readonly site: string;
  /** In the order in which one walks: pad, ground, hookups, obstacles, road and way in. */
  readonly items: readonly SurveyItem[];
  readonly counts: Readonly<Record<SurveyState, number>>;
  /** Measurements of what is no longer there. */
  readonly strays: readonly Measurement[];
}

/** How far the survey of a site has come. */
export function progressOf(site: Site): SurveyProgress {
  const items = wantedOf(site).map(([of, there]): SurveyItem => {
    const measurement = measurementOf(site, of);
    return { of, measurement, state: !there ? "missing" : measurement && !isGuess(measurement) ? "measured" : "guessed" };
  });
  return { site: site.id, items, counts: countStates(items), strays: (site.survey?.measurements ?? []).filter(({ of }) => !isThere(of, site)) };
}

/** The same over the sites of a loop. */
export function progressOfLoop(sites: readonly Site[]): Readonly<Record<SurveyState, number>> {
  return countStates(sites.flatMap((site) => progressOf(site).items));
}

export function isGuess({ how }: Measurement): boolean {
  return how === "estimated" || how === "from-plan";
}

function countStates(items: readonly SurveyItem[]): Record<SurveyState, number> {
  const counts = { measured: 0, guessed: 0, missing: 0 };
  for (const { state } of items) counts[state]++;
  return counts;
}

type Wanted = readonly [path: string, there: boolean];

/** Every field that a fit hangs on, and whether the record has it. */
function wantedOf(site: Site): Wanted[] {
  return [
    ["pad", true],
    ["ground.along", true],
    ["ground.across", true],
    ...(site.lot ? [["lot", true] as const] : []),
    ...site.hookups.flatMap(ofHookup),
    ...site.obstacles.flatMap(ofObstacle),
    ["roadEdge", site.roadEdge !== undefined],
    ...(site.entry === "pull-through" && site.exitEdge ? [["exitEdge", true] as const] : []),
    ["approach", site.approach !== undefined],
    ...(site.approach?.heightLimits ?? []).map(({ id, height }): Wanted => [`approach.heightLimits.${id}.height`, height !== undefined]),
  ];
}

function ofHookup({ id, kind, pressure, postRadius }: Hookup): Wanted[] {
  const field = (name: string, there = true): Wanted => [`hookups.${id}.${name}`, there];
  return [
    field("at"), field("height"),
    ...(kind === "water" ? [field("pressure", pressure !== undefined)] : []),
    ...(postRadius !== undefined ? [field("postRadius"), field("postHeight")] : []),
  ];
}

function ofObstacle({ id, kind, outline }: Obstacle): Wanted[] {
  const field = (name: string): Wanted => [`obstacles.${id}.${name}`, true];
  if (kind === "tree") return ["at", "trunkRadius", "crownRadius", "crownFrom", "crownTo"].map(field);
  return [...(outline ? ["outline"] : ["at", "radius"]), "from", "to"].map(field);
}
