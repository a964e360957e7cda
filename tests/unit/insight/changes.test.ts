import { readFileSync } from "node:fs";
import { afterAll, describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, verdictOf, type Change, type Verdict } from "@/lib/fit";
import { applyChange } from "@/lib/fit/refusal/changes";
import { candidatesFor, gainsOf, type Candidate } from "@/lib/insight";
import { closePool } from "@/lib/jobs/fit-pool";
import { weighChanges } from "@/lib/jobs/weigh-changes";
import { siteSchema, type Site } from "@/lib/park";
import { rigSchema, type Rig } from "@/lib/rig";

function read(name: string): unknown {
  return JSON.parse(readFileSync(`seed/quillback-meadow/${name}`, "utf8"));
}

const sites = (read("sites.json") as { sites: unknown[] }).sites.map((site) => siteSchema.parse(site));
const rigs = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map(({ rig }) => rigSchema.parse(rig));

afterAll(() => closePool());

const refusedOn = (site: Site): Rig[] => rigs.filter((rig) => verdictOf(site, rig) === "no");

describe("candidatesFor", () => {
  const site = sites[0]!, rig = rigs[0]!;
  const refused = (...changes: Change[]) => ({ rig, remedies: changes.map((change) => ({ changes: [change], bring: [], verdict: "fits" as const })) });
  const codes = (candidates: Candidate[]) => candidates.map(({ change }) => change);

  it("makes equal changes one, by the larger amount", () => {
    expect(codes(candidatesFor(site, [refused({ code: "lengthen", amount: 400 }), refused({ code: "lengthen", amount: 900 }), refused({ code: "lengthen", amount: 500 })], defaultPolicy))).toEqual([{ code: "lengthen", amount: 900 }]);
  });

  it("keeps apart what is done to other things, and in other directions", () => {
    const move = (by: [number, number]): Change => ({ code: "move", what: "oak", amount: 500, by });
    expect(candidatesFor(site, [refused(move([500, 0]), move([0, 500]), { code: "remove", what: "oak" }, { code: "remove", what: "table" })], defaultPolicy)).toHaveLength(4);
  });

  it("leaves to the guest what is the guest's", () => {
    expect(candidatesFor(site, [refused({ code: "leave-in", what: "slide" }, { code: "do-without", what: "water" }, { code: "park-elsewhere" })], defaultPolicy)).toEqual([]);
  });

  it("takes both of a pair, each by itself", () => {
    const pair = { rig, remedies: [{ changes: [{ code: "level" }, { code: "lengthen", amount: 100 }] as Change[], bring: [], verdict: "gear" as const }] };
    expect(codes(candidatesFor(site, [pair], defaultPolicy))).toEqual([{ code: "level" }, { code: "lengthen", amount: 100 }]);
  });
});

describe("gainsOf", () => {
  const at = { site: sites[0]!, policy: defaultPolicy };
  const verdicts = (...all: Verdict[]) => all;

  it("puts what lets in most first, then what is less work, and leaves out what lets in nobody", () => {
    const candidates: Candidate[] = [{ change: { code: "level" }, ...at }, { change: { code: "trim", what: "oak", amount: 4000 }, ...at }, { change: { code: "lengthen", amount: 300 }, ...at }, { change: { code: "remove", what: "oak" }, ...at }];
    const gains = gainsOf(candidates, [verdicts("fits", "no", "gear"), verdicts("no", "no", "fits"), verdicts("no", "no", "no"), verdicts("fits", "unsettled", "gear")]);
    expect(gains).toEqual([{ change: { code: "remove", what: "oak" }, letsIn: [0, 2] }, { change: { code: "level" }, letsIn: [0, 2] }, { change: { code: "trim", what: "oak", amount: 4000 }, letsIn: [2] }]);
  });

  it("tells a thing moved once, in its best direction", () => {
    const move = (by: [number, number]): Candidate => ({ change: { code: "move", what: "oak", amount: 500, by }, ...at });
    expect(gainsOf([move([500, 0]), move([0, 500])], [verdicts("fits", "no"), verdicts("fits", "fits")])).toEqual([{ change: { code: "move", what: "oak", amount: 500, by: [0, 500] }, letsIn: [0, 1] }]);
  });
});

describe("weighChanges on the demo park", () => {
  it("counts as let in exactly those that the engine lets in after the change", async () => {
    let weighed = 0;
    for (const site of sites.filter((_, i) => i % 12 === 0)) {
      const refused = refusedOn(site);
      for (const { change, letsIn } of await weighChanges(site, refused, defaultPolicy)) {
        weighed++;
        expect(letsIn.length).toBeGreaterThan(0);
        // What a new hookup looks like depends on the rig it was meant for; any other change is one for all.
        if (change.code === "add-hookup") continue;
        refused.forEach((rig, r) => {
          const after = applyChange(change, { site, rig, policy: defaultPolicy });
          const { verdict } = fitSite(after.site, rig, after.policy);
          expect(verdict === "fits" || verdict === "gear", `${site.id} ${rig.id} ${JSON.stringify(change)}`).toBe(letsIn.includes(r));
        });
      }
    }
    expect(weighed).toBeGreaterThan(10);
  });

  it("has nothing to weigh where nothing is refused", async () => {
    expect(await weighChanges(sites[0]!, [], defaultPolicy)).toEqual([]);
  });
});
