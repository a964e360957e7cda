import { readFileSync } from "node:fs";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, policySchema } from "@/lib/fit";
import { cellOf, turnOf } from "@/lib/insight";
import { closePool, RankingStopped } from "@/lib/jobs/fit-pool";
import type { MatrixProgress } from "@/lib/jobs/fit-matrix";
import { forgetAnswers } from "@/lib/jobs/kept-answers";
import { weighPolicy, type EffectsAsked } from "@/lib/jobs/settings-effects";
import { siteSchema, type Site } from "@/lib/park";
import { rigSchema, typicalRig } from "@/lib/rig";

const read = (name: string): unknown => JSON.parse(readFileSync(`seed/quillback-meadow/${name}`, "utf8"));
const all = (read("sites.json") as { sites: unknown[] }).sites.map((site) => siteSchema.parse(site));
const sites = all.filter(({ loop }) => loop === "A").slice(0, 8);
const typical = [typicalRig("travel-trailer", 28 * 304.8), typicalRig("class-c", 25 * 304.8), typicalRig("van", 19 * 304.8)];
const rigs = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map(({ rig }) => rigSchema.parse(rig));
const wider = policySchema.parse({ clearance: 500 });
const anywhere = { loop: undefined, services: [] };

beforeEach(() => forgetAnswers());
afterAll(() => closePool());

function stay(id: string, site: string | null, rig = rigs[0]!): EffectsAsked["stays"][number] {
  return { id, site, wanted: anywhere, rig };
}

/** Two parks' policies on one pair, by the engine itself. */
function turnHere(site: Site, rig: (typeof rigs)[number]) {
  return turnOf(cellOf(fitSite(site, rig, defaultPolicy)), cellOf(fitSite(site, rig, wider)));
}

describe("weighPolicy", () => {
  it("says of every pair and stay what the engine says under both settings", async () => {
    const stays = sites.flatMap((site, i) => rigs.slice(0, 3).map((rig, r) => stay(`${i}-${r}`, site.id, rig)));
    const found = await weighPolicy({ sites, typical, stays }, defaultPolicy, wider);
    const expected = sites.flatMap((site, s) => typical.flatMap((rig, r) => { const turn = turnHere(site, rig); return turn ? [{ site: s, rig: r, turn }] : []; }));
    expect(found.cells.changed).toEqual(expected);
    expect(expected.length).toBeGreaterThan(0);
    expect(found.cells.asked).toBe(sites.length * typical.length);
    const expectedStays = sites.flatMap((site, i) => rigs.slice(0, 3).flatMap((rig, r) => { const turn = turnHere(site, rig); return turn ? [{ id: `${i}-${r}`, turn }] : []; }));
    expect(found.stays).toEqual(expectedStays);
    expect(expectedStays.length).toBeGreaterThan(0);
  });

  it("changes nothing where nothing is changed", async () => {
    const found = await weighPolicy({ sites, typical, stays: [stay("one", sites[0]!.id)] }, defaultPolicy, policySchema.parse({}));
    expect(found.cells.changed).toEqual([]);
    expect([found.stays, found.notWorkedOut, found.staysAsked]).toEqual([[], [], 1]);
  });

  it("looks on every site that a stay may have for one without a site", async () => {
    const rig = rigs.find((one) => sites.some((site) => ["fits", "gear"].includes(fitSite(site, one, defaultPolicy).verdict)))!;
    const nowhere = policySchema.parse({ clearance: 20_000, footing: 5_000 });
    const found = await weighPolicy({ sites, typical: [], stays: [stay("any", null, rig), { ...stay("elsewhere", null, rig), wanted: { loop: "Z", services: [] } }] }, defaultPolicy, nowhere);
    expect(found.stays).toEqual([{ id: "any", turn: "shut" }]);
  });

  it("names the stays that it can say nothing of, and works out all others", async () => {
    // A record that slipped past its schema: the engine throws on it, on this site alone.
    const broken = { ...sites[1]!, id: "broken", pad: null } as unknown as Site;
    expect(() => fitSite(broken, rigs[0]!, defaultPolicy)).toThrow();
    const stays = [stay("good", sites[0]!.id), { ...stay("no-rig", sites[0]!.id), rig: null }, stay("no-site", "gone"), stay("bad-site", "broken")];
    const found = await weighPolicy({ sites: [...sites, broken], typical, stays }, defaultPolicy, wider);
    expect(found.notWorkedOut).toEqual([{ id: "no-rig", why: "rig" }, { id: "no-site", why: "site" }, { id: "bad-site", why: "failed" }]);
    expect(found.cells.notWorkedOut).toBe(typical.length);
    expect(found.cells.changed).toEqual((await weighPolicy({ sites, typical, stays: [] }, defaultPolicy, wider)).cells.changed);
  });

  it("tells how far it is over both settings, and is done at once when it was asked before", async () => {
    const told: MatrixProgress[] = [];
    await weighPolicy({ sites, typical, stays: [] }, defaultPolicy, wider, { onProgress: (progress) => told.push(progress) });
    const total = 2 * sites.length * typical.length;
    expect(told[0]).toEqual({ done: 0, total });
    expect(told.at(-1)).toEqual({ done: total, total });
    expect(told.map(({ done }) => done)).toEqual(told.map(({ done }) => done).toSorted((a, b) => a - b));
    const again: MatrixProgress[] = [];
    await weighPolicy({ sites, typical, stays: [] }, policySchema.parse({}), policySchema.parse({ clearance: 500 }), { timeLimit: 1, onProgress: (progress) => again.push(progress) });
    expect(again).toEqual([]);
  });

  it("works out no more than the stay that came meanwhile", async () => {
    const first = await weighPolicy({ sites, typical, stays: [stay("one", sites[0]!.id)] }, defaultPolicy, wider);
    const told: MatrixProgress[] = [];
    const more = await weighPolicy({ sites, typical, stays: [stay("one", sites[0]!.id), stay("two", sites[1]!.id, rigs[1]!)] }, defaultPolicy, wider, { onProgress: (progress) => told.push(progress) });
    expect(told[0]).toEqual({ done: 1, total: 4 });
    expect(more.cells).toEqual(first.cells);
    expect(more.staysAsked).toBe(2);
  });

  it("is given up when its asker goes", async () => {
    const gone = new AbortController();
    gone.abort();
    await expect(weighPolicy({ sites, typical, stays: [] }, defaultPolicy, wider, { signal: gone.signal })).rejects.toThrow(RankingStopped);
  });
});
