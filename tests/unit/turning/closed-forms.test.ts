import { describe, expect, it } from "vitest";
import { radiansFromDegrees, type Radians } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import { aheadAfterArc, arc, defaultTolerances, driveAlong, inLine, makeCombination, makePath, steadyTurn, straight, sumOfSquaresOfftracking } from "@/lib/turning";

const bus = makeCombination({ vehicle: { wheelbase: 7000, frontOverhang: 2000, rearOverhang: 3000, width: 2550 }, units: [] });

describe("a vehicle on an arc, exactly", () => {
  it.each([[9000, 90], [15_000, 180], [7100, 45], [9000, -90]])("of %d mm by %d degrees: integrated to 1e-8 of it, on the arc and on the straight after", (radius, degrees) => {
    const path = makePath({ at: sitePoint(0, 0), heading: radiansFromDegrees(0) }, [arc(radius, radiansFromDegrees(degrees)), straight(12_000)]);
    const drive = driveAlong(bus, path, inLine(bus, path), defaultTolerances), round = path.starts[1]!, curvature = Math.sign(degrees) / radius;
    for (const share of [0.1, 0.37, 0.8, 1]) {
      expect(drive.at(share * round).steer).toBeCloseTo(aheadAfterArc(0 as Radians, 7000, curvature, share * round), 7);
    }
    const out = aheadAfterArc(0 as Radians, 7000, curvature, round);
    for (const driven of [1000, 5000, 12_000]) expect(drive.at(round + driven).steer).toBeCloseTo(aheadAfterArc(out, 7000, 0, driven), 7);
  });

  it("refuses a circle no wider than the wheelbase", () => {
    expect(() => aheadAfterArc(0 as Radians, 7000, 1 / 7000, 10)).toThrow("wider than the wheelbase");
  });
});

describe("no steady state", () => {
  it("for a circle as tight as the wheelbase, or a drawbar that reaches the centre: touching counts as none", () => {
    expect(steadyTurn(bus, 7000)).toBeNull();
    expect(sumOfSquaresOfftracking(bus, 7000)).toBeNull();
    const hitched = makeCombination({ vehicle: bus.vehicle, units: [{ hitchBehindAxle: 0, hitchToAxle: 24_000, width: 2000, rearOverhang: 0 }] });
    expect(steadyTurn(hitched, 25_000)).toBeNull(); // 7, 24, 25
    expect(steadyTurn(hitched, 25_000.001)).not.toBeNull();
  });
});
