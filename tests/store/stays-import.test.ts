import { execFile } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { describe, expect, inject, it } from "vitest";
import { pageLimits, planImport, writeStays, type ExchangeFile, type ImportPlan } from "@/lib/exchange";
import { addDays } from "@/lib/stays";
import { tellOfSiteChanges } from "@/lib/jobs/site-effects";
import { client } from "@/lib/store/client";
import { closeSite } from "@/lib/store/closures";
import { eraseGuest } from "@/lib/store/guests-data";
import { applyImport, readInventory } from "@/lib/store/inventory";
import { createUpload, forgetOldUploads, getUpload } from "@/lib/store/inventory-uploads";
import type { Manager } from "@/lib/store/site-changes";
import { listOpenEffects, settleEffect } from "@/lib/store/site-effects";
import { bookStay, cancelStay, holdStay, requestStay, walkIn } from "@/lib/store/stays";
import { listAudit } from "@/lib/store/stays-audit";
import { getStay } from "@/lib/store/stays-change";
import { listStayLines } from "@/lib/store/stays-export";
import { getAccount } from "@/lib/store/stays-money";
import { smallPark, withStore } from "./client";
import { ask, day, desk, guest, manager as somebody, occupants, openPark, park, person, refusal, runOut, setRates } from "./stays-park";

withStore();

const manager = somebody as Manager;
const file = (text: string, name = "stays.csv"): ExchangeFile => ({ name, bytes: new TextEncoder().encode(text) });
const planOf = async (...files: ExchangeFile[]): Promise<ImportPlan> => planImport(files, await readInventory(manager, files), "keep", pageLimits);
const NEW = "reference,arrive,depart,site,guest,email,rig kind,rig length (ft),note\n";
const fresh = (from: number, nights: number, site = "a01", name = "Bo Fern") => `,${day(from)},${day(from + nights)},${site},${name},bo@example.org,van,19,\n`;
const mails = () => client().mail.count();
const lines = async () => (await listStayLines(manager)).map(({ guest: who, site, arrive, depart, state }) => ({ who, site, arrive, depart, state }));

describe("stays that are read in", () => {
  it("go out and come in without a change, whatever became of them", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) }), other = (await requestStay(desk, park, { request: ask(8, 2, { site: undefined, note: "=late" }) })).stay;
    await cancelStay(desk, park, other.id);
    await walkIn(desk, park, { request: ask(0, 2, { site: "a02" }) });
    const out = writeStays(await listStayLines(manager)), plan = await planOf(file(out));
    expect(plan).toMatchObject({ faultCount: 0, stays: [], unchanged: { stays: 3 } });
    expect(await applyImport(manager, plan, "")).toMatchObject({ stays: { added: 0, changed: 0 } });
    expect(writeStays(await listStayLines(manager))).toBe(out);
    expect((await getStay(manager, park, stay.id)).version).toBe(stay.version);
  });

  it("are booked with their price, their nights and their entry in the audit, and nobody is written to", async () => {
    await openPark();
    await setRates({ currency: "USD", prices: [{ night: 4000 }] });
    const plan = await planOf(file(`${NEW}${fresh(5, 3)}${fresh(5, 1, "", "Cy Moss").replace(",van,", ",fifth wheel,").replace(",19,", ",33,")}`));
    expect(plan.faults).toEqual([]);
    const progress: number[][] = [];
    expect(await applyImport(manager, plan, "from the old book", { onProgress: (...told) => progress.push(told) })).toEqual({ sites: { added: 0, changed: 0, removed: 0 }, rigs: { added: 0, changed: 0, removed: 0 }, park: false, stays: { added: 2, changed: 0 } });
    expect(progress.at(-1)).toEqual([2, 2]);
    const [bo] = (await listStayLines(manager)).filter(({ guest: who }) => who === "Bo Fern"), stay = await getStay(manager, park, bo!.id);
    expect(stay).toMatchObject({ state: "booked", site: "a01", siteChosen: false, guest: { name: "Bo Fern", email: "bo@example.org" }, rig: { kind: "van", id: "typical-van" }, until: null, wanted: { services: [] } });
    expect(stay.reference).toMatch(/^[A-Z3-9]{6}$/);
    expect(await getAccount(manager, park, bo!.id)).toMatchObject({ total: 12_000, quotes: [{ card: 1 }] });
    expect(await listAudit(manager, park, bo!.id)).toMatchObject([{ by: "manager", who: "the-manager", reason: "from the old book", before: null }]);
    expect(await occupants()).toEqual([{ site: "a01", nights: `[${day(5)},${day(8)})` }]);
    expect(await mails()).toBe(0);
  });

  it("are changed in what the table says, longer ones priced, and nobody is written to", async () => {
    await openPark();
    await setRates({ currency: "USD", prices: [{ night: 4000 }] });
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) }), before = await mails();
    const plan = await planOf(file(`reference,depart,site,phone,note\n${stay.reference},${day(6)},a02,555 0199,calls ahead\n`));
    expect(plan.faults).toEqual([]);
    await applyImport(manager, plan, "they called");
    const now = await getStay(manager, park, stay.id);
    expect(now).toMatchObject({ version: stay.version + 1, site: "a02", nights: { arrive: day(3), depart: day(6) }, note: "calls ahead", guest: { ...person, phone: "555 0199" }, rig: stay.rig, state: "booked" });
    expect((await getAccount(manager, park, stay.id)).total).toBe(12_000);
    expect((await listAudit(manager, park, stay.id)).at(-1)).toMatchObject({ by: "manager", who: "the-manager", reason: "they called", after: { note: "calls ahead" } });
    expect(await mails()).toBe(before);
    expect(await occupants()).toEqual([{ site: "a02", nights: `[${day(3)},${day(6)})` }]);
  });

  it("change places with one another, and follow one another on", async () => {
    await openPark();
    const one = (await bookStay(desk, park, { request: ask(3, 2) })).stay, two = (await bookStay(desk, park, { request: ask(3, 2, { site: "a02" }) })).stay, three = (await bookStay(desk, park, { request: ask(5, 2) })).stay;
    await applyImport(manager, await planOf(file(`reference,arrive,depart,site\n${one.reference},${day(3)},${day(5)},a02\n${two.reference},${day(3)},${day(5)},a01\n${three.reference},${day(6)},${day(9)},a01\n`)), "");
    expect(await occupants()).toEqual([{ site: "a01", nights: `[${day(3)},${day(5)})` }, { site: "a01", nights: `[${day(6)},${day(9)})` }, { site: "a02", nights: `[${day(3)},${day(5)})` }]);
  });

  it("do not change places where both guests are here", async () => {
    await openPark();
    const one = (await walkIn(desk, park, { request: ask(0, 3) })).stay, two = (await walkIn(desk, park, { request: ask(0, 3, { site: "a02" }) })).stay;
    await expect(applyImport(manager, await planOf(file(`reference,site\n${one.reference},a02\n${two.reference},a01\n`)), "")).rejects.toMatchObject({ kind: "refused" });
    expect((await lines()).map(({ site }) => site).sort()).toEqual(["a01", "a02"]);
  });

  it("make room for a guest who is here", async () => {
    await openPark();
    const here = (await walkIn(desk, park, { request: ask(0, 3) })).stay, coming = (await bookStay(desk, park, { request: ask(2, 3, { site: "a02" }) })).stay;
    await applyImport(manager, await planOf(file(`reference,site,depart\n${here.reference},a02,${day(4)}\n${coming.reference},a01,${day(5)}\n`)), "");
    expect(await occupants()).toEqual([{ site: "a01", nights: `[${day(2)},${day(5)})` }, { site: "a02", nights: `[${day(0)},${day(4)})` }]);
  });

  it("take a guest off the site they chose only with a reason", async () => {
    await openPark({ guestsMay: "book" });
    const { stay } = await bookStay(guest, park, { request: ask(3, 2) }), table = file(`reference,site\n${stay.reference},a02\n`);
    const plan = await planOf(table);
    expect(plan.stays).toMatchObject([{ leavesChosen: true }]);
    expect(await refusal(applyImport(manager, plan, " "))).toMatchObject({ faults: [{ code: "reason-needed" }] });
    await applyImport(manager, plan, "a limb hangs over it");
    expect(await getStay(manager, park, stay.id)).toMatchObject({ site: "a02", siteChosen: false });
  });

  it("leave behind, with a site, what was said of a poor fit there, and keep it where the nights alone change", async () => {
    await openPark();
    const override = { verdict: "no" as const, codes: ["stand"], why: "the truck stays outside" };
    const moved = (await bookStay(desk, park, { request: ask(3, 2), override })).stay, longer = (await bookStay(desk, park, { request: ask(8, 2), override })).stay;
    await applyImport(manager, await planOf(file(`reference,depart,site\n${moved.reference},${day(5)},a02\n${longer.reference},${day(11)},a01\n`)), "");
    expect(await getStay(manager, park, moved.id)).toMatchObject({ site: "a02", override: null });
    expect(await getStay(manager, park, longer.id)).toMatchObject({ site: "a01", nights: { depart: day(11) }, override });
  });

  it("are looked at anew where midnight has passed since", async () => {
    await openPark();
    const plan = await planOf(file(`${NEW}${fresh(5, 3)}`));
    await expect(applyImport(manager, { ...plan, today: addDays(plan.today!, -1) }, "")).rejects.toMatchObject({ kind: "stale" });
    expect(await lines()).toEqual([]);
  });

  it("may be on a site that the same upload brings", async () => {
    await openPark();
    const plan = await planOf(file(`${NEW}${fresh(5, 3, "z9")}`), file('id,entry,pad outline (mm),slope along,slope across\nz9,back-in,"0 -2000; 12000 -2000; 12000 2000; 0 2000",0,0\n', "sites.csv"));
    expect(plan.faults).toEqual([]);
    expect(await applyImport(manager, plan, "")).toMatchObject({ sites: { added: 1 }, stays: { added: 1 } });
    expect(await occupants()).toEqual([{ site: "z9", nights: `[${day(5)},${day(8)})` }]);
  });

  it("let a hold that ran out go, and are on their sites to be judged", async () => {
    await openPark();
    const held = (await holdStay(guest, park, { request: ask(5, 2, { guest: undefined }) })).stay;
    expect((await planOf(file(`${NEW}${fresh(5, 3)}`))).faults).toMatchObject([{ code: "nights-taken", by: { kind: "hold" } }]);
    await runOut(held.id);
    await applyImport(manager, await planOf(file(`${NEW}${fresh(5, 3)}`)), "");
    expect(await occupants()).toEqual([{ site: "a01", nights: `[${day(5)},${day(8)})` }]);
    expect(await client().site.findMany({ where: { weighedVersion: 0 }, select: { siteId: true } })).toEqual([{ siteId: "a01" }]);
  });
});

describe("stays that do not fit where they are read in", () => {
  it("are told to the desk once, until somebody has seen them; who fits is not", async () => {
    await openPark();
    const van = { ...(smallPark().rigs.rigs[0]!.rig as object), id: "short-van" };
    await bookStay(desk, park, { request: ask(20, 1, { rig: van as never }) });
    // Nothing on these sites gives power, which a van of this length usually wants; the park's own van wants none.
    await applyImport(manager, await planOf(file(`reference,arrive,depart,site,guest,rig,rig kind,rig length (ft)\n,${day(5)},${day(7)},a01,Bo Fern,,van,19\n,${day(8)},${day(9)},a01,Cy Moss,short-van,,\n`)), "the old book");
    await tellOfSiteChanges();
    const told = await listOpenEffects(desk, park);
    expect(told).toMatchObject([{ guest: "Bo Fern", site: "a01", turn: "read-in", verdicts: { was: "no", now: "no" }, by: null }]);
    expect(await client().site.findFirst({ where: { siteId: "a01" }, select: { weighedVersion: true, version: true } })).toEqual({ weighedVersion: 1, version: 1 });
    await settleEffect(desk, park, told[0]!.id);
    await applyImport(manager, await planOf(file(`${NEW}${fresh(12, 1, "a01", "Di Reed")}`)), "");
    await tellOfSiteChanges();
    expect(await listOpenEffects(desk, park)).toMatchObject([{ guest: "Di Reed" }]);
  });
});

describe("nothing at all is read in", () => {
  const upload = () => [file(`${NEW}${fresh(5, 3)}${fresh(9, 3, "a02")}`), file("id,tents\na01,3\n", "sites.csv")];
  const untouched = async () => {
    expect((await lines()).filter(({ who }) => who === "Bo Fern")).toEqual([]);
    expect(await client().siteRevision.count({ where: { cause: "import" } })).toBe(0);
  };

  it.each([
    ["a stay", (): Promise<unknown> => bookStay(desk, park, { request: ask(11, 1, { site: "a02" }) })],
    ["a closure", (): Promise<unknown> => closeSite(desk, park, "a02", { starts: day(9), ends: day(10), reason: "gravel" })],
  ] as const)("where %s took one of the nights meanwhile", async (_what, meanwhile) => {
    await openPark();
    const plan = await planOf(...upload());
    expect(plan.faults).toEqual([]);
    await meanwhile();
    expect(await refusal(applyImport(manager, plan, ""))).toMatchObject({ kind: "stale", constraint: "occupancy_one_a_night" });
    await untouched();
  });

  it("where a stay was changed meanwhile, or the day is another", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(20, 2) });
    const plan = await planOf(...upload().slice(1), file(`reference,note,arrive,depart,guest,rig kind,rig length (ft)\n${stay.reference},calls ahead,${day(20)},${day(22)},${person.name},,\n,,${day(5)},${day(8)},Bo Fern,van,19\n`));
    expect(plan.faults).toEqual([]);
    await client().$transaction(async (tx) => {
      await tx.$queryRaw`select set_config('padwright.actor_kind', 'desk', true)`;
      await tx.stay.update({ where: { id: stay.id }, data: { note: "another", version: { increment: 1 } } });
    });
    expect(await refusal(applyImport(manager, plan, ""))).toMatchObject({ kind: "stale" });
    expect(await refusal(applyImport(manager, { ...plan, today: addDays(plan.today!, -1) }, ""))).toMatchObject({ kind: "stale" });
    await untouched();
  });

  it("for the desk, or a manager of another park", async () => {
    await openPark();
    const plan = await planOf(...upload());
    await expect(applyImport({ ...manager, kind: "desk" }, plan, "")).rejects.toMatchObject({ kind: "missing" });
    await expect(listStayLines({ ...manager, park: "elsewhere" })).rejects.toMatchObject({ kind: "missing" });
    await untouched();
  });
});

describe("files that wait to be read in", () => {
  const age = (id: string, hours: number) => client().inventoryUpload.update({ where: { id }, data: { at: new Date(Date.now() - hours * 3_600_000) } });

  it("are forgotten after a day by themselves, and where a guest is erased at once", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(3, 2) });
    const [old, young] = [await createUpload(manager, [file(`${NEW}${fresh(5, 3)}`)], "keep"), await createUpload(manager, [file(`${NEW}${fresh(5, 3)}`)], "keep")];
    await age(old, 25);
    await age(young, 23);
    await forgetOldUploads();
    expect(await getUpload(manager, old)).toBeNull();
    expect(await getUpload(manager, young)).not.toBeNull();
    await cancelStay(desk, park, stay.id);
    await eraseGuest(manager, park, { stays: [stay.id], unmet: [] });
    expect(await getUpload(manager, young)).toBeNull();
  });
});

describe("the command", () => {
  const run = (...args: string[]) => new Promise<{ code: number; out: string; err: string }>((resolve) => {
    execFile(process.execPath, ["scripts/run.mjs", "lib/cli/inventory.ts", ...args], { env: { ...process.env, DATABASE_URL: inject("databaseUrl") } }, (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }));
  });

  it("hands stays out only where it is told to, says what a table of them would do, and takes it in", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(3, 2) });
    const folder = mkdtempSync(path.join(tmpdir(), "padwright-stays-")), stays = path.join(folder, "stays.csv");
    try {
      expect(await run("export", "--format", "csv", "--out", folder)).toMatchObject({ code: 0 });
      expect(existsSync(stays)).toBe(false);
      expect(await run("export", "--stays", "--out", folder)).toMatchObject({ code: 2, err: expect.stringContaining("--format csv --stays") as string });
      expect(await run("export", "--format", "csv", "--stays", "--out", folder)).toMatchObject({ code: 0 });
      expect(await run("import", "--dry-run", "--remove", folder)).toMatchObject({ code: 0, out: "Nothing. The park is exactly as these files have it.\n" });
      const text = readFileSync(stays, "utf8"), row = (from: string, to: string) => `,,${from},${to},a01,Bo Fern,bo@example.org,,,van,5800,\r\n`;
      writeFileSync(stays, text + row(day(4), day(6)));
      expect(await run("import", folder)).toMatchObject({ code: 1, out: "", err: expect.stringMatching(/stays\.csv, row 3, “site”: Site A01 is taken from .* by stay [A-Z3-9]{6}\./) as string });
      writeFileSync(stays, text + row(day(5), day(7)));
      const dry = await run("import", "--dry-run", folder);
      expect(dry.out).toContain("Bo Fern: ");
      expect(dry.out).toContain("Stay: 1 added. Unchanged: 2 sites, 1 rig and 1 stay.");
      expect(dry.out).toContain("Row 3, Bo Fern, site A01: does not fit.");
      expect(await occupants()).toHaveLength(1);
      expect(await run("import", "--why", "the old book", folder)).toMatchObject({ code: 0, out: "Stay: 1 added.\n" });
      expect(await occupants()).toHaveLength(2);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe("ten thousand stays", () => {
  it("come in whole", async () => {
    await openPark();
    await setRates({ currency: "USD", prices: [{ night: 4000 }] });
    const sites = `id,entry,pad outline (mm),slope along,slope across\n${Array.from({ length: 100 }, (_, i) => `s${i},back-in,"0 -2000; 12000 -2000; 12000 2000; 0 2000",0,0`).join("\n")}\n`;
    const rows = Array.from({ length: 10_000 }, (_, i) => fresh(2 + 3 * Math.floor(i / 100), 2, `s${i % 100}`, `Guest ${i}`));
    const began = performance.now(), plan = await planOf(file(`${NEW}${rows.join("")}`), file(sites, "sites.csv"));
    expect(plan.faults).toEqual([]);
    const planned = performance.now();
    await applyImport(manager, plan, "the old book");
    console.info(`10,000 stays planned in ${((planned - began) / 1000).toFixed(1)} s, written in ${((performance.now() - planned) / 1000).toFixed(1)} s, ${Math.round(process.memoryUsage().rss / 1e6)} MB`);
    expect(await client().stay.count()).toBe(10_000);
    expect(await client().stayQuote.count()).toBe(10_000);
    const out = writeStays(await listStayLines(manager)), again = performance.now();
    expect(await planOf(file(out))).toMatchObject({ faultCount: 0, stays: [], unchanged: { stays: 10_000 } });
    console.info(`and found unchanged in ${((performance.now() - again) / 1000).toFixed(1)} s`);
  });
});
