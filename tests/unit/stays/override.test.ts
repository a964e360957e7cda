import { describe, expect, it } from "vitest";
import { fitOverrideSchema, outcomes } from "@/lib/stays";

const right = { verdict: "no", codes: ["body-over-edge"], why: "They turn around at the barn" };
const faultsOf = (value: unknown) => {
  const read = fitOverrideSchema.safeParse(value);
  return read.success ? [] : read.error.issues.map(({ path, message }) => `${path.join(".")}: ${message}`);
};

describe("a poor fit that somebody answers for", () => {
  it.each(["fits", "gear", "ask", "unsettled", "no"])("keeps the verdict %s, the reasons' codes and why", (verdict) => {
    expect(fitOverrideSchema.parse({ ...right, verdict })).toEqual({ ...right, verdict });
    expect(fitOverrideSchema.parse({ ...right, verdict, codes: [] }).codes).toEqual([]);
  });

  it("is nobody's without a reason: spaces are none", () => {
    for (const why of ["", "   ", "\n\t"]) expect(faultsOf({ ...right, why })).toEqual(["why: say why, so that whoever is there when they arrive knows"]);
    expect(fitOverrideSchema.parse({ ...right, why: "  measured again by hand \n" }).why).toBe("measured again by hand");
  });

  it("takes a reason of 500 letters, none longer", () => {
    expect(faultsOf({ ...right, why: "x".repeat(500) })).toEqual([]);
    expect(faultsOf({ ...right, why: "x".repeat(501) })).toEqual(["why: must not be longer than 500 letters"]);
    // Spaces around it do not count.
    expect(faultsOf({ ...right, why: ` ${"x".repeat(500)} ` })).toEqual([]);
  });

  it("tells every fault at once, each with its field", () => {
    expect(faultsOf({ verdict: "maybe", codes: ["a", 7], why: 5 }).map((fault) => fault.split(":")[0])).toEqual(["verdict", "codes.1", "why"]);
    expect(faultsOf({}).map((fault) => fault.split(":")[0])).toEqual(["verdict", "codes", "why"]);
    expect(faultsOf(null)).toHaveLength(1);
  });

  it("keeps nothing else that was sent along", () => expect(fitOverrideSchema.parse({ ...right, by: "somebody" })).toEqual(right));
});

it("how a stay went is one of four", () => expect(outcomes).toEqual(["as-planned", "moved", "too-tight", "damage"]));
