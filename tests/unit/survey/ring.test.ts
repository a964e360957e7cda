import { describe, expect, it } from "vitest";
import { closeRing, type RingDistance, type RingOptions } from "@/lib/survey";

type Corner = readonly [number, number];
/** A pad 12 m by 4 m in the site frame: corner 0 to the right of the entry edge. */
const pad: readonly Corner[] = [[0, -2000], [12_000, -2000], [12_000, 2000], [0, 2000]];

const between = (corners: readonly Corner[], from: number, to: number, off = 0): RingDistance => {
  const [a, b] = [corners[from]!, corners[to]!];
  return { name: `${from}-${to}`, from, to, length: Math.hypot(a[0] - b[0], a[1] - b[1]) + off, error: 10 };
};
const sides = (corners: readonly Corner[]) => corners.map((_, k) => between(corners, k, (k + 1) % corners.length));
const close = (corners: readonly Corner[], diagonals: readonly RingDistance[], options?: RingOptions) => closeRing(corners.length, [...sides(corners), ...diagonals], options);
const fault = (outcome: ReturnType<typeof closeRing>) => (outcome.ok ? expect.fail("was taken") : outcome.faults[0]!);
const expectCorners = (outcome: ReturnType<typeof closeRing>, corners: readonly Corner[]) => {
  if (!outcome.ok) return expect.fail(outcome.faults[0]!.code);
  outcome.value.corners.forEach(([x, y], k) => expect([x, y]).toEqual([expect.closeTo(corners[k]![0], 4), expect.closeTo(corners[k]![1], 4)]));
  return outcome.value;
};

describe("an outline by its sides and diagonals", () => {
  it("comes in the site frame: the edge from the last corner to the first on x = 0, its middle in the origin", () => {
    const ring = expectCorners(close(pad, [between(pad, 0, 2), between(pad, 1, 3)]), pad);
    expect(ring).toMatchObject({ redundancy: 1, misfit: expect.closeTo(0, 5), closing: expect.closeTo(0, 5) });
    expect(Math.sqrt(ring!.spreads[0]!.yy)).toBeGreaterThan(2);
    expect(Math.sqrt(ring!.spreads[0]!.yy)).toBeLessThan(10);
  });

  it("is held by one diagonal of four corners, and then nothing checks it", () => {
    expect(expectCorners(close(pad, [between(pad, 1, 3)]), pad)).toMatchObject({ redundancy: 0, misfit: null, closing: null });
  });

  it("without a diagonal can lean: the one to measure is named", () => {
    expect(fault(close(pad, []))).toMatchObject({ code: "ring:loose", again: ["0-2"] });
  });

  it("may be a triangle, or have five corners", () => {
    const triangle: readonly Corner[] = [[0, -1500], [4000, 0], [0, 1500]];
    expectCorners(close(triangle, []), triangle);
    const five: readonly Corner[] = [[0, -1500], [9000, -2000], [12_000, 500], [9000, 2500], [0, 1500]];
    expectCorners(close(five, [between(five, 0, 2), between(five, 2, 4), between(five, 1, 4)]), five);
  });

  it("may have a corner that points inward, where that is said or further diagonals tell", () => {
    const dented: readonly Corner[] = [[0, -2000], [12_000, -2000], [8000, 0], [12_000, 2000], [0, 2000]];
    const held = [between(dented, 0, 3), between(dented, 1, 3)];
    expectCorners(close(dented, held, { inward: [2] }), dented);
    expectCorners(close(dented, [...held, between(dented, 0, 2)]), dented);
  });

  it("that does not close is refused, with the distance that disagrees where one can be told", () => {
    const off = fault(close(pad, [between(pad, 0, 2), between(pad, 1, 3, 150)]));
    expect(off.code).toBe("ring:disagree");
    // One check only: what is off in one distance could be in any of the six.
    expect(off.again).toHaveLength(6);
    const five: readonly Corner[] = [[0, -1500], [9000, -2000], [12_000, 500], [9000, 2500], [0, 1500]];
    const all = [[0, 2], [0, 3], [1, 3], [1, 4], [2, 4]].map(([a, b]) => between(five, a!, b!, a === 1 && b === 3 ? 250 : 0));
    expect(fault(close(five, all))).toMatchObject({ code: "ring:disagree", again: ["1-3"], by: expect.closeTo(250, -1) });
  });

  it("cannot have a side longer than all others, three distances that make no triangle, corners in line, or a corner that is not there", () => {
    const long = [between(pad, 0, 1, 20_000), ...sides(pad).slice(1), between(pad, 0, 2)];
    expect(fault(closeRing(4, long))).toMatchObject({ code: "ring:open", again: ["0-1"], by: expect.closeTo(12_000, 0) });
    expect(fault(close(pad, [between(pad, 0, 2, 4000)]))).toMatchObject({ code: "ring:triangle", again: ["0-2", "1-2", "0-1"], by: expect.closeTo(Math.hypot(12_000, 4000) + 4000 - 16_000, 3) });
    const flat: readonly Corner[] = [[0, -2000], [6000, -2000], [12_000, -2000], [0, 2000]];
    expect(fault(close(flat, [between(flat, 0, 2)]))).toMatchObject({ code: "ring:flat" });
    expect(fault(closeRing(4, [...sides(pad), { ...between(pad, 0, 2), to: 7, name: "0-7" }]))).toMatchObject({ code: "ring:no-corner", again: ["0-7"] });
    expect(fault(closeRing(4, sides(pad).slice(1)))).toMatchObject({ code: "ring:too-few", again: ["0-1"] });
  });
});
