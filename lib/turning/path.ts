import { mm, type Mm, type Radians } from "@/lib/measure";
import { sitePoint, type SitePoint } from "@/lib/plane";
import { curvatureOf, STRAIGHT, type Curvature } from "./frames";

/** A stretch of way whose curvature changes evenly with its length: straight (0 to 0), arc (k to k), or transition. */
export interface Piece {
  readonly length: Mm;
  readonly from: Curvature;
  readonly to: Curvature;
}

/** A point of a path and which way the path leads there, counter-clockwise from the x axis. */
export interface PathPoint {
  readonly at: SitePoint;
  readonly heading: Radians;
}

/** What the middle of the front axle follows. It has no corners; its curvature may jump between pieces. */
export interface Path {
  readonly start: PathPoint;
  readonly pieces: readonly Piece[];
  /** Distance along it at which each piece begins, and last where the path ends. */
  readonly starts: readonly number[];
  readonly length: Mm;
  /** The point so far along it; distances beyond the ends are taken as the ends. */
  readonly pointAt: (along: number) => PathPoint;
}

export function straight(length: number): Piece {
  return piece(length, STRAIGHT, STRAIGHT);
}

/** To the left by an angle above zero, to the right by one below. */
export function arc(radius: number, angle: Radians): Piece {
  if (!(radius > 0)) throw new RangeError(`an arc's radius must be more than 0 mm, got ${radius}`);
  const curvature = curvatureOf(Math.sign(angle || 1) * radius);
  return piece(radius * Math.abs(angle), curvature, curvature);
}

/** A clothoid: the wheel turned evenly while rolling. */
export function transition(length: number, from: Curvature, to: Curvature): Piece {
  return piece(length, from, to);
}

/** Throws `RangeError` where there is nothing to follow. */
export function makePath(start: PathPoint, given: readonly Piece[]): Path {
  const pieces = given.filter(({ length }) => length > 0);
  if (pieces.length === 0) throw new RangeError("a path needs a piece longer than 0 mm");
  const starts = [0], runs: Run[] = [];
  let from: PathPoint = start;
  for (const each of pieces) {
    const run = runOf(each, from);
    runs.push(run);
    from = run.pointAt(each.length);
    starts.push(starts.at(-1)! + each.length);
  }
  const length = mm(starts.at(-1)!);
  const pointAt = (along: number) => {
    const i = pieceAt(starts, along);
    return runs[i]!.pointAt(Math.min(pieces[i]!.length, Math.max(0, along - starts[i]!)));
  };
  return { start, pieces, starts, length, pointAt };
}

/** The same way from its end to its start. It leads where the other came from, so what bent left bends right. */
export function reversePath(path: Path): Path {
  const { at, heading } = path.pointAt(path.length);
  const pieces = path.pieces.map(({ length, from, to }) => piece(length, -to as Curvature, -from as Curvature)).reverse();
  return makePath({ at, heading: (heading + Math.PI) as Radians }, pieces);
}

/** Which piece holds a distance along the path: of two that meet there, the later. */
export function pieceAt(starts: readonly number[], along: number): number {
  let i = 0;
  while (i < starts.length - 2 && along >= starts[i + 1]!) i++;
  return i;
}

interface Run {
  readonly pointAt: (along: number) => PathPoint;
}

function piece(length: number, from: Curvature, to: Curvature): Piece {
  if (!(length >= 0)) throw new RangeError(`a piece of a path must be at least 0 mm long, got ${length}`);
  return { length: mm(length), from, to };
}

function runOf({ length, from, to }: Piece, { at: [x, y], heading }: PathPoint): Run {
  const local = from === to ? (from === 0 ? alongStraight : alongArc(from)) : alongClothoid(length, from, to);
  const c = Math.cos(heading), s = Math.sin(heading);
  return {
    pointAt(along) {
      const [u, v] = local(along);
      const turned = from * along + ((to - from) * along * along) / (2 * length);
      return { at: sitePoint(x + u * c - v * s, y + u * s + v * c), heading: (heading + turned) as Radians };
    },
  };
}

/** A piece seen from its start, its direction there being the first axis. */
type Local = (along: number) => readonly [number, number];

const alongStraight: Local = (along) => [along, 0];

function alongArc(curvature: number): Local {
  return (along) => {
    const half = Math.sin((curvature * along) / 2);
    return [Math.sin(curvature * along) / curvature, (2 * half * half) / curvature]; // 1 - cos without losing digits
  };
}

/** A panel of the quadrature turns by no more than this (radians): eight points then leave less than 1e-15 of its length. */
const PANEL_TURN = 1;
/** Gauss-Legendre, eight points on -1 to 1 (Abramowitz & Stegun 1964, table 25.4). */
const NODES = [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363] as const;
const WEIGHTS = [0.362683783378362, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763] as const;

function alongClothoid(length: number, from: number, to: number): Local {
  const growth = (to - from) / (2 * length), turned = (t: number) => (from + growth * t) * t;
  const panels = Math.max(1, Math.ceil((Math.max(Math.abs(from), Math.abs(to)) * length) / PANEL_TURN)), width = length / panels;
  const integral = (a: number, b: number): [number, number] => {
    const middle = (a + b) / 2, half = (b - a) / 2;
    let u = 0, v = 0;
    for (let i = 0; i < NODES.length; i++) {
      for (const side of [-1, 1]) {
        const angle = turned(middle + side * half * NODES[i]!);
        u += WEIGHTS[i]! * Math.cos(angle);
        v += WEIGHTS[i]! * Math.sin(angle);
      }
    }
    return [u * half, v * half];
  };
  const sums: [number, number][] = [[0, 0]];
  for (let k = 0; k < panels; k++) {
    const [u, v] = integral(k * width, (k + 1) * width), last = sums[k]!;
    sums.push([last[0] + u, last[1] + v]);
  }
  return (along) => {
    const k = Math.min(panels - 1, Math.floor(along / width)), [u, v] = integral(k * width, along), sum = sums[k]!;
    return [sum[0] + u, sum[1] + v];
  };
}
