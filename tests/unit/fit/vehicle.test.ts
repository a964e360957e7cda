import { describe, expect, it } from "vitest";
import { fitSite } from "@/lib/fit";
import { policyWith, rigWith, siteWith } from "../../reference/scenes";

const truck = { length: 5900, width: 2030, height: 1950, stays: "on-site" as const };
/** A pad that runs on toward the road by so much ahead of the rig (hitch and all); the lot ends where the pad does. */
const padAhead = (ahead: number) => {
  const end = ahead + 10_400;
  const box = (half: number): [number, number][] => [[0, -half], [end, -half], [end, half], [0, half]];
  return siteWith({ pad: { outline: box(1300) }, lot: { outline: box(3000) }, roadEdge: [[0, -1], [0, 1]] });
};

describe("a tow vehicle that stays on the site", () => {
  it("takes the first stall it fits along the stall's longer side, however the stall is turned", () => {
    const c = Math.SQRT1_2;
    const turned = ([[0, 0], [6000, 0], [6000, 2100], [0, 2100]] as const).map(([x, y]): [number, number] => [x * c - y * c, 8000 + x * c + y * c]);
    const parking = [{ id: "short", outline: [[0, 3000], [5800, 3000], [5800, 6000], [0, 6000]] as [number, number][] }, { id: "turned", outline: turned }];
    expect(fitSite(siteWith({ parking }), rigWith({ tow: truck }), policyWith()).vehicle).toBe("turned");
  });

  it("does not take a stall that is long enough only across", () => {
    const parking = [{ id: "wide", outline: [[0, 3000], [2000, 3000], [2000, 9000], [0, 9000]] as [number, number][] }];
    // 6,000 by 2,000: long enough along its longer side, but the truck is 2,030 wide.
    expect(fitSite(siteWith({ parking }), rigWith({ tow: truck }), policyWith()).vehicle).toBe("overflow");
  });

  it("stands in line at the road end, 300 clear of the rig, where the pad reaches that far", () => {
    const result = fitSite(padAhead(5900 + 300 + 600), rigWith({ tow: truck }), policyWith({ overflow: false }));
    expect([result.verdict, result.vehicle]).toEqual(["fits", "in line"]);
  });

  it("goes to overflow parking and the verdict stands, or the need fails where there is none", () => {
    const site = padAhead(3000);
    const withOverflow = fitSite(site, rigWith({ tow: truck }), policyWith());
    expect([withOverflow.verdict, withOverflow.vehicle]).toEqual(["fits", "overflow"]);
    expect(withOverflow.reasons.map((r) => r.code)).toContain("overflow");
    const without = fitSite(site, rigWith({ tow: truck }), policyWith({ overflow: false }));
    expect([without.verdict, without.vehicle, without.reasons[0]!.code]).toEqual(["no", "no", "vehicle"]);
  });

  it("is nobody's business elsewhere", () => {
    expect(fitSite(siteWith({}), rigWith({ tow: { ...truck, stays: "elsewhere" } }), policyWith({ overflow: false })).vehicle).toBeNull();
  });
});
