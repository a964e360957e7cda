import { afterAll, describe, expect, it } from "vitest";
import { closePool } from "@/lib/jobs/fit-pool";
import { tellOfSiteChanges, weighSites } from "@/lib/jobs/site-effects";
import { siteSchema, type SiteInput } from "@/lib/park";
import { changeSites, getRevision, getSiteAt, listRevisions, listSitesAt, restoreRevision, type Manager, type SiteChange } from "@/lib/store/site-changes";
import { createDraft, dropDraft, getDraft } from "@/lib/store/site-drafts";
import { listOpenEffects, listToldRecords, settleEffect } from "@/lib/store/site-effects";
import { closeSite, liftClosure } from "@/lib/store/closures";
import { getPark } from "@/lib/store/parks";
import { getSite, getSiteOnRecord, listSiteIds } from "@/lib/store/sites";
import { bookStay, cancelStay, walkIn } from "@/lib/store/stays";
import { listStaysAhead } from "@/lib/store/stays-ahead";
import { getStay, moveStay } from "@/lib/store/stays-change";
import { listAvailability, listFreeSites } from "@/lib/store/stays-nights";
import { withStore } from "./client";
import { ask, byHand, day, desk, manager as anyManager, openPark, park, refusal, stayFrom, today } from "./stays-park";

withStore();
afterAll(closePool);

const manager = anyManager as Manager;
const clerk = desk as Manager;
const edit = { cause: "edit", why: "Measured again." } as const;

const recordOf = async (siteId: string) => (await getSiteAt(manager, siteId))!.record;
const changed = async (siteId: string, base: number | null, change: object = { remark: Math.random() }): Promise<SiteChange> => ({ siteId, base, record: { ...(await recordOf(siteId)), ...change } });

describe("every change of a site", () => {
  it("has a revision with who, when, why and what brought it; the first is the one it was loaded with", async () => {
    await openPark();
    const began = Date.now();
    const label = await changed("a01", 1, { label: "A-1", loop: "B" });
    expect(await changeSites(manager, [label], { cause: "survey", why: "  New post. " })).toEqual(new Map([["a01", 2]]));
    const [last, first, ...more] = await listRevisions(manager, "a01");
    expect(more).toEqual([]);
    expect(last).toMatchObject({ number: 2, by: "manager", who: "the-manager", cause: "survey", why: "New post.", record: label.record });
    expect(Math.abs(last!.at - began)).toBeLessThan(60_000);
    expect(first).toMatchObject({ number: 1, by: "clock", cause: "load" });
    expect(await getRevision(manager, "a01", 1)).toEqual(first);
    expect(await byHand((sql) => sql`select label, loop from site where site_id = 'a01'`)).toEqual([{ label: "A-1", loop: "B" }]);
  });

  it("has one even where it is made by hand, and is refused where nobody says who makes it", async () => {
    await openPark();
    await byHand((sql) => sql`update site set record = record || '{"surveyorsRemark": "by hand"}' where site_id = 'a01'`);
    expect((await listRevisions(manager, "a01"))[0]).toMatchObject({ number: 2, by: "desk", cause: "edit" });
    const nobody = byHand(async (sql) => {
      await sql`select set_config('padwright.actor_kind', '', false)`;
      await sql`update site set record = record || '{"surveyorsRemark": "nobody"}'`;
    });
    expect(await refusal(nobody)).toMatchObject({ constraint_name: "site_revision_has_actor" });
    expect(await refusal(byHand((sql) => sql`update site_revision set record = '{}'`))).toMatchObject({ constraint_name: "site_revision_stays_as_it_is" });
    expect(await refusal(byHand((sql) => sql`delete from site_revision`))).toMatchObject({ constraint_name: "site_revision_stays_as_it_is" });
  });

  it("cannot count its version otherwise, nor make a revision of what is as it was", async () => {
    await openPark();
    await byHand((sql) => sql`update site set version = 9, position = position`);
    await changeSites(manager, [{ siteId: "a01", base: 1, record: await recordOf("a01") }], edit);
    expect((await getSiteAt(manager, "a01"))!.version).toBe(1);
    expect(await listRevisions(manager, "a01")).toHaveLength(1);
  });
});

describe("a change that began from an older version", () => {
  it("is refused, with all that came with it, and says where the site is now", async () => {
    await openPark();
    await changeSites(manager, [await changed("a01", 1)], edit);
    const both = [await changed("a02", 1, { label: "lost" }), await changed("a01", 1), { siteId: "a09", base: 3, record: { ...(await recordOf("a01")), id: "a09" } }];
    expect(await refusal(changeSites(manager, both, edit))).toMatchObject({ kind: "stale", sites: [{ siteId: "a01", base: 1, version: 2 }, { siteId: "a09", base: 3, version: null }] });
    expect((await getSiteAt(manager, "a02"))!.version).toBe(1);
  });

  it("is refused to all but one of twenty who save at once", async () => {
    await openPark();
    const all = await Promise.all(Array.from({ length: 20 }, async (_, i) => changed("a01", 1, { surveyorsRemark: `hand ${i}` })));
    const answers = await Promise.allSettled(all.map((change) => changeSites(manager, [change], edit)));
    expect(answers.filter(({ status }) => status === "fulfilled")).toHaveLength(1);
    for (const answer of answers) if (answer.status === "rejected") expect(answer.reason).toMatchObject({ kind: "stale" });
    expect(await listRevisions(manager, "a01")).toHaveLength(2);
  });

  it("is not made by two who change the same sites in another order", async () => {
    await openPark();
    const pairs = await Promise.all(Array.from({ length: 8 }, async (_, i) => [await changed("a01", 1), await changed("a02", 1)].sort(() => (i % 2 ? 1 : -1))));
    const answers = await Promise.allSettled(pairs.map((pair) => changeSites(manager, pair, edit)));
    expect(answers.map((answer) => (answer.status === "fulfilled" ? "saved" : (answer.reason as { kind: string }).kind)).sort()).toEqual([...Array<string>(1).fill("saved"), ...Array<string>(7).fill("stale")]);
  });
});

describe("new sites", () => {
  it("come last, once, and are told apart from those that are there", async () => {
    await openPark();
    const record: SiteInput = { ...(await recordOf("a01")), id: "a03", label: "A-03" };
    expect(await changeSites(manager, [{ siteId: "a03", base: null, record }], { cause: "copy", why: "" })).toEqual(new Map([["a03", 1]]));
    expect(await listSiteIds(park)).toEqual(["a02", "a01", "a03"]);
    expect(await listRevisions(manager, "a03")).toMatchObject([{ number: 1, cause: "copy", why: null }]);
    expect(await refusal(changeSites(manager, [{ siteId: "a03", base: null, record }], edit))).toMatchObject({ kind: "stale", sites: [{ version: 1 }] });
  });

  it("and changed ones are refused with every fault where a record is no site, or is another's", async () => {
    await openPark();
    const wrong = [{ ...(await changed("a01", 1)), record: { ...(await recordOf("a01")), id: "a02", entry: "sideways" } as unknown as SiteInput }, await changed("a02", 1), await changed("a02", 1)];
    expect(await refusal(changeSites(manager, wrong, edit))).toMatchObject({ kind: "refused", faults: [{ siteId: "a01", path: ["id"] }, { siteId: "a01", path: ["entry"] }, { siteId: "a02", path: [] }] });
  });
});

describe("a site taken out of use", () => {
  const retire = (base = 1): SiteChange => ({ siteId: "a01", base, record: null });

  it("is in no list and can be had by nobody, while its past can be read", async () => {
    await openPark();
    const past = await walkIn(desk, park, { request: ask(0, 1) });
    await byHand((sql) => sql`update stay set state = 'departed', departed_at = now(), freed_from = arrive where id = ${past.stay.id}`);
    expect(await changeSites(manager, [retire()], edit)).toEqual(new Map([["a01", 2]]));
    expect(await listSiteIds(park)).toEqual(["a02"]);
    expect(await getSite(park, "a01")).toBeNull();
    expect(await listFreeSites(park, stayFrom(3, 2))).toEqual(["a02"]);
    expect((await listAvailability(park, stayFrom(3, 2))).map(({ id }) => id)).toEqual(["a02"]);
    expect(await refusal(bookStay(desk, park, { request: ask(3, 2) }))).toMatchObject({ kind: "missing" });
    expect((await getStay(desk, park, past.stay.id)).site).toBe("a01");
    expect((await getSiteOnRecord(park, "a01"))?.label).toBe("A01");
    expect((await listRevisions(manager, "a01"))[0]).toMatchObject({ number: 2, record: null });
    expect((await getSiteAt(manager, "a01"))!).toMatchObject({ version: 2, retired: true });
  });

  it("stays in use while somebody is on it or to come, or a closure is in force, and says who", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) });
    const closure = await closeSite(desk, park, "a01", { starts: day(10), ends: day(12), reason: "gravel" });
    expect(await refusal(changeSites(manager, [retire()], edit))).toMatchObject({ constraint: "site_in_use", sites: [{ siteId: "a01", stays: [{ id: stay.id, reference: stay.reference }], closures: 1 }] });
    await cancelStay(desk, park, stay.id, { version: stay.version });
    await liftClosure(desk, park, closure);
    await changeSites(manager, [retire()], edit);
  });

  it("is refused by the database itself, and so is a stay that somebody books on it meanwhile", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) });
    expect(await refusal(byHand((sql) => sql`update site set retired_at = now() where site_id = 'a01'`))).toMatchObject({ constraint_name: "site_in_use" });
    await cancelStay(desk, park, stay.id, { version: stay.version });
    await changeSites(manager, [retire()], edit);
    expect(await refusal(byHand((sql) => sql`update stay set state = 'booked' where id = ${stay.id}`))).toMatchObject({ constraint_name: "occupancy_on_site_in_use" });
  });

  it("has no stay, or is in use, whoever of many comes first", async () => {
    await openPark();
    const [retired, ...booked] = await Promise.allSettled([changeSites(manager, [retire()], edit), ...Array.from({ length: 6 }, (_, i) => bookStay(desk, park, { request: ask(3 + 3 * i, 2) }))]);
    const stays = booked.filter(({ status }) => status === "fulfilled").length;
    if (retired!.status === "fulfilled") expect(stays).toBe(0);
    else expect([stays > 0, retired!.reason]).toEqual([true, expect.objectContaining({ constraint: "site_in_use" })]);
  });

  it("comes back with its record when an earlier revision is restored, or a site of its name is added", async () => {
    await openPark();
    const record = await recordOf("a01");
    await changeSites(manager, [retire()], edit);
    expect(await restoreRevision(manager, "a01", 1, 2, "It drained.")).toBe(3);
    expect(await listSiteIds(park)).toEqual(["a02", "a01"]);
    expect((await listRevisions(manager, "a01"))[0]).toMatchObject({ number: 3, cause: "restore", why: "It drained.", record });
    await changeSites(manager, [retire(3)], edit);
    await changeSites(manager, [{ siteId: "a01", base: null, record }], { cause: "import", why: "" });
    expect(await getSiteAt(manager, "a01")).toMatchObject({ version: 5, retired: false });
  });
});

describe("a restored revision", () => {
  it("is a new one with the old record, from the version that was looked at", async () => {
    await openPark();
    const first = await recordOf("a01");
    await changeSites(manager, [await changed("a01", 1, { label: "A-1" })], edit);
    expect(await refusal(restoreRevision(manager, "a01", 1, 1, ""))).toMatchObject({ kind: "stale" });
    expect(await refusal(restoreRevision(manager, "a01", 7, 2, ""))).toMatchObject({ kind: "missing" });
    expect(await restoreRevision(manager, "a01", 1, 2, "Wrong site.")).toBe(3);
    expect(await recordOf("a01")).toEqual(first);
    expect((await listRevisions(manager, "a01")).map(({ number, cause }) => [number, cause])).toEqual([[3, "restore"], [2, "edit"], [1, "load"]]);
  });
});

describe("who may", () => {
  it("is a manager of the park: for the desk, and for another park's manager, the sites are not there", async () => {
    await openPark();
    const other: Manager = { ...manager, park: "elsewhere" };
    const change = await changed("a01", 1);
    for (const work of [() => changeSites(clerk, [change], edit), () => getSiteAt(clerk, "a01"), () => listRevisions(clerk, "a01"), () => createDraft(clerk, { ...change, cause: "edit" }), () => changeSites(other, [change], edit)]) {
      expect(await refusal(work())).toMatchObject({ kind: "missing" });
    }
    expect(await getSiteAt(other, "a01")).toBeNull();
    expect((await getSiteAt(manager, "a01"))!.version).toBe(1);
  });

  it("may keep a draft that others of the park can open and nobody else", async () => {
    await openPark();
    const change = await changed("a01", 1);
    const id = await createDraft(manager, { ...change, cause: "survey" });
    expect(await getDraft(manager, id)).toMatchObject({ ...change, cause: "survey", by: "the-manager" });
    expect(await getDraft({ ...manager, park: "elsewhere" }, id)).toBeNull();
    expect(await getDraft(manager, "no-such")).toBeNull();
    await dropDraft(manager, (await getDraft(manager, id))!);
    expect(await getDraft(manager, id)).toBeNull();
  });
});

/** Where the pad ends after seven meters, no van stands on it with its front in. */
const short = { pad: { outline: [[0, -1800], [2500, -1800], [2500, 1800], [0, 1800]] } };

describe("what a change means for the stays ahead", () => {
  it("is known before it is saved: who would no longer fit, who would begin to, and who is for any site", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) });
    const anywhere = await bookStay(desk, park, { request: ask(3, 2, { site: undefined }) });
    await bookStay(desk, park, { request: ask(3, 2, { site: "a02" }) });
    const [{ policy }, stays, sites] = [(await getPark(park))!, await listStaysAhead(manager, park, today()), await listSitesAt(manager)];
    const [a01, a02] = ["a01", "a02"].map((id) => siteSchema.parse(sites.get(id)!.record)) as [ReturnType<typeof siteSchema.parse>, ReturnType<typeof siteSchema.parse>];
    const after = siteSchema.parse({ ...a01, ...short });
    const told: number[] = [];
    const one = await weighSites({ swaps: [{ siteId: "a01", before: a01, after }], stays, others: [a02] }, policy, { onProgress: ({ done }) => told.push(done) });
    expect(one).toMatchObject({ staysAsked: 2, notWorkedOut: [], stays: [{ id: stay.id, turn: "shut", was: { verdict: "gear" }, now: { verdict: "no" } }] });
    expect(told).toEqual([0, 1, 2]);
    const back = await weighSites({ swaps: [{ siteId: "a01", before: after, after: a01 }], stays, others: [a02] }, policy);
    expect(back.stays).toMatchObject([{ id: stay.id, turn: "opened" }]);
    const none = await weighSites({ swaps: [{ siteId: "a01", before: a01, after }], stays, others: [siteSchema.parse({ ...a02, ...short })] }, policy);
    expect(none.stays.find(({ id }) => id === anywhere.stay.id)).toMatchObject({ turn: "shut" });
    await expect(weighSites({ swaps: [{ siteId: "a01", before: a01, after: siteSchema.parse({ ...after, label: "new" }) }], stays, others: [] }, policy, { signal: AbortSignal.abort() })).rejects.toMatchObject({ why: "asker" });
  });

  it("is told to the desk after it was saved, once, until the stay is moved, fits again, or somebody has seen it", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) });
    await changeSites(manager, [await changed("a01", 1, short)], { cause: "edit", why: "The bank slid." });
    await Promise.all([tellOfSiteChanges(), tellOfSiteChanges()]);
    await tellOfSiteChanges();
    const told = await listOpenEffects(desk, park);
    expect(told).toMatchObject([{ stay: stay.id, site: "a01", turn: "shut", verdicts: { was: "gear", now: "no" }, by: "the-manager", why: "The bank slid.", nights: stay.nights }]);
    expect(await listOpenEffects(desk, park, stay.id)).toEqual(told);

    await moveStay(desk, park, stay.id, "a02", { version: stay.version });
    expect(await listOpenEffects(desk, park)).toEqual([]);
  });

  it("is good news where the site is put right again, in place of the bad", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) });
    await changeSites(manager, [await changed("a01", 1, short)], edit);
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toHaveLength(1);
    await restoreRevision(manager, "a01", 1, 2, "");
    await tellOfSiteChanges();
    const told = await listOpenEffects(desk, park);
    expect(told).toMatchObject([{ stay: stay.id, turn: "opened", verdicts: { was: "no", now: "gear" } }]);
    await settleEffect(desk, park, told[0]!.id);
    expect(await listOpenEffects(desk, park)).toEqual([]);
    await changeSites(manager, [await changed("a01", 3, short)], edit);
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toMatchObject([{ stay: stay.id, turn: "shut" }]);
  });

  it("is told of a stay for any site that no site takes any more, until one takes it or it has its own", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2, { site: undefined }) });
    await changeSites(manager, [await changed("a01", 1, short)], edit);
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toEqual([]);
    await changeSites(manager, [await changed("a02", 1, short)], { ...edit, why: "The bank slid." });
    await Promise.all([tellOfSiteChanges(), tellOfSiteChanges()]);
    expect(await listOpenEffects(desk, park)).toMatchObject([{ stay: stay.id, site: "a02", turn: "shut", verdicts: null, why: "The bank slid." }]);
    expect(await listOpenEffects(desk, park, stay.id)).toHaveLength(1);

    await restoreRevision(manager, "a01", 1, 2, "");
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toMatchObject([{ stay: stay.id, site: "a01", turn: "opened", verdicts: null }]);
    await moveStay(desk, park, stay.id, "a01", { version: stay.version });
    expect(await listOpenEffects(desk, park)).toEqual([]);
  });

  it("weighs sites that changed together as one, those added and taken out of use among them", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2, { site: undefined }) }), whole = await recordOf("a01");
    await changeSites(manager, [await changed("a01", 1, short), { siteId: "a02", base: 1, record: null }, { siteId: "a03", base: null, record: { ...whole, id: "a03" } }], edit);
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toEqual([]);
    await changeSites(manager, [{ siteId: "a03", base: 1, record: null }], edit);
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toMatchObject([{ stay: stay.id, site: "a03", turn: "shut" }]);
    await changeSites(manager, [{ siteId: "a04", base: null, record: { ...whole, id: "a04" } }], edit);
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toMatchObject([{ stay: stay.id, site: "a04", turn: "opened" }]);
    expect(await byHand((sql) => sql`select 1 from site where weighed_version < version`)).toEqual([]);
  });

  it("holds sites that changed against the others as they were last told", async () => {
    await openPark();
    const whole = await recordOf("a01"), told = async (...without: string[]) => (await listToldRecords(park, without)).map((record) => [(record as SiteInput).id, (record as SiteInput).label]).sort();
    await changeSites(manager, [await changed("a01", 1, { label: "new" }), { siteId: "a02", base: 1, record: null }, { siteId: "a03", base: null, record: { ...whole, id: "a03" } }], edit);
    expect(await told()).toEqual([["a01", "A01"], ["a02", "A02"]]);
    expect(await told("a01")).toEqual([["a02", "A02"]]);
    await tellOfSiteChanges();
    expect(await told()).toEqual([["a01", "new"], ["a03", "A01"]]);
  });

  it("is off the list once somebody has seen it, and the audit says who", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(3, 2) });
    await changeSites(manager, [await changed("a01", 1, short), await changed("a02", 1)], edit);
    await tellOfSiteChanges();
    const [effect] = await listOpenEffects(desk, park);
    await settleEffect(desk, park, effect!.id);
    expect(await listOpenEffects(desk, park)).toEqual([]);
    expect(await byHand((sql) => sql`select actor, after ->> 'seen_by' as seen from audit_entry where subject = 'site_change_effect' and before is not null`)).toEqual([{ actor: "desk-one", seen: "desk-one" }]);
    expect(await byHand((sql) => sql`select 1 from site where weighed_version < version`)).toEqual([]);
    expect(await refusal(settleEffect({ ...desk, park: "elsewhere" } as typeof desk, park, effect!.id))).toMatchObject({ kind: "missing" });
  });
});
