import { describe, expect, it } from "vitest";
import { resultSchemas } from "@/app/api/result-schema";
import { findAccess } from "@/lib/access";
import { defaultPolicy, fitSite, rankSites } from "@/lib/fit";
import type { Site, SiteInput } from "@/lib/park";
import { answerOf } from "@/lib/wording/answer";
import { backInSite, coach as wanting, trailer as wantingTrailer } from "../../scenes/way-scenes";

/** Rigs that need nothing of a site but ground. */
const coach = { ...wanting, wants: [] }, trailer = { ...wantingTrailer, wants: [] }, wide = backInSite({ width: 8000 });
const ask = (site: Site, rig = coach, more = {}) => fitSite(site, rig, defaultPolicy, { access: true, ...more });
const limited = (height: number | null): Site => backInSite({ width: 8000, approach: { heightLimits: [{ id: "gate", kind: "gate", across: [[1500, -9000], [1500, 9000]], height }] } });

describe("the way in, within the answer of a fit", () => {
  it("is told where it is asked for and measured, and the verdict and pose stand", () => {
    const result = ask(wide), { way, state } = findAccess(wide, coach, [result.pose!], defaultPolicy)!, bare = fitSite(wide, coach, defaultPolicy);
    expect(result.access).toEqual({ state, from: way!.from, sight: way!.sight, room: way!.room });
    expect([bare.access, result.verdict, result.pose]).toEqual([null, bare.verdict, bare.pose]);
    expect(ask({ ...wide, approach: undefined })).toEqual(fitSite({ ...wide, approach: undefined }, coach, defaultPolicy));
  });

  it("is not there where the rig fits nowhere on the site", () => {
    expect(ask(backInSite({ width: 8000, length: 4000 }), trailer)).toMatchObject({ verdict: "no", access: null });
  });

  it("leaves the verdict where none was found, and says that staff is to look", () => {
    const result = ask(backInSite({ width: 3600, mouth: 2000 }), trailer);
    expect(result).toMatchObject({ verdict: "fits", access: { state: "not-found", from: null, sight: null, room: null } });
    expect(result.reasons.map(({ code }) => code)).toContain("access:not-found");
  });

  it("is a no where nothing so tall can get to the pad, with what bars it and what would open it", () => {
    const result = ask(limited(2500));
    expect(result).toMatchObject({ verdict: "no", pose: null, room: null, access: { state: "no" }, conflicts: [{ heading: null, constraints: ["access"] }], reasons: [{ code: "access:barred-overhead", parts: ["gate"] }] });
    const fence = (id: string, y: number): NonNullable<SiteInput["obstacles"]>[number] => ({ id, kind: "fence", outline: [[1400, y], [1600, y], [1600, y + 8000], [1400, y + 8000]], from: 0, to: 1500, removable: id === "left" });
    const fenced = ask(backInSite({ width: 8000, more: { obstacles: [fence("left", 1000), fence("right", -9500)] } }), coach, { remedies: true });
    expect(fenced).toMatchObject({ verdict: "no", access: { state: "no" }, reasons: [{ code: "access:barred-between" }] });
    expect(fenced.remedies.map(({ changes }) => changes)).toEqual([[{ code: "remove", what: "left" }]]);
  });

  it("says to look up where a height was not measured, and claims nothing of it", () => {
    expect(ask(limited(null))).toMatchObject({ verdict: "fits", access: { state: "found" } });
    expect(ask(limited(null)).reasons).toContainEqual({ code: "access:unmeasured", parts: ["gate"], short: null });
  });

  it("stands the rig elsewhere where no way leads to the roomiest place", () => {
    // A limb over the far half of the pad: the tall body has most room in the middle of a long pad, and gets no further than the near half.
    const site = backInSite({ width: 8000, length: 24_000, approach: { heightLimits: [{ id: "limb", kind: "limb", across: [[15_000, -6000], [15_000, 6000]], height: 3000 }] } });
    const roomiest = fitSite(site, coach, defaultPolicy), result = ask(site);
    expect(findAccess(site, coach, [roomiest.pose!], defaultPolicy)!.state).not.toBe("found");
    expect(result).toMatchObject({ verdict: "fits", access: { state: "found" } });
    expect(result.pose).not.toEqual(roomiest.pose);
    expect(findAccess(site, coach, [result.pose!], defaultPolicy)!.state).toBe("found");
    expect(result.reasons.map(({ code }) => code)).toContain("access:moved");
  });

  it("comes after all that fits in the order where none was found, and a tight way behind a wide one", () => {
    const narrow = { ...backInSite({ width: 3600, mouth: 2000 }), id: "a-narrow" }, lane = { ...backInSite({ width: 6500, mouth: 3000 }), id: "b-lane" };
    const results = rankSites([narrow, lane, { ...wide, id: "c-wide" }], trailer, defaultPolicy, { access: true });
    expect(results.map(({ site, access }) => [site, access?.state])).toEqual([["c-wide", "found"], ["b-lane", "found"], ["a-narrow", "not-found"]]);
    expect(resultSchemas.Answer.safeParse(answerOf(results, [narrow, lane, { ...wide, id: "c-wide" }], trailer, "ft-in")).success).toBe(true);
  });
});
