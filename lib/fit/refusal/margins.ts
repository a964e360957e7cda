import { Envelope } from "@/lib/plane";
import { maximise, type Domain, type Landscape, type Offer, type SearchCell, type SearchResult } from "@/lib/search";
import { leanElements, type Constraint } from "../constraints";
import type { Need, Pair } from "../needs";

/**
 * One demand on a pose as a function of the position: it holds where it is not negative, and it changes by no more
 * than the position does. For telling which demands cannot hold together, and by how much.
 */
export interface Margin {
  valueAt(x: number, y: number): number;
  greatestIn(cell: SearchCell): number;
}

/** Of the pairs that could serve at all, the one that comes nearest to serving at a pose; null where none could. */
export function closestPair({ pairs }: Need, x: number, y: number): Pair | null {
  const [first, ...rest] = pairs.filter((p) => p.limit.gear >= 0);
  return first ? rest.reduce((a, b) => (pairMargin(b, x, y) > pairMargin(a, x, y) ? b : a), first) : null;
}

/** The lesser of reach and fall of one pair at a pose, with whatever could be brought, mm of pose. */
function pairMargin(pair: Pair, x: number, y: number): number {
  const path = pair.pathAt(x, y);
  return Math.min(pair.limit.gear - path, inPose(pair, pair.fallAt(x, y, path)));
}

/** Fall changes slowly with the pose; divided by its steepness it is a distance. */
function inPose(pair: Pair, fall: number): number {
  return fall === Infinity ? Infinity : fall / pair.fallSteepness();
}

/** Hard constraints together as one margin, with the envelope it is made of. */
export interface HardMargin extends Margin {
  readonly envelope: Envelope;
}

export function hardMargin(constraints: readonly Constraint[]): HardMargin {
  const elements = [...leanElements(constraints), ...constraints.flatMap((c) => c.covered)];
  const envelope = new Envelope(elements);
  return {
    envelope,
    valueAt: (x, y) => envelope.valueAt(x, y),
    greatestIn: (cell) => envelope.boundIn(cell),
  };
}

export interface Question {
  /** What is to be as great as can be. */
  readonly objective: Margin & { readonly envelope?: Envelope };
  /** What has to hold besides. */
  readonly subject: readonly (Margin & { readonly envelope?: Envelope })[];
  readonly domain: Domain;
  /** What holds is at least this, mm: 0, or more where a hair's breadth is not to decide. */
  readonly level: number;
  readonly resolution: number;
  readonly budget: number;
  /** Good enough: ends once this is reached. */
  readonly target: number;
  /** Ends once nothing can reach this. */
  readonly floor?: number;
}

/** Points put right on an edge may come out this much short of it by rounding, mm. */
const NOISE = 1e-6;

/**
 * The most that the objective can be where all of `subject` hold, and where. No point at all where they cannot hold
 * together. Distances to convex things are greatest at the corners of a cell, so those are tried as well.
 */
export function mostSubjectTo({ objective, subject, domain, level, resolution, budget, target, floor }: Question): SearchResult {
  let best = -Infinity; // a corner that holds and is no better need not be told
  const offerAt = (x: number, y: number, spare: number, offer: Offer) => {
    if (spare < level - resolution) return;
    const strict = spare >= level - NOISE, value = objective.valueAt(x, y);
    if (strict && value > best) best = value;
    offer(x, y, value, strict);
  };
  const tryCorner = (x: number, y: number, offer: Offer) => {
    for (const m of subject) if (m.envelope && !m.envelope.reaches(x, y, level - resolution)) return;
    const spare = subject.reduce((least, m) => Math.min(least, m.valueAt(x, y)), Infinity);
    if (spare >= level - NOISE && best > -Infinity && objective.envelope && !objective.envelope.reaches(x, y, best)) return;
    offerAt(x, y, spare, offer);
  };
  const landscape: Landscape = {
    survey(cell, _parent, offer) {
      cell.upper = -Infinity;
      for (const m of subject) if (m.envelope && !m.envelope.trim(cell, level)) return;
      for (const m of subject) if (m.greatestIn(cell) < level) return;
      cell.upper = objective.greatestIn(cell);
      const { cx, cy, hx, hy } = cell;
      let spare = Infinity, failing: Question["objective"] | null = null;
      for (const m of subject) {
        const value = m.valueAt(cx, cy);
        if (value < level) failing ??= m;
        spare = Math.min(spare, value);
      }
      offerAt(cx, cy, spare, offer);
      // Across the way that varies most: what fails at the centre, else what is asked for. Of a service nothing is
      // known but that it changes with the distance: then the longer side.
      const { envelope } = failing ?? objective;
      if (envelope) cell.cutX = envelope.variesAlongX(cell); // last looked at in the centre
      tryCorner(cx - hx, cy - hy, offer);
      tryCorner(cx - hx, cy + hy, offer);
      tryCorner(cx + hx, cy - hy, offer);
      tryCorner(cx + hx, cy + hy, offer);
    },
  };
  return maximise(domain, landscape, { gap: 1, resolution, budget, target, floor });
}
