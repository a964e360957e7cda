import { boundsOf, type Point } from "@/lib/plane";
import type { Site } from "@/lib/park";
import { letterCorners } from "@/lib/survey";
import { methodsFor, type Method } from "./methods";
import type { Form } from "./reading";

/** A corner of the pad by the letter that it goes by, and its number in the record. */
export interface Corner {
  readonly letter: string;
  readonly name: string;
  readonly at: Point;
}

/** A, B and on around: A in front on the left of who looks in. */
export function cornersOf(site: Site): Corner[] {
  const { outline } = site.pad;
  return letterCorners(outline).map(({ letter, at }) => ({ letter, at, name: `pad.${outline.findIndex(([x, y]) => x === at[0] && y === at[1])}` }));
}

/** An empty form for a field: two tapes from the front corners, a ring with as many sides as the pad has, spots at its corners and in its middle. */
export function startForm(site: Site, of: string, method: Method = methodsFor(of)[0] ?? "eye"): Form {
  const corners = cornersOf(site), n = corners.length, [a, b] = corners;
  return {
    of, method, texts: {}, tapes: [{ from: a!.name, distance: "" }, { from: b!.name, distance: "" }],
    side: method === "tapes" ? sideOf(site, of, [a!.at, b!.at]) : "left", add: 0, higher: "plus",
    sides: Array<string>(n).fill(""), diagonals: diagonalsOf(n), inward: [],
    spots: spotsOf(site, corners),
  };
}

/** The ring's own numbers: corner 0 is B, and A the last. */
export function ringLetter(i: number, corners: readonly Corner[]): string {
  return corners[(i + 1) % corners.length]!.letter;
}

/** From B, and from A, to all the others: as many as hold an outline in place, and one more that checks it. */
function diagonalsOf(n: number): Form["diagonals"] {
  const fromB = Array.from({ length: Math.max(0, n - 3) }, (_, i) => ({ from: 0, to: i + 2, length: "" }));
  return n > 3 ? [...fromB, { from: n - 1, to: 1, length: "" }] : fromB;
}

/** Beyond the line from A to B, where nothing else is known: nearly all there is lies there. */
function sideOf(site: Site, of: string, [a, b]: readonly [Point, Point]): "left" | "right" {
  const [list, id] = of.split("."), thing = (list === "hookups" ? site.hookups : site.obstacles).find((one) => one.id === id);
  const [x, y] = thing?.at ?? [(boundsOf(site.pad.outline).minX + boundsOf(site.pad.outline).maxX) / 2, (a[1] + b[1]) / 2];
  return (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) >= 0 ? "left" : "right";
}

function spotsOf({ pad }: Site, corners: readonly Corner[]): Form["spots"] {
  const { minX, minY, maxX, maxY } = boundsOf(pad.outline), middle: [number, number] = [Math.round((minX + maxX) / 2), Math.round((minY + maxY) / 2)];
  return [...corners.map(({ at: [x, y] }) => [x, y] as const), middle].map((at) => ({ at, height: "" }));
}
