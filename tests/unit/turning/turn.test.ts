import { describe, expect, it } from "vitest";
import { mm, radiansFromDegrees, type Radians } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import { bodyToPoint, defaultTolerances, largestSteer, makeCombination, makeTurn, meets, passesHitchLimit, smallestFrontRadius, steadyTurn, type Turn } from "@/lib/turning";

const WHEELBASE = 4000, WIDTH = 2400;
const train = (hitchToAxle: number, behind = 0) => makeCombination({
  vehicle: { wheelbase: WHEELBASE, frontOverhang: 900, rearOverhang: 1200, width: 2000 }, units: [{ hitchBehindAxle: behind, hitchToAxle, width: WIDTH, rearOverhang: 1500 }],
});

function turned(combination: Parameters<typeof makeTurn>[0], radius: number, degrees: number): Turn {
  const turn = makeTurn(combination, { radius: mm(radius), angle: radiansFromDegrees(degrees) }, defaultTolerances);
  if (turn.ended !== "done") throw new Error(turn.ended);
  return turn;
}

describe("a trailer that just makes it, and one that just does not", () => {
  // Going round a post in the middle: by Pythagoras the axle of a trailer of 5 m behind a car of 4 m on a circle of 9 m rolls
  // at the square root of 81 - 16 - 25, 6.3246 m, and the trailer's inner side passes the post at half its width less.
  const inside = Math.sqrt(9000 ** 2 - 4000 ** 2 - 5000 ** 2) - WIDTH / 2;
  const { drive } = turned(train(5000), 9000, 1080);
  // The post's rim where the trailer comes by on its last round.
  const rim = (radius: number) => sitePoint(radius * Math.sin(1), 9000 - radius * Math.cos(1));

  it("goes round a post by 10 mm, and over one 20 mm larger", () => {
    const fine = { ...defaultTolerances, distance: mm(1) };
    const clear = bodyToPoint(drive, 1, rim(inside - 10), fine), hit = bodyToPoint(drive, 1, rim(inside + 10), fine);
    expect(meets(clear)).toBe("clear");
    expect(clear.value).toBeGreaterThan(9);
    expect(clear.value).toBeLessThan(11);
    expect(meets(hit)).toBe("meets");
  });

  it("is told open where the tolerance cannot tell", () => {
    expect(meets(bodyToPoint(drive, 1, rim(inside - 10), { ...defaultTolerances, distance: mm(50), budget: 40 }))).not.toBe("meets");
    expect(meets({ value: 3, bound: -1, along: mm(0), closed: true })).toBe("undecided");
    expect(meets({ value: 0, bound: -1, along: mm(0), closed: true })).toBe("meets");
  });

  it("has an inside radius of exactly that", () => {
    expect(turned(train(5000), 9000, 1080).insideRadius).toBeCloseTo(inside, 1);
  });
});

describe("folding up", () => {
  const hitchRadius = Math.sqrt(9000 ** 2 - WHEELBASE ** 2); // the hitch over the rear axle

  it("passes 90 degrees with a drawbar longer than its hitch's radius, once the arc is long enough; never with a shorter one", () => {
    const right = Math.PI / 2 as Radians;
    expect(passesHitchLimit(turned(train(hitchRadius * 1.02), 9000, 1800), right, defaultTolerances)).toBe(true);
    expect(passesHitchLimit(turned(train(hitchRadius * 0.98), 9000, 1800), right, defaultTolerances)).toBe(false);
    expect(passesHitchLimit(turned(train(hitchRadius * 1.02), 9000, 30), right, defaultTolerances)).toBe(false);
  });

  it("passes a limit set by asin(d / R) from below, not at it", () => {
    const turn = turned(train(5000), 9000, 1800), steady = steadyTurn(train(5000), 9000)![1]!.hitch;
    expect(turn.sharpestHitches[0]).toBeCloseTo(steady, 6);
    expect(passesHitchLimit(turn, (steady - 1e-5) as Radians, defaultTolerances)).toBe(true);
    expect(passesHitchLimit(turn, steady, defaultTolerances)).toBe(false);
    expect(passesHitchLimit(turn, (steady + 1e-5) as Radians, defaultTolerances)).toBe(false);
  });

  it("gives finite numbers all the same", () => {
    const turn = turned(train(hitchRadius * 1.3), 9000, 720);
    for (const value of [turn.insideRadius, turn.outsideRadius, turn.maxOfftracking, ...turn.sharpestHitches]) expect(Number.isFinite(value)).toBe(true);
    expect(turn.outsideRadius).toBeLessThan(30_000);
  });
});

describe("a turn", () => {
  it("never offtracks below zero: a dolly far behind the axle swings outside", () => {
    const out = turned(train(600, 9000), 12_000, 720);
    expect(out.maxOfftracking).toBeGreaterThanOrEqual(0);
    expect(steadyTurn(train(600, 9000), 12_000)![1]!.axleRadius).toBeGreaterThan(12_000);
  });

  it("counts corners only beside the arc: a long tail on the straight before it is not room that the turn takes", () => {
    const { outsideRadius } = turned(train(12_000), 14_000, 90);
    expect(outsideRadius).toBeLessThan(Math.hypot(14_000 + 1000, 900) + 1000);
    expect(outsideRadius).toBeGreaterThan(14_000 + 1000);
  });

  it.each([[4000, "more than the wheelbase"], [3000, "more than the wheelbase"], [0, "more than the wheelbase"], [NaN, "more than the wheelbase"]])("refuses a radius of %d", (radius, words) => {
    expect(() => makeTurn(train(5000), { radius: radius as never, angle: radiansFromDegrees(90) }, defaultTolerances)).toThrow(words);
  });

  it("refuses to turn by nothing", () => {
    expect(() => makeTurn(train(5000), { radius: mm(9000), angle: radiansFromDegrees(0) }, defaultTolerances)).toThrow("more than 0");
  });

  it("says so where the budget runs out, and how far it came", () => {
    const turn = makeTurn(train(5000), { radius: mm(9000), angle: radiansFromDegrees(90) }, { ...defaultTolerances, budget: 20 });
    expect(turn.ended).toBe("budget");
    if (turn.ended === "budget") expect(turn.reached).toBeLessThan(turn.length);
  });
});

describe("the smallest turning circle", () => {
  const vehicle = { wheelbase: 3000, frontOverhang: 900, rearOverhang: 900, width: 1900, track: 1600 };

  it("is what the outer front tire rolls along, so the front axle's middle runs inside it", () => {
    const { vehicle: made } = makeCombination({ vehicle: { ...vehicle, turningCircle: 12_000 }, units: [] });
    // rear axle: sqrt(6000^2 - 3000^2) - 800 = 4396.15; front: hypot(4396.15, 3000)
    expect(smallestFrontRadius(made)).toBeCloseTo(5322.26, 1);
    expect(largestSteer(made)).toBeCloseTo(Math.asin(3000 / 5322.26), 5);
  });

  it("is null where nobody knows it, and refused where the wheelbase does not allow it", () => {
    expect(smallestFrontRadius(makeCombination({ vehicle, units: [] }).vehicle)).toBeNull();
    expect(() => makeCombination({ vehicle: { ...vehicle, turningCircle: 6000 }, units: [] })).toThrow("turningCircle must be at least 6210 mm");
  });
});

describe("a combination", () => {
  it.each([
    [{ wheelbase: 0 }, "wheelbase must be more than 0 mm, got 0"],
    [{ width: -1 }, "width must be more than 0 mm, got -1"],
    [{ frontOverhang: NaN }, "frontOverhang must be at least 0 mm, got NaN"],
    [{ rearOverhang: Infinity }, "finite"],
  ])("refuses %j", (wrong, words) => {
    expect(() => makeCombination({ vehicle: { wheelbase: 3000, frontOverhang: 0, rearOverhang: 0, width: 2000, ...wrong }, units: [] })).toThrow(words);
  });

  it("names the unit at fault", () => {
    const unit = { hitchBehindAxle: 0, hitchToAxle: 3000, width: 2000, rearOverhang: 0 }, vehicle = { wheelbase: 3000, frontOverhang: 0, rearOverhang: 0, width: 2000 };
    expect(() => makeCombination({ vehicle, units: [unit, { ...unit, hitchToAxle: -1 }] })).toThrow("units[1].hitchToAxle must be more than 0 mm, got -1");
  });
});
