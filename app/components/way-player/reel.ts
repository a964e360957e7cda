/**
 * A way as a browser is given it: plain numbers in units of the drawing, rounded to a hundredth (a few millimetres of ground), and
 * what is said at each moment. Bodies are drawn facing up the page and then put in place.
 */
export interface Reel {
  readonly bodies: readonly ReelBody[];
  readonly legs: readonly ReelLeg[];
  /** In the order in which they are stood on; numbered from 1. */
  readonly posts: readonly { readonly leg: number; readonly at: readonly [number, number] }[];
}

export interface ReelBody {
  /** Left, top, width and height. */
  readonly boxes: readonly { readonly part: string; readonly box: readonly [number, number, number, number] }[];
  readonly wheels: readonly { readonly at: readonly [number, number]; readonly steered: boolean }[];
  /** From the nose of its boxes to what draws it: two heights on the body's middle line. */
  readonly drawbar: readonly [number, number] | null;
  /** Length and width of a tire. */
  readonly tire: readonly [number, number];
}

export interface ReelLeg {
  readonly kind: "back" | "in" | "out";
  readonly name: string;
  /** How far the front axle rolls, mm. */
  readonly length: number;
  /** For each moment: how far along (mm), how far the wheels are turned (degrees on the page), then place and turn of every body. */
  readonly rows: readonly (readonly number[])[];
  /** For each moment the two places that come nearest to each other. */
  readonly near: readonly (readonly [number, number, number, number])[];
  /** For each moment the post stood on, by its place in `posts`, and the driver's eye where it sees the helper. */
  readonly helpers: readonly (readonly number[] | null)[];
  /** For each moment: what happens, and how far along that is. */
  readonly said: readonly string[];
  readonly far: readonly string[];
  /** The moments at which stepping stops, by their place: the ends, where the wheel turns another way, where it is tightest, and some in between. */
  readonly stations: readonly number[];
  /** What is told when the leg has been driven. */
  readonly end: string;
}

/** A moment between two rows, as a row. At a row's own place it is that row. */
export function rowAt({ rows }: Pick<ReelLeg, "rows">, along: number): readonly number[] {
  const next = rows.findIndex((row) => row[0]! >= along);
  if (next <= 0) return next === 0 ? rows[0]! : rows.at(-1)!;
  const a = rows[next - 1]!, b = rows[next]!, t = (along - a[0]!) / (b[0]! - a[0]!);
  return a.map((value, i) => value + (b[i]! - value) * t);
}

/** The moment that is nearest, by its place. */
export function momentNear({ rows }: Pick<ReelLeg, "rows">, along: number): number {
  const next = rows.findIndex((row) => row[0]! >= along);
  if (next <= 0) return next === 0 ? 0 : rows.length - 1;
  return along - rows[next - 1]![0]! < rows[next]![0]! - along ? next - 1 : next;
}

/** Moments spread over a leg, both ends among them: so many, or as many as there are stations. */
export function spreadOver({ rows }: Pick<ReelLeg, "rows">, count: number): number[] {
  const last = rows.at(-1)![0]!;
  return [...new Set(Array.from({ length: count }, (_, i) => momentNear({ rows }, (last * i) / (count - 1))))];
}
