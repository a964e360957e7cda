import { makePath, straight, transition, wrapped, type Curvature, type Path, type PathPoint, type Piece } from "@/lib/turning";
import { offsetPath, type Lane } from "./road";

/**
 * The family of ways that are looked at, each as the front axle drives out of the site: straight on, a curve, and along the road at some
 * distance from its middle. In the curve the wheels are turned evenly while rolling, held, and turned back, as fast or more slowly. A trailer may stand on its
 * pose with what draws it at an angle already, as it does at the end of most backing.
 */
export interface Choice {
  /** From the road's middle toward its far side, mm; below zero toward the site. */
  readonly far: number;
  /** That the front axle follows while the wheels are held, mm. */
  readonly radius: number;
  /** The wheels are turned back at the road's end over so many times the way that they are turned in over, 1 or more. */
  readonly ease: number;
  /** At the hitch on the pose, toward the side that the way leads to; radians, 0 where nothing is drawn or where it is driven in. */
  readonly bend: number;
}

export interface WayOut {
  readonly path: Path;
  /** Distances along it at which the curve begins and ends. */
  readonly turnBegins: number;
  readonly turnEnds: number;
}

/** No member of the family for this choice: its curve would have to begin so far behind the front axle, mm; Infinity where the road is never met. */
export interface NoWayOut {
  readonly short: number;
}

/** What of a vehicle decides its curves, mm. */
export interface Steered {
  readonly wheelbase: number;
  /** The tightest that its front axle can follow, 1/mm. */
  readonly sharpest: number;
  /** The way is driven in, from its end to its start: the wheels are then turned in where the way out ends. */
  readonly inward: boolean;
}

/** Rolled while the wheels are turned from straight ahead all the way, mm: two seconds at a slow walk (common practice). */
export const TURNING_IN = 2000;

/** Roads that the site's line meets at less than this, or that double back by more, are not turned into with one curve. */
const LEAST_TURN = 0.05, MOST_TURN = 3.0;

/** `hand` is 1 where the way out leads to the left, -1 to the right; `tail` how far along the road, mm, after the curve. */
export function wayOut(start: PathPoint, lane: Lane, { far, radius, ease }: Choice, hand: 1 | -1, steered: Steered, tail: number): WayOut | NoWayOut {
  const along = offsetPath(lane, -hand * far);
  if (!along) return { short: Infinity };
  const curve = { radius, ease, steered }, met = meetingsWith(start, along, curve);
  const best = met.filter(({ ahead }) => ahead >= 0).sort((a, b) => a.ahead - b.ahead)[0];
  if (!best) return { short: met.length === 0 ? Infinity : Math.min(...met.map(({ ahead }) => -ahead)) };
  const driven = curveOf(best.turn, leadsFor(Math.abs(best.turn), curve)), length = driven.reduce((sum, p) => sum + p.length, 0), rest = restOf(along, best.at, tail);
  // A corner of the road that is tighter bars only the ways that lead past it.
  if (rest.some(({ from }) => Math.abs(from) > steered.sharpest)) return { short: Infinity };
  const path = makePath(start, [straight(best.ahead), ...driven, ...rest]);
  return { path, turnBegins: best.ahead, turnEnds: best.ahead + length };
}

/** Where the road can be met tangentially, and how far straight ahead the curve then begins. */
interface Met {
  readonly at: number;
  readonly ahead: number;
  readonly turn: number;
}

function meetingsWith({ at: [x0, y0], heading }: PathPoint, along: Path, curve: Curve): Met[] {
  const { radius, ease, steered } = curve, c = Math.cos(heading), s = Math.sin(heading), full = leadsFor(Infinity, curve), least = full.first.turn + full.last.turn;
  const seen = (at: number) => {
    const p = along.pointAt(at), dx = p.at[0] - x0, dy = p.at[1] - y0, turn = wrapped(p.heading - heading), allowed = Math.abs(turn) >= LEAST_TURN && Math.abs(turn) <= MOST_TURN;
    const [u, v] = allowed ? advanceOf(turn, Math.abs(turn) >= least ? full : leadsFor(Math.abs(turn), curve)) : [0, 0];
    return { allowed, turn, ahead: dx * c + dy * s - u, aside: dy * c - dx * s - v };
  };
  const met: Met[] = [], ends = endsOf(along).map(({ at: [x, y] }) => (y - y0) * c - (x - x0) * s), reach = 2 * Math.max(radius, 1 / steered.sharpest) + (1 + ease) * TURNING_IN;
  along.pieces.forEach((piece, i) => {
    // No curve leads further aside than this; a bow of the road between its ends is far less.
    if (Math.min(ends[i]!, ends[i + 1]!) > reach || Math.max(ends[i]!, ends[i + 1]!) < -reach) return;
    // Just within the piece: its ends belong to its neighbours, which may lead elsewhere.
    let low = along.starts[i]! + piece.length * 1e-9, high = along.starts[i + 1]! - piece.length * 1e-9;
    let a = seen(low), b = seen(high);
    if (!a.allowed || !b.allowed || a.aside > 0 === b.aside > 0) return;
    for (let k = 0; k < (piece.from === 0 ? 1 : HALVINGS); k++) {
      const middle = piece.from === 0 ? low + ((high - low) * a.aside) / (a.aside - b.aside) : (low + high) / 2, m = seen(middle);
      if (m.aside > 0 === a.aside > 0) [low, a] = [middle, m];
      else [high, b] = [middle, m];
    }
    const [at, best] = Math.abs(a.aside) <= Math.abs(b.aside) ? [low, a] : [high, b];
    met.push({ at, ahead: best.ahead, turn: best.turn });
  });
  return met;
}

const HALVINGS = 30;

const known = new WeakMap<Path, PathPoint[]>();

/** Where the pieces of a path begin and end. */
function endsOf(path: Path): PathPoint[] {
  let ends = known.get(path);
  if (!ends) known.set(path, (ends = path.starts.map((s) => path.pointAt(s))));
  return ends;
}

interface Curve {
  readonly radius: number;
  readonly ease: number;
  readonly steered: Steered;
}

/** How a curve begins and how it ends: wheels turned in over a stretch, and turned back. Of a curve to the left. */
interface Leads {
  /** Curvature while the wheels are held between the two. */
  readonly held: number;
  readonly first: Lead;
  readonly last: Lead;
}

interface Lead {
  readonly length: number;
  readonly from: number;
  readonly to: number;
  /** By how much it turns, and how far ahead and to the left of its start it leads. */
  readonly turn: number;
  readonly ahead: number;
  readonly aside: number;
}

/**
 * Wheels turned to `lock` over `TURNING_IN` (less for less lock), and back over `ease` times as much. While a wheel turns at the rate `a'` the front axle's
 * path bends by `a'` more than `sin a / wheelbase`, which the lock alone gives (`motion.ts` in lib/turning, read the other way round); between its
 * ends that is all but linear, and the linear piece asks for a shade less lock.
 */
function leadsOf(lock: number, { ease, steered: { wheelbase, sharpest, inward } }: Curve): Leads {
  const rate = lockOf(sharpest, wheelbase) / TURNING_IN, held = Math.sin(lock) / wheelbase, length = lock / rate, sign = inward ? -1 : 1;
  return { held, first: leadOf(length, sign * rate, sign * rate + held), last: leadOf(length * ease, held - (sign * rate) / ease, (-sign * rate) / ease) };
}

function lockOf(curvature: number, wheelbase: number): number {
  return Math.asin(Math.min(1, wheelbase * curvature));
}

/** What a curve of a radius begins and ends with where it turns by so much: of a turn too small for the lock that asks for, with less of it. */
function leadsFor(turn: number, curve: Curve): Leads {
  const { radius, ease, steered: { wheelbase, sharpest } } = curve, most = lockOf(Math.min(1 / radius, sharpest), wheelbase), rate = lockOf(sharpest, wheelbase) / TURNING_IN;
  const turnOf = (lock: number) => (Math.sin(lock) / wheelbase) * (lock / rate) * ((1 + ease) / 2);
  if (turnOf(most) <= turn) return leadsOf(most, curve);
  let low = 0, high = most;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (turnOf(middle) > turn) high = middle;
    else low = middle;
  }
  return leadsOf(low, curve);
}

function leadOf(length: number, from: number, to: number): Lead {
  let ahead = 0, aside = 0;
  for (let i = 0; i < NODES.length; i++) {
    for (const side of [-1, 1]) {
      const s = (length / 2) * (1 + side * NODES[i]!), angle = (from + ((to - from) * s) / (2 * length)) * s;
      ahead += (length / 2) * WEIGHTS[i]! * Math.cos(angle);
      aside += (length / 2) * WEIGHTS[i]! * Math.sin(angle);
    }
  }
  return { length, from, to, turn: ((from + to) / 2) * length, ahead, aside };
}

/** By how much the curve turns with its wheels held: what the leads leave of it. */
function heldTurn({ first, last }: Leads, turn: number): number {
  return Math.max(0, Math.abs(turn) - first.turn - last.turn);
}

function curveOf(turn: number, leads: Leads): Piece[] {
  const { held, first, last } = leads, rest = heldTurn(leads, turn), k = (curvature: number) => (Math.sign(turn) * curvature) as Curvature;
  const middle: Piece[] = rest > 1e-9 ? [transition(rest / held, k(held), k(held))] : [];
  return [transition(first.length, k(first.from), k(first.to)), ...middle, transition(last.length, k(last.from), k(last.to))];
}

/** How far ahead and to the left the curve leads: its leads one behind the other, with an arc between. */
function advanceOf(turn: number, leads: Leads): readonly [number, number] {
  const { held, first, last } = leads, rest = heldTurn(leads, turn), middle = first.turn + rest / 2, beyond = first.turn + rest, chord = (2 * Math.sin(rest / 2)) / held;
  const c = Math.cos(beyond), s = Math.sin(beyond);
  const ahead = first.ahead + chord * Math.cos(middle) + last.ahead * c - last.aside * s;
  const aside = first.aside + chord * Math.sin(middle) + last.ahead * s + last.aside * c;
  return [ahead, Math.sign(turn) * aside];
}

/** Gauss-Legendre, eight points (as in lib/turning/path.ts): no piece turns by much more than a right angle, which leaves less than a thousandth of a millimetre. */
const NODES = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363] as const;
const WEIGHTS = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763] as const;

/** The pieces of a path from a point on, so much of it. */
function restOf({ pieces, starts, length }: Path, from: number, much: number): Piece[] {
  const to = Math.min(length, from + much), out: Piece[] = [];
  pieces.forEach(({ from: curvature }, i) => {
    const a = Math.max(from, starts[i]!), b = Math.min(to, starts[i + 1]!);
    if (b - a > 1e-6) out.push(transition(b - a, curvature, curvature));
  });
  return out;
}
