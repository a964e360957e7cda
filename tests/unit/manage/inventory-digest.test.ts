import { describe, expect, it } from "vitest";
import { digestOf } from "@/app/manage/inventory/digest";
import type { ImportPlan } from "@/lib/exchange";
import { parkWithStays } from "../exchange/stays-support";
import { planOf } from "../exchange/support";

const HEAD = "reference,arrive,depart,guest,rig kind,rig length (ft),note\n";
const plan = (rows: string): ImportPlan => planOf(parkWithStays(), { "stays.csv": HEAD + rows });
const two = ",2027-07-10,2027-07-12,Bo Fern,van,19,\n,2027-07-10,2027-07-12,Cy Moss,van,19,\nK7M2QX,2027-07-05,2027-07-08,Ada Quill,,,calls ahead\n";

describe("what was looked at, in short", () => {
  it("is the same for the same, also after a thread handed it over", () => {
    expect(plan(two).faults).toEqual([]);
    expect(digestOf(plan(two))).toBe(digestOf(structuredClone(plan(two))));
  });

  it.each([["Bo Fern", "Bo Ferm"], ["van,19,\n,", "van,21,\n,"], ["calls ahead", "calls"], ["2027-07-05", "2027-07-06"], [",2027-07-10,2027-07-12,Cy", ",2027-07-10,2027-07-13,Cy"]])("is another where %j becomes %j", (from, to) => {
    expect(digestOf(plan(two.replace(from, to)))).not.toBe(digestOf(plan(two)));
  });
});
