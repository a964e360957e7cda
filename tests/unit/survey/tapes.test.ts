import { describe, expect, it } from "vitest";
import { EXACT, ellipseOf, evenly, placeByOffsets, placeByTapes, type Known, type Surveyed, type Tape } from "@/lib/survey";

const known = (name: string, x: number, y: number, error = 0): Known => ({ name, at: [x, y], spread: error === 0 ? EXACT : evenly(error) });
const A = known("A", 0, 0), B = known("B", 4000, 0), C = known("C", 4000, 6000);
const tape = (from: Known, distance: number, error = 10): Tape => ({ name: `from ${from.name}`, from, distance, error });
const got = <T>(s: Surveyed<T>): T => (s.ok ? s.value : expect.fail(s.faults.map(({ code }) => code).join()));
const fault = <T>(s: Surveyed<T>) => (s.ok ? expect.fail("was taken") : s.faults[0]!);
const warned = <T>(s: Surveyed<T>) => (s.ok ? s.warnings : expect.fail("was refused"));

describe("two tapes", () => {
  it("3, 4, 5: square to the base at its end, on the side that is said", () => {
    const left = got(placeByTapes([tape(A, 3000), tape(B, 5000)], { side: "left" }));
    expect([...left.at]).toEqual([expect.closeTo(0, 6), expect.closeTo(3000, 6)]);
    expect(got(placeByTapes([tape(A, 3000), tape(B, 5000)], { side: "right" })).at[1]).toBeCloseTo(-3000, 6);
  });

  it("all sides alike: over the middle of the base, as high as root three of its half", () => {
    const { at, spread } = got(placeByTapes([tape(A, 4000), tape(B, 4000)], { side: "left" }));
    expect([...at]).toEqual([expect.closeTo(2000, 6), expect.closeTo(2000 * Math.sqrt(3), 6)]);
    // Directions 60 degrees to either side of y: AᵀA = diag(2 cos²60, 2 sin²60), errors 10 over its roots.
    expect(spread.xx).toBeCloseTo(100 / 0.5, 6);
    expect(spread.yy).toBeCloseTo(100 / 1.5, 6);
    expect(spread.xy).toBeCloseTo(0, 6);
  });

  it("that cross at right angles give a round ellipse as large as their own error", () => {
    const { ellipse } = got(placeByTapes([tape(A, 3000), tape(known("D", 3000, 4000), 4000)], { side: "right" }));
    expect([ellipse.major, ellipse.minor]).toEqual([expect.closeTo(10, 6), expect.closeTo(10, 6)]);
  });

  it("carry the error of the points they are held to, along themselves", () => {
    const { spread } = got(placeByTapes([tape(A, 3000, 3), tape(known("D", 3000, 4000, 4), 4000, 3)], { side: "right" }));
    expect([spread.xx, spread.yy]).toEqual([expect.closeTo(9, 6), expect.closeTo(25, 6)]);
  });

  it("leave the side open: it has to be said", () => {
    expect(fault(placeByTapes([tape(A, 3000), tape(B, 5000)]))).toEqual({ code: "tapes:which-side", again: ["A", "B"], by: null });
  });

  it("that do not reach each other, or one of which swallows the other, are refused with by how much", () => {
    expect(fault(placeByTapes([tape(A, 1500), tape(B, 2400)], { side: "left" }))).toEqual({ code: "tapes:apart", again: ["from A", "from B"], by: 100 });
    expect(fault(placeByTapes([tape(A, 9000), tape(B, 4900)], { side: "left" }))).toEqual({ code: "tapes:inside", again: ["from A", "from B"], by: 100 });
  });

  it("to a point right on their line, or nearly, are refused; well off it they are taken", () => {
    expect(fault(placeByTapes([tape(A, 2000), tape(B, 2000)], { side: "left" })).code).toBe("tapes:in-line");
    expect(fault(placeByTapes([tape(A, 2001), tape(B, 2001)], { side: "left" })).code).toBe("tapes:in-line");
    const off = Math.hypot(2000, 500);
    expect(warned(placeByTapes([tape(A, off), tape(B, off)], { side: "left" }))).toEqual([]);
  });

  it("that cross at a sharp angle are taken with a warning: the ellipse is long", () => {
    const far = Math.hypot(20_000, 400);
    const [one] = warned(placeByTapes([tape(known("A", -400, 0), far), tape(known("B", 400, 0), far)], { side: "left" }).ok ? placeByTapes([tape(A, 30_000), tape(B, 30_000)], { side: "left" }) : expect.fail());
    expect(one).toMatchObject({ code: "tapes:weak" });
    expect(one!.by).toBeCloseTo(10 / (Math.SQRT2 * (2000 / 30_000)), 0);
  });

  it("need two places to be held to", () => {
    expect(fault(placeByTapes([tape(A, 3000)])).code).toBe("tapes:too-few");
    expect(fault(placeByTapes([tape(A, 3000), tape(A, 3001)])).code).toBe("tapes:one-place");
    expect(fault(placeByTapes([tape(A, 3000), tape(known("near", 10, 0), 3001)])).code).toBe("tapes:one-place");
  });
});

describe("more tapes", () => {
  const to = (x: number, y: number, from: Known, off = 0) => tape(from, Math.hypot(x - from.at[0], y - from.at[1]) + off);

  it("tell the side by themselves where their points do not lie in line, and show no misfit where they agree", () => {
    const placed = got(placeByTapes([to(1000, 3000, A), to(1000, 3000, B), to(1000, 3000, C)]));
    expect([...placed.at]).toEqual([expect.closeTo(1000, 5), expect.closeTo(3000, 5)]);
    expect(placed.misfit).toBeCloseTo(0, 5);
    expect(placed.redundancy).toBe(1);
  });

  it("contradict a side that is said wrongly", () => {
    expect(fault(placeByTapes([to(1000, 3000, A), to(1000, 3000, B), to(1000, 3000, C)], { side: "right" })).code).toBe("tapes:which-side");
  });

  it("from points in one line leave the side open still", () => {
    const tapes = [to(1000, 3000, A), to(1000, 3000, B), to(1000, 3000, known("E", 9000, 0))];
    expect(fault(placeByTapes(tapes)).code).toBe("tapes:which-side");
    expect(got(placeByTapes(tapes, { side: "right" })).at[1]).toBeCloseTo(-3000, 5);
  });

  it("name the tape that disagrees most, and by how much the others say it is off", () => {
    const D = known("D", -500, 7000);
    const placed = placeByTapes([to(1000, 3000, A), to(1000, 3000, B), to(1000, 3000, C, 300), to(1000, 3000, D)]);
    expect(warned(placed)).toEqual([{ code: "tapes:disagree", again: ["from C"], by: expect.closeTo(300, -1) }]);
    expect(got(placed).tapes[2]).toMatchObject({ name: "from C", offBy: expect.closeTo(-300, -1) });
  });

  it("of three cannot say which one it is, and name all three", () => {
    const [one] = warned(placeByTapes([to(1000, 3000, A), to(1000, 3000, B), to(1000, 3000, C, 300)]));
    expect(one).toMatchObject({ code: "tapes:disagree", again: ["from A", "from B", "from C"] });
  });

  it("two of which can never meet are refused, the tape named that the others speak against", () => {
    const D = known("D", -500, 7000);
    const tapes = [to(1000, 3000, A), to(1000, 3000, B, -3500), to(1000, 3000, C), to(1000, 3000, D)];
    expect(fault(placeByTapes(tapes))).toMatchObject({ again: ["from B"] });
  });
});

describe("offsets", () => {
  it("go along the base and to the left of who looks along it", () => {
    const offset = { along: 1000, across: 2000, alongError: 3, acrossError: 4 };
    const east = got(placeByOffsets(offset, [A, B]));
    expect([...east.at]).toEqual([1000, 2000]);
    expect(east.spread).toEqual({ xx: 9, xy: 0, yy: 16 });
    const north = got(placeByOffsets(offset, [B, C]));
    expect([...north.at]).toEqual([4000 - 2000, 1000]);
    expect(north.spread).toEqual({ xx: 16, xy: 0, yy: 9 });
  });

  it("carry the base's errors: its beginning's at its beginning, both ends' by halves in its middle, grown beyond its end", () => {
    const at = (along: number) => got(placeByOffsets({ along, across: 0, alongError: 0, acrossError: 0 }, [known("A", 0, 0, 10), known("B", 4000, 0, 10)])).spread.yy;
    expect([at(0), at(2000), at(8000)]).toEqual([expect.closeTo(100, 6), expect.closeTo(50, 6), expect.closeTo(500, 6)]);
  });

  it("need a base of some length", () => {
    expect(fault(placeByOffsets({ along: 1, across: 1, alongError: 1, acrossError: 1 }, [A, known("near", 10, 0)])).code).toBe("offsets:one-place");
  });
});

describe("the ellipse of a spread", () => {
  it("has the spread's eigenvalues as squares of its axes", () => {
    const { major, minor, bearing } = ellipseOf({ xx: 5, xy: 3, yy: 5 });
    expect([major ** 2, minor ** 2, bearing]).toEqual([expect.closeTo(8, 9), expect.closeTo(2, 9), expect.closeTo(Math.PI / 4, 9)]);
  });
});
