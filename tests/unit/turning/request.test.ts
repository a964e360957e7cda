import { describe, expect, it } from "vitest";
import { POST } from "@/app/api/turning/route";
import { answerTurning, MAX_UNITS, turningAnswerSchema, turningRequestSchema, type TurningRequestInput } from "@/lib/turning/request";

const unit = { hitchBehindAxle: 1500, hitchToAxle: 5400, width: 2440, rearOverhang: 2700 };
const request: TurningRequestInput = { vehicle: { width: 2030, wheelbase: 3700, frontOverhang: 1000, rearOverhang: 1250, units: [unit] }, arc: { radius: 9200, degrees: 90 } };

const faultsIn = (value: unknown) => {
  const parsed = turningRequestSchema.safeParse(value);
  return parsed.success ? [] : parsed.error.issues.map(({ path, message }) => [path.map(String).join("."), message] as const);
};
const answer = (value: TurningRequestInput) => answerTurning(turningRequestSchema.parse(value))!;

describe("a turn asked for", () => {
  it("answers four things", () => {
    const { insideRadius, outsideRadius, maxOfftracking, jackknifes } = answer(request);
    expect(Object.keys(answer(request))).toEqual(["insideRadius", "outsideRadius", "maxOfftracking", "jackknifes"]);
    expect(turningAnswerSchema.strict().parse(answer(request))).toEqual(answer(request)); // as it is described
    expect(insideRadius).toBeCloseTo(9200 - maxOfftracking - 2440 / 2, 1);
    expect(outsideRadius).toBeGreaterThan(9200 + 1015);
    expect(jackknifes).toBe(false);
  });

  it("takes the width of the last unit for the inside radius, and the vehicle's where it draws nothing", () => {
    const wider = answer({ ...request, vehicle: { ...request.vehicle, units: [{ ...unit, width: 2640 }] } });
    expect(answer(request).insideRadius - wider.insideRadius).toBeCloseTo(100, 6);
    const alone = { ...request, vehicle: { ...request.vehicle, units: [] } };
    expect(answer(alone).insideRadius).toBeCloseTo(9200 - answer(alone).maxOfftracking - 1015, 1);
    expect(answer({ ...alone, vehicle: { ...alone.vehicle, units: undefined } })).toEqual(answer(alone));
  });

  it("jackknifes beyond 90 degrees, or beyond what was sent", () => {
    expect(answer({ ...request, maxHitchAngle: 20 }).jackknifes).toBe(true);
    expect(answer({ ...request, maxHitchAngle: 89 }).jackknifes).toBe(false);
    const long = { ...request, vehicle: { ...request.vehicle, units: [{ ...unit, hitchBehindAxle: 0, hitchToAxle: 12_000 }] } };
    expect(answer({ ...long, arc: { radius: 9200, degrees: 360 } }).jackknifes).toBe(true);
    expect(answer({ ...long, arc: { radius: 9200, degrees: 360 }, maxHitchAngle: 180 }).jackknifes).toBe(false);
    expect(answer({ ...request, maxHitchAngle: null })).toEqual(answer(request));
  });

  it("tells every fault at once, each with its path and what it should be", () => {
    const bad = { vehicle: { width: 0, wheelbase: "long", frontOverhang: -1, units: [{ ...unit, hitchToAxle: 3, width: null }] }, arc: { radius: -5, degrees: 0 }, maxHitchAngle: 200 };
    const paths = faultsIn(bad).map(([path]) => path);
    expect(paths).toEqual(expect.arrayContaining(["vehicle.width", "vehicle.wheelbase", "vehicle.frontOverhang", "vehicle.rearOverhang", "vehicle.units.0.hitchToAxle", "vehicle.units.0.width", "arc.radius", "arc.degrees", "maxHitchAngle"]));
    for (const [, message] of faultsIn(bad)) expect(message).toMatch(/^(must|is more)/);
  });

  it("refuses a radius no more than the wheelbase, together with other faults", () => {
    expect(faultsIn({ ...request, arc: { radius: 3700, degrees: 90 } })).toEqual([["arc.radius", "must be more than the wheelbase of 3700 mm, got 3700: the front wheels cannot follow a circle that tight"]]);
    expect(faultsIn({ ...request, arc: { radius: 2000, degrees: -1 } }).map(([path]) => path)).toEqual(["arc.degrees", "arc.radius"]);
    const { insideRadius } = answer({ ...request, vehicle: { ...request.vehicle, units: [] }, arc: { radius: 3700.5, degrees: 3600 } });
    expect(Number.isFinite(insideRadius)).toBe(true);
  });

  it("bounds what it takes on", () => {
    expect(faultsIn({ ...request, vehicle: { ...request.vehicle, units: Array.from({ length: MAX_UNITS + 1 }, () => unit) } }).map(([path]) => path)).toEqual(["vehicle.units"]);
    expect(faultsIn({ ...request, arc: { radius: 9200, degrees: 4000 } }).map(([path]) => path)).toEqual(["arc.degrees"]);
    expect(faultsIn({ ...request, arc: { radius: 1e9, degrees: 90 } }).map(([path]) => path)).toEqual(["arc.radius"]);
    for (const value of [null, 7, [], "x", {}]) expect(faultsIn(value).length).toBeGreaterThan(0);
  });

  it("answers eight long trailers going round for ever, and gives up on what no road has seen", () => {
    const many = { ...request, vehicle: { ...request.vehicle, units: Array.from({ length: MAX_UNITS }, () => unit) } };
    expect(answer({ ...many, arc: { radius: 60_000, degrees: 3600 } }).insideRadius).toBeGreaterThan(0);
    const absurd = { ...many, vehicle: { ...many.vehicle, wheelbase: 90_000, units: many.vehicle.units.map(() => ({ ...unit, hitchToAxle: 100 })) }, arc: { radius: 400_000, degrees: 3600 } };
    expect(answerTurning(turningRequestSchema.parse(absurd))).toBeNull();
  });
});

describe("POST /api/turning", () => {
  const post = async (body: BodyInit) => {
    const response = await POST(new Request("http://localhost/api/turning", { method: "POST", body }));
    return [response.status, await response.json()] as const;
  };

  it("answers 200, 400, 413 and 422", async () => {
    expect(await post(JSON.stringify(request))).toEqual([200, answer(request)]);
    expect((await post("{"))[0]).toBe(400);
    expect((await post(" ".repeat(100_001)))[0]).toBe(413);
    const [status, refusal] = await post(JSON.stringify({ ...request, arc: { radius: 2000, degrees: 0 } }));
    expect(status).toBe(422);
    expect((refusal as { faults: { path: string }[] }).faults.map((f) => f.path)).toEqual(["arc.degrees", "arc.radius"]);
  });
});
