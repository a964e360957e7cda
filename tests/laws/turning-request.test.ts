import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { POST } from "@/app/api/turning/route";
import type { TurningAnswer } from "@/lib/turning/request";
import { pullThrough } from "../checker/pulled-train";

const SEED = 20_261_126;
const runs = (numRuns: number, offset = 0) => ({ seed: SEED + offset, numRuns, endOnFailure: true });

async function post(body: unknown): Promise<{ status: number; answer: unknown }> {
  const response = await POST(new Request("http://localhost/api/turning", { method: "POST", body: typeof body === "string" ? body : JSON.stringify(body) }));
  return { status: response.status, answer: await response.json() };
}

/** From a slip of the decimal point to the longest that is taken, and past it. */
const extreme = fc.oneof(fc.constantFrom(0, -1, 0.001, 1, 99.9, 100, 100_000, 100_001, 500_000, 1e9, 1e308, -1e9), fc.double({ min: 0.01, max: 120_000, noNaN: true }));
const size = fc.oneof({ weight: 4, arbitrary: fc.integer({ min: 100, max: 20_000 }) }, { weight: 1, arbitrary: extreme });
const odd = fc.oneof({ weight: 12, arbitrary: size }, { weight: 1, arbitrary: fc.constantFrom(null, "12", true, [], {}, undefined) });
const unit = (of: fc.Arbitrary<unknown>) => fc.record({ hitchBehindAxle: fc.oneof(of, fc.integer({ min: -5000, max: 5000 })), hitchToAxle: of, width: of, rearOverhang: of });
const asked = (of: fc.Arbitrary<unknown>) => fc.record({
  vehicle: fc.record({ width: of, wheelbase: of, frontOverhang: of, rearOverhang: of, units: fc.array(unit(of), { maxLength: 9 }) }, { requiredKeys: ["width", "wheelbase", "frontOverhang", "rearOverhang"] }),
  arc: fc.record({ radius: fc.oneof(of, fc.integer({ min: 3000, max: 90_000 })), degrees: fc.oneof(fc.constantFrom(0, 0.01, 90, 180, 3600, 3601, -90), fc.integer({ min: 1, max: 3600 })) }),
  maxHitchAngle: fc.oneof(fc.constantFrom(undefined, null, 0, 90, 180, 181), fc.double({ min: 1, max: 180, noNaN: true })),
});

/** What an answer cannot be, whatever was asked. */
function expectSound({ insideRadius, outsideRadius, maxOfftracking, jackknifes }: TurningAnswer, { vehicle, arc }: { vehicle: { width: number; units?: { width: number }[] }; arc: { radius: number } }): void {
  for (const value of [insideRadius, outsideRadius, maxOfftracking]) expect(Number.isFinite(value)).toBe(true);
  expect(typeof jackknifes).toBe("boolean");
  expect(maxOfftracking).toBeGreaterThanOrEqual(0);
  expect(outsideRadius).toBeGreaterThan(insideRadius);
  const width = vehicle.units?.at(-1)?.width ?? vehicle.width;
  // Both tell the nearest that the last axle came to the center; where it stayed outside of the arc, the offtracking says no more.
  if (maxOfftracking > 0) expect(Math.abs(arc.radius - maxOfftracking - width / 2 - insideRadius)).toBeLessThan(0.02);
  else expect(insideRadius).toBeGreaterThanOrEqual(arc.radius - width / 2 - 0.02);
}

describe("POST /api/turning", () => {
  it("answers or refuses whatever it is sent", async () => {
    const tally: Record<number, number> = {};
    await fc.assert(fc.asyncProperty(asked(odd), async (body) => {
      const { status, answer } = await post(body);
      tally[status] = (tally[status] ?? 0) + 1;
      if (status === 200) expectSound(answer as TurningAnswer, body as never);
      else {
        expect(status).toBe(422);
        for (const { path, message } of (answer as { faults?: { path: string; message: string }[] }).faults ?? []) expect(path.length * message.length).toBeGreaterThan(0);
      }
    }), runs(400));
    expect(Object.keys(tally).sort()).toEqual(["200", "422"]);
  });

  it("answers every turn of a vehicle that could be, ten times round and folded up as well", async () => {
    const able = fc.record({
      vehicle: fc.record({ width: fc.integer({ min: 500, max: 5000 }), wheelbase: fc.integer({ min: 1000, max: 15_000 }), frontOverhang: fc.integer({ min: 0, max: 5000 }), rearOverhang: fc.integer({ min: 0, max: 8000 }), units: fc.array(fc.record({ hitchBehindAxle: fc.integer({ min: -1500, max: 3000 }), hitchToAxle: fc.integer({ min: 2000, max: 20_000 }), width: fc.integer({ min: 500, max: 5000 }), rearOverhang: fc.integer({ min: 0, max: 8000 }) }), { maxLength: 3 }) }),
      wider: fc.double({ min: 1.001, max: 8, noNaN: true }), degrees: fc.double({ min: 0.01, max: 3600, noNaN: true }),
    });
    await fc.assert(fc.asyncProperty(able, async ({ vehicle, wider, degrees }) => {
      const body = { vehicle, arc: { radius: vehicle.wheelbase * wider, degrees } }, { status, answer } = await post(body);
      expect(status).toBe(200);
      expectSound(answer as TurningAnswer, body);
    }), runs(100, 1));
  });

  it("tells the same of ordinary trains as pulling them along by a string", async () => {
    const usual = fc.record({
      vehicle: fc.record({ width: fc.integer({ min: 1800, max: 2600 }), wheelbase: fc.integer({ min: 2500, max: 6500 }), frontOverhang: fc.integer({ min: 500, max: 2500 }), rearOverhang: fc.integer({ min: 500, max: 3500 }), units: fc.array(fc.record({ hitchBehindAxle: fc.integer({ min: -800, max: 2500 }), hitchToAxle: fc.integer({ min: 2500, max: 9000 }), width: fc.integer({ min: 1800, max: 2600 }), rearOverhang: fc.integer({ min: 500, max: 4000 }) }), { maxLength: 2 }) }),
      radius: fc.integer({ min: 9500, max: 25_000 }), degrees: fc.integer({ min: 10, max: 180 }), maxHitchAngle: fc.integer({ min: 15, max: 90 }),
    });
    await fc.assert(fc.asyncProperty(usual, async ({ vehicle, radius, degrees, maxHitchAngle }) => {
      const { answer } = await post({ vehicle, arc: { radius, degrees }, maxHitchAngle }), { insideRadius, outsideRadius, jackknifes } = answer as TurningAnswer;
      const pulled = pullThrough(vehicle, radius, degrees, 2);
      if (pulled.sharpest > 85) return; // folding up, the string slackens
      expect(Math.abs(insideRadius - (pulled.nearest - (vehicle.units.at(-1) ?? vehicle).width / 2))).toBeLessThan(5);
      expect(Math.abs(outsideRadius - pulled.outermost)).toBeLessThan(5);
      if (Math.abs(pulled.sharpest - maxHitchAngle) > 0.1) expect(jackknifes).toBe(pulled.sharpest > maxHitchAngle);
    }), runs(30, 2));
  });

  it.each([["", 400], ["{", 400], ["nonsense", 400], ["[]", 422], ["null", 422], ["7", 422], ['{"vehicle":null,"arc":null}', 422], ['{"vehicle":{},"arc":{}}', 422]])("refuses %j with %d", async (body, status) => {
    const refused = await post(body);
    expect(refused.status).toBe(status);
    expect(refused.answer).not.toEqual({});
  });
});
