import { describe, expect, it } from "vitest";
import { hindrancesOf } from "@/lib/insight";
import type { Conflict, Reason } from "@/lib/fit";

const reason = (code: string, ...parts: string[]): Reason => ({ code, parts, short: null });
const clash = (heading: Conflict["heading"], ...constraints: string[]): Conflict => ({ heading, constraints, shown: null });

describe("hindrancesOf", () => {
  it("names the tree, not the pad that holds the rig under it", () => {
    expect(hindrancesOf({ reasons: [reason("clear:body:oak", "body", "oak")], conflicts: [clash("tail-in", "clear:body:oak", "stand")] })).toEqual(["thing:oak"]);
  });

  it("names what stands in the way at every heading", () => {
    const conflicts = [clash("tail-in", "clear:body:oak", "stand"), clash("nose-in", "lot:awning", "stand")];
    expect(hindrancesOf({ reasons: [reason("clear:body:oak", "body", "oak")], conflicts })).toEqual(["thing:oak", "lot"]);
  });

  it("counts a thing once, whichever parts meet it", () => {
    const conflicts = [clash(null, "clear:slide:oak", "clear:body:oak", "stand")];
    expect(hindrancesOf({ reasons: [reason("clear:slide:oak"), reason("clear:body:oak")], conflicts })).toEqual(["thing:oak"]);
  });

  it("keeps an obstacle's own colon", () => {
    expect(hindrancesOf({ reasons: [], conflicts: [clash(null, "clear:body:row:3", "stand")] })).toEqual(["thing:row:3"]);
  });

  it("tells a service that is missing from one that lies too far away", () => {
    expect(hindrancesOf({ reasons: [reason("missing:water", "water")], conflicts: [clash(null, "reach:water")] })).toEqual(["missing:water"]);
    expect(hindrancesOf({ reasons: [reason("rinse-only:water", "rinse")], conflicts: [clash(null, "reach:water")] })).toEqual(["missing:water"]);
    expect(hindrancesOf({ reasons: [reason("reach:water", "water", "tap")], conflicts: [clash(null, "reach:water")] })).toEqual(["run:water"]);
    expect(hindrancesOf({ reasons: [reason("no-inlet:sewer", "sewer")], conflicts: [clash(null, "reach:sewer")] })).toEqual(["inlet:sewer"]);
  });

  it("tells the two ways a site can be accessible or not", () => {
    expect(hindrancesOf({ reasons: [reason("rule:accessible", "site")], conflicts: [clash(null, "rule:accessible")] })).toEqual(["rule:accessible:kept"]);
    expect(hindrancesOf({ reasons: [reason("rule:accessible", "guest")], conflicts: [clash(null, "rule:accessible")] })).toEqual(["rule:accessible:lacking"]);
  });

  it("takes plug and loads for the power's doing, lifts for the slope's", () => {
    expect(hindrancesOf({ reasons: [reason("plug", "30", "ped"), reason("level:side", "rig", "ground")], conflicts: [clash(null, "power"), clash(null, "level:side")] })).toEqual(["power", "slope"]);
  });
});
