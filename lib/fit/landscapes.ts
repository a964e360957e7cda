import type { Envelope } from "@/lib/plane";
import type { Found, Landscape, Offer, SearchCell } from "@/lib/search";
import type { Need, Pair, With } from "./needs";
import { StraightRuns } from "./straight-runs";

/** Room for the lists of what still binds in each cell; reused from search to search. */
export class Workspace {
  lists = new Int32Array(4096);
  used = 0;

  /** Starts a new search over so many elements, all of them listed at 0. */
  reset(size: number): void {
    this.used = 0;
    this.reserve(size);
    for (let i = 0; i < size; i++) this.lists[i] = i;
    this.used = size;
  }

  reserve(more: number): void {
    if (this.used + more <= this.lists.length) return;
    const grown = new Int32Array(2 * (this.used + more));
    grown.set(this.lists);
    this.lists = grown;
  }
}

/** Surveys a cell over the elements its parent left, and remembers what is left for its own halves. */
function surveyEnvelope(envelope: Envelope, work: Workspace, cell: SearchCell, parent: SearchCell | null, cap: number): void {
  if (parent === null) work.reset(envelope.size);
  const start = parent?.start ?? 0, count = parent?.count ?? envelope.size;
  work.reserve(count);
  cell.start = work.used;
  cell.count = envelope.survey(cell, work.lists, start, count, cap, work.lists, cell.start);
  work.used += cell.count;
}

/** The least slack, up to a cap beyond which more is no better. */
export function envelopeLandscape(envelope: Envelope, work: Workspace, cap: number): Landscape {
  return {
    survey(cell, parent, offer) {
      surveyEnvelope(envelope, work, cell, parent, cap);
      cell.upper = Math.min(envelope.upper, cap);
      cell.cutX = envelope.variesAlongX(cell);
      offer(cell.cx, cell.cy, Math.min(envelope.value, cap), true);
    },
  };
}

/** What a pose has to meet besides the hard constraints. */
export interface Demands {
  readonly needs: readonly Need[];
  readonly by: With;
  /** Where a vehicle has to stand in line and nowhere else: one of these has to hold. Empty where none is asked for. */
  readonly inLine: readonly Envelope[];
  readonly touch: number;
}

/**
 * The least slack up to a cap, over the poses that meet every hard constraint and demand. Points that do so only
 * within the touch tolerance are offered as such: a cell too small to be cut again has its centre among them if any
 * of its poses holds, since no slack changes by more than the pose does.
 */
export function placingLandscape(envelope: Envelope, work: Workspace, cap: number, demands: Demands, hints: readonly Found[]): Landscape {
  const tryHint = ({ x, y }: Found, offer: Offer) => {
    const value = envelope.valueAt(x, y);
    if (value >= 0 && meets(x, y, demands, 0)) offer(x, y, Math.min(value, cap), true);
  };
  return {
    survey(cell, parent, offer) {
      if (parent === null) hints.forEach((hint) => tryHint(hint, offer));
      surveyEnvelope(envelope, work, cell, parent, cap);
      cell.upper = Math.min(envelope.upper, cap);
      if (envelope.upper < 0 || leastRunIn(cell, demands) === Infinity || !inLinePossible(cell, demands)) {
        cell.upper = -Infinity;
        return;
      }
      const { value } = envelope;
      cell.cutX = value < 0 ? envelope.variesAlongX(cell) : cell.cutX;
      if (value >= 0 && meets(cell.cx, cell.cy, demands, 0)) {
        cell.cutX = envelope.variesAlongX(cell);
        offer(cell.cx, cell.cy, Math.min(value, cap), true);
        return;
      }
      if (value >= -demands.touch && meets(cell.cx, cell.cy, demands, 1)) offer(cell.cx, cell.cy, Math.min(value, cap), false);
      if (envelope.upper >= 0) offerTowardsHookups(envelope, work, cell, cap, demands, offer);
    },
  };
}

/** The shortest total run (as its negative), over the poses with at least `level` of room that meet every demand. */
export function runLandscape(envelope: Envelope, work: Workspace, level: number, demands: Demands, known: readonly [number, number]): Landscape {
  const straight = StraightRuns.of(demands.needs, demands.by);
  const tryAt = (x: number, y: number, room: number, offer: Offer) => {
    const run = room >= level - NOISE && inLineAt(x, y, demands, 0) ? runAt(x, y, demands, 0) : Infinity;
    if (run < Infinity) offer(x, y, -run, true);
  };
  return {
    survey(cell, parent, offer) {
      if (parent === null) offer(known[0], known[1], -runAt(known[0], known[1], demands, 0), true);
      cell.upper = -Infinity;
      if (!envelope.trim(cell, level)) return;
      surveyEnvelope(envelope, work, cell, parent, level);
      if (envelope.upper < level || !inLinePossible(cell, demands)) return;
      const { value } = envelope;
      const least = leastRunIn(cell, demands);
      if (least === Infinity) return;
      tryAt(cell.cx, cell.cy, value, offer);
      cell.upper = -least;
      if (value < level) cell.cutX = envelope.variesAlongX(cell);
      if (straight?.holdIn(cell)) {
        straight.nearIn(cell, envelope, level);
        cell.upper = -Math.max(least, straight.leastIn(cell, envelope, level));
        const room = envelope.valueAmong(straight.x, straight.y, work.lists, cell.start, cell.count);
        tryAt(straight.x, straight.y, room, offer);
        // Where room is what holds the run up, cutting the way room changes tells most.
        if (room < level - NOISE) cell.cutX = envelope.variesAlongX(cell);
      }
    },
  };
}

/** A pose put right on an edge may come out this much short of it by rounding, mm. */
const NOISE = 1e-6;

/**
 * The total run at a pose: for each service the shortest of the guest's own pairs that serve there, or failing that
 * the shortest that serves with something brought. Infinity where a service has none.
 */
export function runAt(x: number, y: number, { needs, by, touch }: Demands, slackness: 0 | 1): number {
  let total = 0;
  for (const { pairs } of needs) {
    const own = shortestAt(pairs, "own", x, y, slackness * touch);
    total += own === Infinity && by === "gear" ? shortestAt(pairs, "gear", x, y, slackness * touch) : own;
  }
  return total;
}

function shortestAt(pairs: readonly Pair[], by: With, x: number, y: number, tolerance: number): number {
  let shortest = Infinity;
  for (const pair of pairs) shortest = Math.min(shortest, routeIfServed(pair, by, x, y, tolerance));
  return shortest;
}

/** The route of a pair where it serves at this pose, give or take `tolerance` mm of the pose; Infinity where not. */
export function routeIfServed(pair: Pair, by: With, x: number, y: number, tolerance: number): number {
  const limit = pair.limit[by];
  if (limit < 0) return Infinity;
  const path = pair.pathAt(x, y);
  if (path > limit + tolerance || pair.fallAt(x, y, path) < -tolerance * pair.fallSteepness()) return Infinity;
  return pair.routeOf(path);
}

export function meets(x: number, y: number, demands: Demands, slackness: 0 | 1): boolean {
  return runAt(x, y, demands, slackness) < Infinity && inLineAt(x, y, demands, slackness);
}

/** No pose of the cell has a shorter total run. Where own gear serves all over the cell, nothing brought shortens it. */
function leastRunIn(cell: SearchCell, { needs, by }: Demands): number {
  let total = 0;
  for (const { pairs } of needs) {
    const ownAllOver = by === "gear" && pairs.length > 1 && pairs.some((pair) => pair.servesAllOver(cell, "own"));
    total += shortestIn(cell, pairs, ownAllOver ? "own" : by);
  }
  return total;
}

function shortestIn(cell: SearchCell, pairs: readonly Pair[], by: With): number {
  let shortest = Infinity;
  for (const pair of pairs) {
    const limit = pair.limit[by];
    if (limit < 0) continue;
    const path = pair.leastPath(cell);
    if (path <= limit && pair.greatestFall(cell, path) >= 0) shortest = Math.min(shortest, pair.routeOf(path));
  }
  return shortest;
}

function inLineAt(x: number, y: number, { inLine, touch }: Demands, slackness: 0 | 1): boolean {
  return inLine.length === 0 || inLine.some((place) => place.valueAt(x, y) >= -slackness * touch);
}

/** The value at the centre plus the half diagonal bounds each place over the cell. */
function inLinePossible({ cx, cy, hx, hy }: SearchCell, { inLine }: Demands): boolean {
  return inLine.length === 0 || inLine.some((place) => place.valueAt(cx, cy) + Math.hypot(hx, hy) >= 0);
}

/** Where the centre is out of reach of a hookup, the near side of the cell may not be. */
function offerTowardsHookups(envelope: Envelope, work: Workspace, cell: SearchCell, cap: number, demands: Demands, offer: Offer): void {
  for (const need of demands.needs) {
    for (const pair of need.pairs) {
      if (pair.limit[demands.by] < 0) continue;
      const [x, y] = pair.nearestIn(cell);
      const value = envelope.valueAmong(x, y, work.lists, cell.start, cell.count);
      if (value >= 0 && meets(x, y, demands, 0)) offer(x, y, Math.min(value, cap), true);
    }
  }
}
