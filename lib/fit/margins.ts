import { greatestIn, type Bounds } from "@/lib/plane";
import { maximise, type SearchResult } from "@/lib/search";
import { slackAt, type Constraint } from "./constraints";
import type { Need, Pair, With } from "./needs";

/**
 * One demand on a pose as a function of the position, looked at singly: it holds where it is not negative, and it
 * changes by no more than the position does. For telling which demands cannot hold together, and by how much.
 */
export interface Margin {
  readonly id: string;
  valueAt(x: number, y: number): number;
  greatestIn(cell: { readonly cx: number; readonly cy: number; readonly hx: number; readonly hy: number }): number;
}

export function constraintMargin(constraint: Constraint): Margin {
  const elements = [...constraint.elements, ...constraint.covered];
  return {
    id: constraint.id,
    valueAt: (x, y) => slackAt(constraint, x, y),
    greatestIn: (cell) => {
      let least = Infinity;
      for (const e of elements) least = Math.min(least, greatestIn(e, cell));
      return least;
    },
  };
}

/** How far a service is within reach and fall, by the pair that serves best, in mm of pose. */
export function needMargin(need: Need, by: With): Margin {
  const pairs = need.pairs.filter((pair) => pair.limit[by] >= 0);
  return {
    id: `reach:${need.service}`,
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

/** The most that the least of `objective` can be where all of `subject` hold, and where; null where they cannot hold together. */
export function mostSubjectTo(objective: readonly Margin[], subject: readonly Margin[], domain: Bounds, options: { resolution: number; budget: number; target?: number }): SearchResult {
  return maximise(
    domain,
    {
      survey(cell, _parent, offer) {
        for (const margin of subject) {
          if (margin.greatestIn(cell) < 0) {
            cell.upper = -Infinity;
            return;
          }
        }
        cell.upper = least(objective, (m) => m.greatestIn(cell));
        if (subject.every((m) => m.valueAt(cell.cx, cell.cy) >= 0)) offer(cell.cx, cell.cy, least(objective, (m) => m.valueAt(cell.cx, cell.cy)), true);
      },
      settle({ cx, cy }, offer) {
        if (subject.every((m) => m.valueAt(cx, cy) >= -options.resolution)) offer(cx, cy, least(objective, (m) => m.valueAt(cx, cy)), false);
      },
    },
    { gap: 1, resolution: options.resolution, budget: options.budget, target: options.target },
  );
}

function least(margins: readonly Margin[], of: (m: Margin) => number): number {
  let value = Infinity;
  for (const margin of margins) value = Math.min(value, of(margin));
  return value;
}
