import type { ReelBody, ReelLeg } from "./reel";

type Spot = readonly [number, number];

/** The ground passed over between each moment and the one before, as the data of a path: joined up to a moment they are the swept ground. The first is what is stood on at the start. */
export function sweptPieces(bodies: readonly ReelBody[], { rows }: Pick<ReelLeg, "rows">): string[] {
  const outlines = rows.map((row) => bodies.flatMap((body, b) => body.boxes.map(({ box }) => cornersAt(box, row, b))));
  return outlines.map((boxes, i) => boxes.map((corners, k) => ring(hullOf(i === 0 ? corners : [...outlines[i - 1]![k]!, ...corners]))).join(""));
}

/** Corners of a box of a body at a row's moment, on the page. */
function cornersAt([left, top, width, height]: readonly [number, number, number, number], row: readonly number[], body: number): Spot[] {
  const at = 2 + 3 * body, x = row[at]!, y = row[at + 1]!, turn = (row[at + 2]! * Math.PI) / 180, c = Math.cos(turn), s = Math.sin(turn);
  return [[left, top], [left + width, top], [left + width, top + height], [left, top + height]].map(([u, v]): Spot => [x + u! * c - v! * s, y + u! * s + v! * c]);
}

/** Andrew's monotone chain (1979), always the same way round, so that pieces laid over each other fill and never cut each other out. */
function hullOf(points: readonly Spot[]): Spot[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  return [...half(sorted), ...half(sorted.reverse())];
}

function half(sorted: readonly Spot[]): Spot[] {
  const chain: Spot[] = [];
  for (const p of sorted) {
    while (chain.length >= 2 && turns(chain.at(-2)!, chain.at(-1)!, p) <= 0) chain.pop();
    chain.push(p);
  }
  return chain.slice(0, -1);
}

function turns(a: Spot, b: Spot, c: Spot): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

function ring(points: readonly Spot[]): string {
  return `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}Z`;
}
