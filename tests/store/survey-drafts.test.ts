import { describe, expect, it } from "vitest";
import { changeSites, getSiteAt, type Manager } from "@/lib/store/site-changes";
import { getDraft } from "@/lib/store/site-drafts";
import { getSurveyDraft, goOnWithSurvey, listSurveyDrafts } from "@/lib/store/survey-drafts";
import { takeStep, type Step } from "@/lib/survey";
import type { SiteInput } from "@/lib/park";
import { withStore } from "./client";
import { desk, manager as anyManager, openPark } from "./stays-park";

withStore();
const manager = anyManager as Manager;

const slope = (id: string, along: number): Step => ({ do: "read", reading: { id, of: "ground.along", how: "inclinometer", on: "2026-05-02", readings: { percent: { along } } } });
const taking = (step: Step) => (record: SiteInput) => {
  const done = takeStep(record, step);
  return { record: done.ok ? done.record : record, told: done.ok };
};
const count = (record: SiteInput) => record.survey?.measurements?.length ?? 0;

describe("the survey of a site, before it is saved", () => {
  it("begins with the record as it stands and goes on from there, one for each person, and the site stays as it was", async () => {
    await openPark();
    const before = (await getSiteAt(manager, "a01"))!;
    const { draft, told } = await goOnWithSurvey(manager, "a01", taking(slope("m1", 1)));
    const next = await goOnWithSurvey(manager, "a01", taking(slope("m2", 2)));
    expect([told, next.draft.id, draft.base]).toEqual([true, draft.id, before.version]);
    expect(next.draft.record.ground).toMatchObject({ along: 2 });
    expect(count(next.draft.record)).toBe(count(before.record) + 2);
    expect((await getSiteAt(manager, "a01"))!).toEqual(before);
    expect(await getSurveyDraft(manager, "a01")).toEqual(next.draft);
    expect(await listSurveyDrafts(manager)).toEqual(new Map([["a01", draft.id]]));
    expect(await getSurveyDraft({ ...manager, account: "somebody-else" }, "a01")).toBeNull();
    expect(await getDraft(manager, draft.id)).toMatchObject({ siteId: "a01", cause: "survey", base: before.version });
  });

  it("loses nothing and doubles nothing where two phones send at once, one of them twice", async () => {
    await openPark();
    const before = count((await getSiteAt(manager, "a01"))!.record);
    const ids = Array.from({ length: 12 }, (_, i) => `m${i}`);
    await Promise.all([...ids, ...ids.slice(0, 6)].map((id, i) => goOnWithSurvey(manager, "a01", taking(slope(id, i)))));
    const measured = (await getSurveyDraft(manager, "a01"))!.record.survey!.measurements!.map(({ id }) => id);
    expect(measured.length).toBe(before + 12);
    expect(new Set(measured).size).toBe(measured.length);
    expect((await listSurveyDrafts(manager)).size).toBe(1);
  });

  it("keeps the version it began from, so that what somebody else saved meanwhile is seen", async () => {
    await openPark();
    const { draft } = await goOnWithSurvey(manager, "a01", taking(slope("m1", 1)));
    await changeSites(manager, [{ siteId: "a01", base: 1, record: { ...(await getSiteAt(manager, "a01"))!.record, label: "A-1" } }], { cause: "edit", why: "Renamed." });
    const later = await goOnWithSurvey(manager, "a01", taking(slope("m2", 2)));
    expect([later.draft.base, (await getSiteAt(manager, "a01"))!.version]).toEqual([draft.base, 2]);
  });

  it("is nothing to the desk, and there is none of a site that is not there or out of use", async () => {
    await openPark();
    await expect(goOnWithSurvey(desk as Manager, "a01", taking(slope("m1", 1)))).rejects.toMatchObject({ kind: "missing" });
    await expect(goOnWithSurvey(manager, "zz9", taking(slope("m1", 1)))).rejects.toMatchObject({ kind: "missing" });
    await changeSites(manager, [{ siteId: "a01", base: 1, record: null }], { cause: "edit", why: "Flooded." });
    await expect(goOnWithSurvey(manager, "a01", taking(slope("m1", 1)))).rejects.toMatchObject({ kind: "missing" });
  });
});
