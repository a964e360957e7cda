import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { defaultPolicy, verdictOf, type Unknown } from "@/lib/fit";
import { questionsFrom, turnsAt } from "@/lib/insight";
import { closePool } from "@/lib/jobs/fit-pool";
import { findQuestions } from "@/lib/jobs/find-questions";
import { forgetAnswers, keptAnswers } from "@/lib/jobs/kept-answers";
import { siteSchema } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { typicalRig } from "@/lib/rig/typical";
import { demoSites } from "../wording/scene";

const typical = typicalRig("travel-trailer", 31 * 304.8);
const rig: Rig = { ...typical, wants: ["power", "water", "sewer"] };
const height: Unknown = { field: "rig.body.height", min: rig.body.height - 200, max: rig.body.height + 200, typical: rig.body.height };
const hose: Unknown = { field: "rig.gear.sewerHose", min: 1500, max: 6000, typical: rig.gear.sewerHose };

beforeEach(() => forgetAnswers());
afterAll(() => closePool());

describe("findQuestions", () => {
  it("finds on the threads what is found here", async () => {
    const sites = demoSites;
    const { questions, turns } = await findQuestions(sites, rig, [height, hose], defaultPolicy);
    const here = sites.map((site) => turnsAt(site, rig, [height, hose], (s, r) => verdictOf(s, r, defaultPolicy)));
    expect([...sites.map(({ id }) => turns.get(id))]).toEqual(here);
    expect(questions).toEqual(questionsFrom(here.flat(), [height, hose]));
    expect(questions[0]?.decides).toBeGreaterThan(0);
  });

  it("asks nothing where everything was measured", async () => {
    expect(await findQuestions(demoSites, rig, [], defaultPolicy)).toEqual({ questions: [], turns: new Map() });
  });

  it("asks anew only about a site that was measured anew", async () => {
    const sites = demoSites.slice(0, 6);
    await findQuestions(sites, rig, [height], defaultPolicy);
    expect(keptAnswers().turns.size).toBe(6);
    const changed = siteSchema.parse({ ...sites[0], obstacles: [] });
    await findQuestions([changed, ...sites.slice(1)], rig, [height], defaultPolicy);
    expect(keptAnswers().turns.size).toBe(7);
  });
});
