import { describe, expect, it } from "vitest";
import { rigSchema } from "@/lib/rig";
import { typicalRig } from "@/lib/rig/typical";

describe("a rig's record", () => {
  it("has all its faults told at once, a part of a person among them", () => {
    const rig = structuredClone(typicalRig("class-c", 8000));
    rig.party.adults = 1.5;
    rig.body.floor = rig.body.height;
    expect(rigSchema.safeParse(rig).error?.issues.map(({ path, message }) => [path.join("."), message])).toEqual([
      ["party.adults", "must be a whole number"],
      ["body.floor", "must be below the height"],
    ]);
  });
});
