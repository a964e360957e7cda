import { Envelope } from "@/lib/plane";
import { maximise, type Domain, type SearchCell, type SearchResult } from "@/lib/search";
import { leanElements, type Constraint } from "./constraints";
import type { Need, Pair, With } from "./needs";

/**
 * One demand on a pose as a function of the position: it holds where it is not negative, and it changes by no more
 * than the position does. For telling which demands cannot hold together, and by how much.
 */
export interface Margin {
  valueAt(x: number, y: number): number;
  greatestIn(cell: SearchCell): number;
}

/** How far a service is within reach and fall, by the pair that serves best, in mm of pose. */
export function needMargin(need: Need, by: With): Margin {
  const pairs = need.pairs.filter((pair) => pair.limit[by] >= 0);
  return {
    valueAt: (x, y) => pairs.reduce((most, pair) => Math.max(most, pairMargin(pair, by, x, y)), -Infinity),
    greatestIn: (cell) =>
      pairs.reduce((most, pair) => {
        const path = pair.leastPath(cell);
        return Math.max(most, Math.min(pair.limit[by] - path, inPose(pair, pair.greatestFall(cell, path))));
      }, -Infinity),
  };
}

/** The lesser of reach and fall of one pair at a pose, mm of pose. */
export function pairMargin(pair: Pair, by: With, x: number, y: number): number {
  const path = pair.pathAt(x, y);
  return Math.min(pair.limit[by] - path, inPose(pair, pair.fallAt(x, y, path)));
}

/** Fall changes slowly with the pose; divided by its steepness it is a distance. */
function inPose(pair: Pair, fall: number): number {
  return fall === Infinity ? Infinity : fall / pair.fallSteepness();
}

/** Hard constraints together as one margin. */
export function hardMargin(constraints: readonly Constraint[]): Margin & { readonly envelope: Envelope } {
  const elements = [...leanElements(constraints), ...constraints.flatMap((c) => c.covered)];
  const envelope = new Envelope(elements);
  const all = Int32Array.from(elements, (_, i) => i), scratch = new Int32Array(elements.length);
  return {
    envelope,
    valueAt: (x, y) => envelope.valueAt(x, y),
    greatestIn: (cell) => {
      envelope.survey(cell, all, 0, all.length, Infinity, scratch, 0);
      return envelope.upper;
    },
  };
}

export interface MostOptions {
  readonly resolution: number;
  readonly budget: number;
  /** Good enough: ends once this is reached. */
  readonly target: number;
}

/** The most that `objective` can be where all of `subject` hold, and where. No point at all where they cannot hold together. */
export function mostSubjectTo(objective: Margin & { readonly envelope?: Envelope }, subject: readonly Margin[], domain: Domain, options: MostOptions): SearchResult {
  return maximise(
    domain,
    {
      survey(cell, _parent, offer) {
        const { cx, cy } = cell;
        if (subject.some((m) => m.greatestIn(cell) < 0)) {
          cell.upper = -Infinity;
          return;
        }
        cell.upper = objective.greatestIn(cell);
        const spare = subject.reduce((least, m) => Math.min(least, m.valueAt(cx, cy)), Infinity);
        if (spare >= -options.resolution) offer(cx, cy, objective.valueAt(cx, cy), spare >= 0);
        if (objective.envelope && spare >= 0) cell.cutX = objective.envelope.variesAlongX(cell);
      },
    },
    { gap: 1, ...options },
  );
}
