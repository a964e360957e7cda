import type { Label, PageBox, PagePoint } from "./types";

/**
 * Where labels go. Each is tried around the mark it names, near first; it may never lie on another label or leave
 * the drawing, keeps off what is solid, and avoids crossing lines. What finds no room becomes a number, explained in
 * a key below the drawing. Most telling first: an early label takes its place from a later one.
 */
export interface Wanted {
  readonly id: string;
  readonly lines: readonly string[];
  readonly anchor: PagePoint;
  /** Half the size of the mark named: labels begin beyond it. */
  readonly radius: number;
  readonly accent?: boolean;
  readonly faint?: boolean;
}

export interface Surroundings {
  readonly page: PageBox;
  /** Labels may not lie on these unless nothing else is left. */
  readonly solid: readonly PageBox[];
  /** Labels may not lie on these at all. */
  readonly taken: readonly PageBox[];
  /** Lines better not covered. */
  readonly lines: readonly (readonly [PagePoint, PagePoint])[];
}

/** Height of label text, units of the viewBox; a typewriter's letter is 0.6 of its height wide in every such font. */
export const LABEL_SIZE = 13;
export const LETTER_WIDTH = 0.602;
export const LINE_HEIGHT = 14;
/** Half the size of a hookup's symbol. */
export const SYMBOL = 6;
const PAD = 2;
/** Lines of a label are broken beyond so many letters. */
const MEASURE = 11;

const COST = { line: 14, leaderOnLabel: 400, leaderOnLeader: 120, leaderOnSolid: 140, leaderOnLine: 10, solid: 500, number: 400 };
const DISTANCES = [3, 8, 14, 22, 32, 44, 58, 76, 98, 124];
const DIRECTIONS = Array.from({ length: 16 }, (_, i) => (i * Math.PI) / 8);
/** A label this near needs no line to its mark. */
const LEADER_FROM = 9;

export function placeLabels(wanted: readonly Wanted[], around: Surroundings): Label[] {
  const placed: Label[] = [];
  let numbers = 0;
  for (const item of wanted) {
    const size = sizeOf(item.lines);
    const text = bestPlace(item, size, around, placed);
    if (text && text.cost < COST.number) {
      placed.push({ id: item.id, lines: item.lines, box: text.box, leader: text.leader, accent: item.accent ?? false, faint: item.faint ?? false, number: null });
      continue;
    }
    const number = bestPlace(item, { w: 18, h: 16 }, around, placed);
    if (!number) continue;
    numbers += 1;
    placed.push({ id: item.id, lines: item.lines, box: number.box, leader: number.leader, accent: item.accent ?? false, faint: item.faint ?? false, number: numbers });
  }
  return placed;
}

/** Breaks text between words into lines of about MEASURE letters. */
export function wrap(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= MEASURE) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

export function widthOf(text: string, size = LABEL_SIZE): number {
  return text.length * size * LETTER_WIDTH;
}

export function overlap(a: PageBox, b: PageBox): boolean {
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

function sizeOf(lines: readonly string[]): { w: number; h: number } {
  return { w: Math.max(...lines.map((l) => widthOf(l))) + 2 * PAD, h: lines.length * LINE_HEIGHT + PAD };
}

interface Place {
  readonly box: PageBox;
  readonly leader: readonly [PagePoint, PagePoint] | null;
  readonly cost: number;
}

function bestPlace(item: Wanted, size: { w: number; h: number }, around: Surroundings, placed: readonly Label[]): Place | null {
  let best: Place | null = null;
  for (const distance of DISTANCES) {
    if (best && best.cost <= distance) break;
    for (const direction of DIRECTIONS) {
      const place = placeAt(item, size, distance, direction, around, placed);
      if (place && (!best || place.cost < best.cost)) best = place;
    }
  }
  return best;
}

function placeAt({ anchor, radius }: Wanted, { w, h }: { w: number; h: number }, distance: number, direction: number, around: Surroundings, placed: readonly Label[]): Place | null {
  const dx = Math.cos(direction), dy = Math.sin(direction);
  const reach = radius + distance;
  // The box's nearest side or corner touches the circle of that reach.
  const cx = anchor[0] + dx * reach + (w / 2) * squareSide(dx), cy = anchor[1] + dy * reach + (h / 2) * squareSide(dy);
  const box: PageBox = { x: cx - w / 2, y: cy - h / 2, w, h };
  if (!inside(box, around.page)) return null;
  if (placed.some((other) => overlap(box, other.box)) || around.taken.some((other) => overlap(box, other))) return null;
  const near = nearestOn(box, anchor);
  const leader: readonly [PagePoint, PagePoint] | null = distance > LEADER_FROM ? [towards(anchor, near, radius), near] : null;
  let cost = distance + 4 * Math.abs(dy);
  for (const solid of around.solid) if (overlap(box, solid)) cost += COST.solid;
  if (leader) for (const other of [...around.solid, ...around.taken]) if (!holds(other, anchor) && crosses(leader, other)) cost += COST.leaderOnSolid;
  for (const line of around.lines) {
    if (crosses(line, box)) cost += COST.line;
    if (leader && meet(leader, line)) cost += COST.leaderOnLine;
  }
  for (const other of placed) {
    if (other.leader && crosses(other.leader, box)) cost += COST.leaderOnLabel;
    if (leader && crosses(leader, other.box)) cost += COST.leaderOnLabel;
    if (leader && other.leader && meet(leader, other.leader)) cost += COST.leaderOnLeader;
  }
  return { box, leader, cost };
}

/** From -1 to 1 as the box moves from one side of the mark to the other, standing centred above and below it. */
function squareSide(d: number): number {
  return Math.abs(d) < 0.3 ? 0 : Math.max(-1, Math.min(1, d * 1.5));
}

function inside(box: PageBox, page: PageBox): boolean {
  return box.x >= page.x && box.y >= page.y && box.x + box.w <= page.x + page.w && box.y + box.h <= page.y + page.h;
}

function holds({ x, y, w, h }: PageBox, [px, py]: PagePoint): boolean {
  return px >= x - 1 && px <= x + w + 1 && py >= y - 1 && py <= y + h + 1;
}

function nearestOn({ x, y, w, h }: PageBox, [px, py]: PagePoint): PagePoint {
  return [Math.max(x, Math.min(px, x + w)), Math.max(y, Math.min(py, y + h))];
}

function towards(from: PagePoint, to: PagePoint, by: number): PagePoint {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length <= by) return from;
  return [from[0] + ((to[0] - from[0]) * by) / length, from[1] + ((to[1] - from[1]) * by) / length];
}

function crosses(line: readonly [PagePoint, PagePoint], { x, y, w, h }: PageBox): boolean {
  const [a, b] = line;
  const within = ([px, py]: PagePoint) => px > x && px < x + w && py > y && py < y + h;
  if (within(a) || within(b)) return true;
  const corners: PagePoint[] = [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
  return corners.some((corner, i) => meet(line, [corner, corners[(i + 1) % 4]!]));
}

function meet([a, b]: readonly [PagePoint, PagePoint], [c, d]: readonly [PagePoint, PagePoint]): boolean {
  const side = (p: PagePoint, q: PagePoint, r: PagePoint) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
