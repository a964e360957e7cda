import { describe, expect, it } from "vitest";
import { changeSites, getSiteAt, type Manager } from "@/lib/store/site-changes";
import { DraftMovedOn, dropDraft, getDraft, redoDraft, saveDraft } from "@/lib/store/site-drafts";
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

  describe("a reading that arrives after the draft was read", () => {
    const measuredIn = (record: SiteInput | null | undefined) => (record?.survey?.measurements ?? []).map(({ id }) => id).filter((id) => /^m\d$/.test(id));
    const begin = async () => {
      await openPark();
      const { draft } = await goOnWithSurvey(manager, "a01", taking(slope("m1", 1)));
      return (await getDraft(manager, draft.id))!;
    };

    it("keeps it from being saved, redone or dropped, and nothing of it is lost or saved unseen", async () => {
      const read = await begin();
      await goOnWithSurvey(manager, "a01", taking(slope("m2", 2)));
      for (const work of [() => saveDraft(manager, read, "Measured."), () => redoDraft(manager, read, { base: 1, record: read.record }), () => dropDraft(manager, read)]) await expect(work()).rejects.toThrow(DraftMovedOn);
      const left = (await getDraft(manager, read.id))!;
      expect([measuredIn(left.record), measuredIn((await getSiteAt(manager, "a01"))!.record), (await getSiteAt(manager, "a01"))!.version]).toEqual([["m1", "m2"], [], 1]);
      expect(await saveDraft(manager, left, "Measured.")).toBe(2);
      expect([await getDraft(manager, read.id), measuredIn((await getSiteAt(manager, "a01"))!.record)]).toEqual([null, ["m1", "m2"]]);
    });

    it("is saved or left over, never both and never neither, where it comes as the draft is saved", async () => {
      await openPark();
      for (let n = 0; n < 6; n++) {
        const [first, second] = [`m${n}`, `m${n}b`], held = (record: SiteInput | null | undefined) => (record?.survey?.measurements ?? []).map(({ id }) => id).filter((id) => id === first || id === second);
        const { draft } = await goOnWithSurvey(manager, "a01", taking(slope(first, n + 1)));
        const read = (await getDraft(manager, draft.id))!;
        const [saved] = await Promise.allSettled([saveDraft(manager, read, ""), goOnWithSurvey(manager, "a01", taking(slope(second, n + 2)))]);
        const [site, open] = [(await getSiteAt(manager, "a01"))!, (await getSurveyDraft(manager, "a01"))!];
        expect(held(site.record)).toEqual(saved.status === "fulfilled" ? [first] : []);
        // What is left over begins from the site as it now is.
        expect([held(open.record), open.base]).toEqual([[first, second], site.version]);
        await saveDraft(manager, (await getDraft(manager, open.id))!, "");
      }
    });

    it("goes on from the record that was put together with what others saved", async () => {
      const read = await begin();
      await redoDraft(manager, read, { base: 1, record: { ...read.record!, label: "A-1" } });
      const { draft } = await goOnWithSurvey(manager, "a01", taking(slope("m2", 2)));
      expect([draft.id, draft.record.label, measuredIn(draft.record)]).toEqual([read.id, "A-1", ["m1", "m2"]]);
    });
  });

  it("is nothing to the desk, and there is none of a site that is not there or out of use", async () => {
    await openPark();
    await expect(goOnWithSurvey(desk as Manager, "a01", taking(slope("m1", 1)))).rejects.toMatchObject({ kind: "missing" });
    await expect(goOnWithSurvey(manager, "zz9", taking(slope("m1", 1)))).rejects.toMatchObject({ kind: "missing" });
    await changeSites(manager, [{ siteId: "a01", base: 1, record: null }], { cause: "edit", why: "Flooded." });
    await expect(goOnWithSurvey(manager, "a01", taking(slope("m1", 1)))).rejects.toMatchObject({ kind: "missing" });
  });
});
