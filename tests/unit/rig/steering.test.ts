import { describe, expect, it } from "vitest";
import { rigSchema, steeringOf, typicalKinds, typicalRig, usualLengthOf, type RigInput } from "@/lib/rig";
import { makeCombination, smallestFrontRadius } from "@/lib/turning";

const trailer = typicalRig("travel-trailer", 8534);
const withDrive = (drive: RigInput["drive"]) => rigSchema.parse({ ...trailer, drive });

describe("what steers a rig", () => {
  it.each(typicalKinds)("is a vehicle that can turn, for a usual %s", (kind) => {
    const { wheelbase, frontOverhang, rearOverhang, width, track, turningCircle, drawn } = steeringOf(typicalRig(kind, usualLengthOf(kind)));
    const { vehicle } = makeCombination({ vehicle: { wheelbase, frontOverhang, rearOverhang, width, track, turningCircle }, units: [] });
    // Between a small car and a coach: no front axle that people camp with rolls a circle of less than 4 m or more than 11 m.
    expect(smallestFrontRadius(vehicle)!).toBeGreaterThan(4000);
    expect(smallestFrontRadius(vehicle)!).toBeLessThan(11_000);
    expect(drawn === null).toBe(!["folding-trailer", "travel-trailer", "fifth-wheel", "toy-hauler"].includes(kind));
    if (drawn) expect(drawn.hitchToAxle + drawn.frontOverhang + drawn.rearOverhang).toBeCloseTo(typicalRig(kind, usualLengthOf(kind)).body.length, 6);
  });

  it("takes what is told, and names what is not", () => {
    expect(steeringOf(trailer).assumed.map(({ field }) => field)).toEqual(["wheelbase", "turningCircle", "hitchBehindAxle", "maxHitchAngle"]);
    const told = steeringOf(withDrive({ wheelbase: 3680, turningCircle: 14_200, hitchBehindAxle: 1420, hitchToAxle: 5600, maxHitchAngle: 70, driver: "right" }));
    expect(told).toMatchObject({ wheelbase: 3680, turningCircle: 14_200, driver: "right", assumed: [], drawn: { hitchBehindAxle: 1420, hitchToAxle: 5600, maxHitchAngle: 70 } });
    expect(steeringOf(withDrive({ wheelbase: 3680 })).wheelbase + steeringOf(withDrive({ wheelbase: 3680 })).frontOverhang + steeringOf(withDrive({ wheelbase: 3680 })).rearOverhang).toBeCloseTo(trailer.tow!.length, 6);
  });

  it("has a towed car behind only where it stays hitched", () => {
    const coach = typicalRig("class-a", 10_700), tow = { length: 4800, width: 1900, height: 1750 } as const;
    expect(steeringOf(rigSchema.parse({ ...coach, tow: { ...tow, stays: "on-site" } })).drawn).toBeNull();
    expect(steeringOf(rigSchema.parse({ ...coach, tow: { ...tow, stays: "hitched" } })).drawn).toMatchObject({ hitchToAxle: 4800 * 0.775 });
  });

  it("is asked for with every fault at once", () => {
    const { error } = rigSchema.safeParse({ ...trailer, drive: { wheelbase: 12, turningCircle: 7, maxHitchAngle: 170, driver: "middle" } });
    expect(error?.issues.map(({ path }) => path.join("."))).toEqual(expect.arrayContaining(["drive.wheelbase", "drive.turningCircle", "drive.maxHitchAngle", "drive.driver"]));
    const radius = rigSchema.safeParse({ ...trailer, drive: { wheelbase: 3700, turningCircle: 7100 } });
    expect(radius.error?.issues).toMatchObject([{ path: ["drive", "turningCircle"], message: "must be at least 7400 mm with that wheelbase and track, got 7100: is it a radius?" }]);
  });
});
