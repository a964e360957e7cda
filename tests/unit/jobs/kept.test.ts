import { readFileSync } from "node:fs";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, policySchema, rankSites } from "@/lib/fit";
import { cellOf } from "@/lib/insight";
import { canonicalJson, contentKey } from "@/lib/jobs/content-key";
import { fitMatrix, type MatrixProgress } from "@/lib/jobs/fit-matrix";
import { closePool, rankInPool } from "@/lib/jobs/fit-pool";
import { forgetAnswers, keptAnswers } from "@/lib/jobs/kept-answers";
import { siteSchema, type Site } from "@/lib/park";
import { rigSchema } from "@/lib/rig";

function read(name: string): unknown {
  return JSON.parse(readFileSync(`seed/quillback-meadow/${name}`, "utf8"));
}

/** Parsed anew, as every request does: the same content in other objects. */
function sitesAnew(count: number): Site[] {
  return (read("sites.json") as { sites: unknown[] }).sites.slice(0, count).map((site) => siteSchema.parse(site));
}

const rigs = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map(({ rig }) => rigSchema.parse(rig));
const rig = rigs[0]!;

beforeEach(() => forgetAnswers());
afterAll(() => closePool());

/** How many sites a ranking had to solve. */
async function solvedIn(sites: Site[], options: Parameters<typeof rankInPool>[3] = {}, policy = defaultPolicy): Promise<number> {
  let solved = -1;
  await rankInPool(sites, rig, policy, { ...options, onSolving: (n) => { solved = n; } });
  return solved;
}

describe("contentKey", () => {
  it("is the same for the same content, whatever the order of its fields", () => {
    expect(contentKey({ a: 1, b: [{ c: 2, d: null }] })).toBe(contentKey({ b: [{ d: null, c: 2 }], a: 1 }));
    expect(contentKey({ a: 1, b: undefined })).toBe(contentKey({ a: 1 }));
  });

  it("differs where the content does", () => {
    const keys = [{ a: 1 }, { a: 2 }, { a: "1" }, { a: [1] }, { a: [[1]] }, { a: null }, {}, { b: 1 }, [], [1, 2], [2, 1]].map(contentKey);
    expect(new Set(keys).size).toBe(keys.length);
  });

  it("keeps the order of a list, and reads as JSON", () => {
    const site = sitesAnew(1)[0]!;
    expect(JSON.parse(canonicalJson(site))).toEqual(JSON.parse(JSON.stringify(site)));
  });
});

describe("rankInPool with answers from before", () => {
  it("solves nothing twice, and gives the same answer in the same order", async () => {
    const sites = sitesAnew(16);
    expect(await solvedIn(sites)).toBe(16);
    expect(await solvedIn(sitesAnew(16))).toBe(0);
    expect(await rankInPool(sitesAnew(16), rig, defaultPolicy)).toEqual(rankSites(sites, rig, defaultPolicy));
  });

  it("solves only the site that was measured anew, and answers for it as it is now", async () => {
    await solvedIn(sitesAnew(16));
    const sites = sitesAnew(16).map((site, i) => (i === 3 ? { ...site, rules: { ...site.rules!, maxLength: 3000 } } : site));
    expect(await solvedIn(sites)).toBe(1);
    expect(await rankInPool(sites, rig, defaultPolicy)).toEqual(rankSites(sites, rig, defaultPolicy));
  });

  it("solves a site that is listed twice once", async () => {
    expect(await solvedIn([...sitesAnew(5), ...sitesAnew(5)])).toBe(5);
  });

  it("takes another policy, budget, or question for another", async () => {
    await solvedIn(sitesAnew(6));
    expect(await solvedIn(sitesAnew(6), {}, policySchema.parse({ clearance: 300 }))).toBe(6);
    expect(await solvedIn(sitesAnew(6), { budget: 1000 })).toBe(6);
    expect(await solvedIn(sitesAnew(6), { remedies: true })).toBe(6);
    expect(await solvedIn(sitesAnew(6))).toBe(0);
  });

  it("takes only the unknowns of the site itself into account", async () => {
    const sites = sitesAnew(6);
    const unknown = { field: "rig.body.height", min: 3000, max: 3100, typical: 3050 };
    const unknowns = { rig: [], sites: { [sites[2]!.id]: [unknown] } };
    await solvedIn(sites);
    expect(await solvedIn(sitesAnew(6), { unknowns: { rig: [], sites: {} } })).toBe(0);
    expect(await solvedIn(sitesAnew(6), { unknowns })).toBe(1);
  });

  it("gives up for an asker who has gone even where everything is known", async () => {
    await solvedIn(sitesAnew(4));
    const asker = new AbortController();
    asker.abort();
    await expect(rankInPool(sitesAnew(4), rig, defaultPolicy, { signal: asker.signal })).rejects.toMatchObject({ why: "asker" });
  });

  it("keeps no more than it may", async () => {
    const { results } = keptAnswers();
    expect(results.max).toBeGreaterThan(0);
    for (let i = 0; i < results.max + 10; i++) results.set(String(i), {} as never);
    expect(results.size).toBe(results.max);
  });
});

describe("fitMatrix", () => {
  it("says of every pair what the engine says", async () => {
    const sites = sitesAnew(8), some = rigs.slice(0, 5);
    const { cells } = await fitMatrix(sites, some, defaultPolicy);
    expect(cells).toEqual(sites.map((site) => some.map((it) => cellOf(fitSite(site, it, defaultPolicy)))));
  });

  /** Pairs that had to be solved: what was left to do at the start. */
  async function opened(sites: Site[], some = rigs.slice(0, 5)): Promise<number> {
    const told: MatrixProgress[] = [];
    await fitMatrix(sites, some, defaultPolicy, { onProgress: (p) => told.push(p) });
    expect(told.at(-1)).toEqual({ done: sites.length * some.length, total: sites.length * some.length });
    expect(told.map(({ done }) => done)).toEqual([...told.map(({ done }) => done)].sort((a, b) => a - b));
    return told[0]!.total - told[0]!.done;
  }

  it("solves one row for a site measured anew and one column for a rig come anew", async () => {
    expect(await opened(sitesAnew(8))).toBe(40);
    expect(await opened(sitesAnew(8))).toBe(0);
    const changed = sitesAnew(8).map((site, i) => (i === 2 ? { ...site, label: "Moved post" } : site));
    expect(await opened(changed)).toBe(5);
    expect(await opened(changed, rigs.slice(0, 6))).toBe(8);
  });

  it("has nothing to say of no sites or no rigs", async () => {
    expect((await fitMatrix([], rigs, defaultPolicy)).cells).toEqual([]);
    expect((await fitMatrix(sitesAnew(2), [], defaultPolicy)).cells).toEqual([[], []]);
  });

  it("gives up when its time is over, and goes on from there when asked again", async () => {
    await expect(fitMatrix(sitesAnew(40), rigs, defaultPolicy, { timeLimit: 1 })).rejects.toMatchObject({ name: "RankingStopped", why: "time" });
    expect((await fitMatrix(sitesAnew(2), rigs.slice(0, 2), defaultPolicy)).cells).toHaveLength(2);
  });

  it("hands out no more work when the one who asked has gone, and keeps what was done", async () => {
    const asker = new AbortController();
    const answer = fitMatrix(sitesAnew(40), rigs, defaultPolicy, { signal: asker.signal, onProgress: ({ done }) => { if (done > 0) asker.abort(); } });
    await expect(answer).rejects.toMatchObject({ name: "RankingStopped", why: "asker" });
    await new Promise((resolve) => setTimeout(resolve, 500));
    const { size } = keptAnswers().cells;
    expect(size).toBeGreaterThan(0);
    expect(size).toBeLessThan(40 * rigs.length);
  });
});
