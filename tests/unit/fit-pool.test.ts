import { readFileSync } from "node:fs";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { defaultPolicy, rankSites } from "@/lib/fit";
import { forgetAnswers } from "@/lib/jobs/kept-answers";
import { closePool, rankInPool, RankingStopped } from "@/lib/jobs/fit-pool";
import { siteSchema } from "@/lib/park";
import { rigSchema } from "@/lib/rig";

function read(name: string): unknown {
  return JSON.parse(readFileSync(`seed/quillback-meadow/${name}`, "utf8"));
}

const sites = (read("sites.json") as { sites: unknown[] }).sites.map((site) => siteSchema.parse(site)).slice(0, 12);
const rig = rigSchema.parse((read("rigs.json") as { rigs: { rig: unknown }[] }).rigs[0]?.rig);

beforeEach(() => forgetAnswers());
afterAll(() => closePool());

describe("rankInPool", () => {
  it("gives the answer rankSites gives, in the same order", async () => {
    const ranked = await rankInPool(sites, rig, defaultPolicy);
    expect(ranked).toEqual(rankSites(sites, rig, defaultPolicy));
    expect(ranked.map(({ site }) => site).sort()).toEqual(sites.map(({ id }) => id).sort());
  });

  it("gives it with the ways in too, and from what it kept", async () => {
    const expected = rankSites(sites, rig, defaultPolicy, { access: true });
    expect(expected.filter(({ access }) => access !== null).length).toBeGreaterThan(3);
    for (const again of [1, 2]) expect(await rankInPool(sites, rig, defaultPolicy, { access: true }), `time ${again}`).toEqual(expected);
  });

  it("has nothing to say of no sites", async () => {
    expect(await rankInPool([], rig, defaultPolicy)).toEqual([]);
  });

  it("gives up when its time is over, and works again afterwards", async () => {
    const many = Array.from({ length: 400 }, (_, i) => sites[i % sites.length]!);
    await expect(rankInPool(many, rig, defaultPolicy, { timeLimit: 1 })).rejects.toMatchObject({ name: "RankingStopped", why: "time" });
    expect(await rankInPool(sites.slice(0, 1), rig, defaultPolicy)).toHaveLength(1);
  });

  it("gives up when the one who asked has gone", async () => {
    const asker = new AbortController();
    const answer = rankInPool(sites, rig, defaultPolicy, { signal: asker.signal });
    asker.abort();
    const error: unknown = await answer.catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(RankingStopped);
    expect(error).toMatchObject({ why: "asker" });
  });
});
