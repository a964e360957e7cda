import type { LabelKind, MapLabel, SheetBox, SheetPoint } from "./types";

/** A typewriter's letter is 0.6 of its height wide in every such font. */
const LETTER_WIDTH = 0.602;
const LINE = 1.12;
const PAD = 1.5;

/** A name that wants a place near what it names. First come, first served: the most telling come first. */
export interface WantedLabel {
  readonly id: string;
  readonly kind: LabelKind;
  /** Ways to write it, each as its lines, the best first. */
  readonly forms: readonly (readonly string[])[];
  readonly size: number;
  readonly anchor: SheetPoint;
  /** Labels begin this far from the anchor; 0: it may stand right on it. */
  readonly radius: number;
  /** How far off it may stand before it is left out. */
  readonly reach: number;
  /** Has to be on the map, over a line if need be. */
  readonly needed: boolean;
}

export interface LabelGround {
  readonly sheet: SheetBox;
  /** Marks and the like: never covered. */
  readonly taken: readonly SheetBox[];
  /** Pads, buildings: better not covered. */
  readonly solid: readonly SheetBox[];
  /** Roads, creek, with their widths: better not crossed. */
  readonly lines: readonly { readonly points: readonly SheetPoint[]; readonly width: number }[];
}

const DIRECTIONS = Array.from({ length: 16 }, (_, i) => (i * Math.PI) / 8);
const STEP = 5;
const LEADER_FROM = 7;
const COST = { solid: 18, line: 9, form: 30 };

/** Each label in the cheapest free place around what it names: on the sheet, off every mark and off every other label. */
export function placeMapLabels(wanted: readonly WantedLabel[], ground: LabelGround): MapLabel[] {
  const placed: MapLabel[] = [];
  for (const item of wanted) {
    const places = item.forms.flatMap((lines, i) => {
      const place = bestPlace(item, lines, ground, placed);
      return place ? [{ ...place, lines, cost: place.cost + COST.form * i }] : [];
    });
    const [best] = places.sort((a, b) => a.cost - b.cost);
    if (best) placed.push({ id: item.id, kind: item.kind, lines: best.lines, size: item.size, box: best.box, leader: best.leader });
  }
  return placed;
}

export function overlap(a: SheetBox, b: SheetBox): boolean {
  return a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
}

export function textWidth(text: string, size: number): number {
  return text.length * size * LETTER_WIDTH;
}

export function lineHeight(size: number): number {
  return size * LINE;
}

interface Place {
  readonly box: SheetBox;
  readonly leader: MapLabel["leader"];
  readonly cost: number;
}

function bestPlace(item: WantedLabel, lines: readonly string[], ground: LabelGround, placed: readonly MapLabel[]): Place | null {
  const w = Math.max(...lines.map((l) => textWidth(l, item.size))) + 2 * PAD, h = lines.length * lineHeight(item.size) + 2 * PAD;
  let best: Place | null = null;
  for (let distance = 0; distance <= item.reach; distance += STEP) {
    if (best && best.cost <= distance) break;
    for (const direction of item.radius === 0 && distance === 0 ? [0] : DIRECTIONS) {
      const box = boxAt(item, w, h, distance, direction);
      const cost = costOf(box, item, distance, ground, placed);
      if (cost !== null && (!best || cost < best.cost)) best = { box, cost, leader: leaderOf(item, box, distance) };
    }
  }
  return best;
}

/** The box whose nearest edge lies `radius + distance` from the anchor in that direction. */
function boxAt({ anchor: [ax, ay], radius }: WantedLabel, w: number, h: number, distance: number, direction: number): SheetBox {
  const dx = Math.cos(direction), dy = Math.sin(direction);
  if (radius === 0) return { x: ax + dx * distance - w / 2, y: ay + dy * distance - h / 2, w, h };
  const beyond = radius + 2 + distance;
  const half = Math.min(Math.abs(dx) < 1e-6 ? Infinity : w / 2 / Math.abs(dx), Math.abs(dy) < 1e-6 ? Infinity : h / 2 / Math.abs(dy));
  return { x: ax + dx * (beyond + half) - w / 2, y: ay + dy * (beyond + half) - h / 2, w, h };
}

function costOf(box: SheetBox, item: WantedLabel, distance: number, { sheet, taken, solid, lines }: LabelGround, placed: readonly MapLabel[]): number | null {
  if (box.x < sheet.x || box.y < sheet.y || box.x + box.w > sheet.x + sheet.w || box.y + box.h > sheet.y + sheet.h) return null;
  if (taken.some((t) => overlap(t, box)) || placed.some((p) => overlap(p.box, box))) return null;
  const onSolid = solid.filter((s) => overlap(s, box)).length, onLine = lines.filter((line) => crosses(line, box)).length;
  // What need not be there stands clear or not at all; the ground's own names may lie on their own ground.
  if (!item.needed && (onSolid > 0 || onLine > 0)) return null;
  return distance + COST.solid * onSolid + COST.line * onLine;
}

function leaderOf({ anchor, radius, kind }: WantedLabel, { x, y, w, h }: SheetBox, distance: number): MapLabel["leader"] {
  if (kind !== "site" || distance < LEADER_FROM) return null;
  const near: SheetPoint = [Math.min(x + w, Math.max(x, anchor[0])), Math.min(y + h, Math.max(y, anchor[1]))];
  const length = Math.hypot(near[0] - anchor[0], near[1] - anchor[1]);
  if (length <= radius) return null;
  const t = radius / length;
  return [[anchor[0] + (near[0] - anchor[0]) * t, anchor[1] + (near[1] - anchor[1]) * t], near];
}

function crosses({ points, width }: LabelGround["lines"][number], { x, y, w, h }: SheetBox): boolean {
  const half = width / 2;
  const box = { x: x - half, y: y - half, w: w + width, h: h + width };
  return points.some((p, i) => i > 0 && segmentMeets(points[i - 1]!, p, box));
}

/** Liang and Barsky 1984: whether any of the segment is inside the box. */
function segmentMeets([ax, ay]: SheetPoint, [bx, by]: SheetPoint, { x, y, w, h }: SheetBox): boolean {
  let from = 0, to = 1;
  for (const [p, d, low, high] of [[ax, bx - ax, x, x + w], [ay, by - ay, y, y + h]] as const) {
    if (d === 0) {
      if (p < low || p > high) return false;
      continue;
    }
    const t1 = (low - p) / d, t2 = (high - p) / d;
    from = Math.max(from, Math.min(t1, t2));
    to = Math.min(to, Math.max(t1, t2));
  }
  return from <= to;
}
