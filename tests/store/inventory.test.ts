import "./store-url";
import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, inject, describe, expect, it } from "vitest";
import { pageLimits, planImport, writeInventory, type ExchangeFile, type Format, type Json } from "@/lib/exchange";
import { closePool } from "@/lib/jobs/fit-pool";
import { tellOfSiteChanges } from "@/lib/jobs/site-effects";
import { client } from "@/lib/store/client";
import { applyImport, readInventory, saveOrigin, type ImportOutcome } from "@/lib/store/inventory";
import { createUpload, dropUpload, getUpload, isBeingReadIn, listImports, settleUpload } from "@/lib/store/inventory-uploads";
import { loadPark, readParkFiles } from "@/lib/store/load-park";
import { changeSites, listRevisions, type Manager } from "@/lib/store/site-changes";
import { listOpenEffects } from "@/lib/store/site-effects";
import { bookStay } from "@/lib/store/stays";
import type { StayTransaction } from "@/lib/store/stays-transaction";
import { smallPark, withStore } from "./client";
import { ask, desk } from "./stays-park";

withStore();
afterAll(closePool);

const manager: Manager = { kind: "manager", account: "morgan@two-pines.example", park: "two-pines" };
const file = (name: string, text: string): ExchangeFile => ({ name, bytes: new TextEncoder().encode(text) });
const planOf = async (actor: Manager, ...files: ExchangeFile[]) => planImport(files, await readInventory(actor), "keep", pageLimits);
const exported = async (actor: Manager, format: Format) => writeInventory(await readInventory(actor), format)!.map(({ name, text }) => file(name, text));

describe("an inventory in the database", () => {
  it.each(["json", "csv", "geojson"] as const)("comes out and goes in without a change, the demo park as %s", async (format) => {
    await loadPark(readParkFiles("seed/quillback-meadow"));
    const actor: Manager = { ...manager, park: "quillback-meadow" }, before = await exported(actor, "json");
    expect(await planOf(actor, ...(await exported(actor, format)))).toMatchObject({ faultCount: 0, sites: [], rigs: [], park: null, settingsLeft: false, unchanged: { sites: 72, rigs: 27 } });
    expect(await exported(actor, "json")).toEqual(before);
  });

  it("makes the same park where there is none of its sites, byte for byte", async () => {
    await loadPark(readParkFiles("seed/quillback-meadow"));
    const actor: Manager = { ...manager, park: "quillback-meadow" }, files = await exported(actor, "json");
    await client().site.deleteMany();
    await client().rig.deleteMany();
    await applyImport(actor, await planOf(actor, ...files), "");
    expect(await exported(actor, "json")).toEqual(files);
  });

  it("takes a change in with its revision, and adds and removes", async () => {
    await loadPark(smallPark());
    const plan = await planOf(manager, file("sites.csv", "id,entry,max length (m),pad outline (m),slope along,slope across\na01,,9.5,,,\nb07,back-in,,0 -2; 12 -2; 12 2; 0 2,0,0\n".replace("0 -2; 12 -2; 12 2; 0 2", '"0 -2; 12 -2; 12 2; 0 2"').replace("a01,,9.5,,,", 'a01,back-in,9.5,"0 -1.8; 13.7 -1.8; 13.7 1.8; 0 1.8",1.5,-0.8')));
    expect(plan.faults).toEqual([]);
    expect(await applyImport(manager, plan, "spring survey")).toEqual({ sites: { added: 1, changed: 1, removed: 0 }, rigs: { added: 0, changed: 0, removed: 0 }, park: false });
    const [latest] = await listRevisions(manager, "a01");
    expect(latest).toMatchObject({ number: 2, cause: "import", who: manager.account, why: "spring survey", record: { rules: { maxLength: 9500 }, surveyorsRemark: "kept as it came" } });
    expect((await readInventory(manager)).sites.map(({ record }) => (record as { id: string }).id)).toEqual(["a02", "a01", "b07"]);
  });

  it("saves nothing where one of the sites was changed meanwhile", async () => {
    await loadPark(smallPark());
    const plan = await planOf(manager, file("sites.csv", "id,tents\na01,3\na02,3\n"));
    const a02 = smallPark().sites.sites[0]!;
    await changeSites(manager, [{ siteId: "a02", base: 1, record: { ...a02, entry: "back-in", loop: "Z" } as never }], { cause: "edit", why: "" });
    await expect(applyImport(manager, plan, "")).rejects.toMatchObject({ kind: "stale" });
    expect((await listRevisions(manager, "a01")).map(({ number }) => number)).toEqual([1]);
  });

  it("saves nothing where a rig was changed meanwhile, the sites beside it included", async () => {
    await loadPark(smallPark());
    const plan = await planOf(manager, file("sites.csv", "id,tents\na01,3\n"), file("rigs.csv", "id,name\nshort-van,Old van\n"));
    expect(plan.rigs).toHaveLength(1);
    await client().rig.updateMany({ data: { name: "Another name" } });
    await expect(applyImport(manager, plan, "")).rejects.toMatchObject({ kind: "stale" });
    expect((await listRevisions(manager, "a01")).map(({ number }) => number)).toEqual([1]);
  });

  it("is for managers of the park alone", async () => {
    await loadPark(smallPark());
    for (const other of [{ ...manager, kind: "desk" as const }]) {
      await expect(readInventory(other)).rejects.toMatchObject({ kind: "missing" });
      await expect(createUpload(other, [], "keep")).rejects.toMatchObject({ kind: "missing" });
      await expect(saveOrigin(other, { latitude: 1, longitude: 1, bearing: 0 })).rejects.toMatchObject({ kind: "missing" });
    }
  });

  it("keeps what else a park's origin says where it is placed anew", async () => {
    const files = smallPark();
    await loadPark({ ...files, park: { ...files.park, origin: { what: "the iron pin" } } });
    await saveOrigin(manager, { latitude: 50, longitude: 10, bearing: 0 });
    expect((await readInventory(manager)).park).toMatchObject({ origin: { what: "the iron pin", latitude: 50, longitude: 10, bearing: 0 } });
  });

  it("reads an upload in once, and keeps what came of it without its files", async () => {
    await loadPark(smallPark());
    const id = await createUpload(manager, [file("sites.csv", "id,tents\na01,3\n")], "keep"), upload = (await getUpload(manager, id))!;
    const plan = await planOf(manager, ...upload.files);
    await applyImport(manager, plan, "", { also: (at, outcome) => settleUpload(at, id, outcome) });
    expect(await getUpload(manager, id)).toMatchObject({ files: [], outcome: { sites: { changed: 1 } } });
    await expect(applyImport(manager, { ...plan, sites: [] }, "", { also: (at, outcome) => settleUpload(at, id, outcome) })).rejects.toMatchObject({ kind: "stale" });
    await dropUpload(manager, id);
    expect(await listImports(manager, 5)).toHaveLength(1);
  });
});

describe("while an inventory goes in", () => {
  const many = (n: number): Json[] => Array.from({ length: n }, (_, i) => ({ ...(smallPark().sites.sites[0] as unknown as Record<string, Json>), id: `x${i}` }));

  it("tells how many sites are written, from none to all of them, whatever becomes of each", async () => {
    await loadPark(smallPark());
    // 1,300 are added, a02 is changed and a01 taken out: more than one part of each kind that comes in parts.
    const plan = planImport([file("sites.json", JSON.stringify({ sites: [...many(1300), { ...smallPark().sites.sites[0], loop: "Z" }] }))], await readInventory(manager), "remove", pageLimits);
    expect(plan).toMatchObject({ faultCount: 0, sites: { length: 1302 } });
    const told: [number, number][] = [];
    await applyImport(manager, plan, "", { onProgress: (...one) => told.push(one) });
    expect(told).toEqual([0, 1, 2, 502, 1002, 1302].map((done) => [done, 1302]));
  });

  it("saves nothing where the one who listens throws on the way, and lets the same be read in afterwards", async () => {
    await loadPark(smallPark());
    const id = await createUpload(manager, [file("sites.json", JSON.stringify({ sites: many(1300) }))], "keep");
    const plan = await planOf(manager, ...(await getUpload(manager, id))!.files), also = (at: StayTransaction, outcome: ImportOutcome) => settleUpload(at, id, outcome);
    const broken = new Error("nobody listens");
    await expect(applyImport(manager, plan, "", { also, onProgress: (done) => { if (done >= 1000) throw broken; } })).rejects.toMatchObject({ cause: broken });
    expect(await client().site.count()).toBe(2);
    expect(await getUpload(manager, id)).toMatchObject({ outcome: null, files: { length: 1 } });
    await applyImport(manager, plan, "", { also });
    expect(await client().site.count()).toBe(1302);
  });

  it("is known to be going in for as long as it does, and a second reading in of it is refused", async () => {
    await loadPark(smallPark());
    const id = await createUpload(manager, [file("sites.json", JSON.stringify({ sites: many(600) }))], "keep"), plan = await planOf(manager, ...(await getUpload(manager, id))!.files);
    expect(await isBeingReadIn(manager, id)).toBe(false);
    let second: Promise<unknown> | undefined, during: boolean | undefined;
    await applyImport(manager, plan, "", { also: async (at, outcome) => {
      await settleUpload(at, id, outcome);
      during = await isBeingReadIn(manager, id);
      second = applyImport(manager, plan, "", { also: (then, same) => settleUpload(then, id, same) }).catch((error: unknown) => error);
    } });
    expect(during).toBe(true);
    expect(await second).toMatchObject({ kind: "stale" });
    expect(await isBeingReadIn(manager, id)).toBe(false);
    expect(await isBeingReadIn({ ...manager, park: "elsewhere" }, id)).toBe(false);
    expect(await client().siteRevision.count({ where: { cause: "import" } })).toBe(600);
  });
});

describe("the command", () => {
  const run = (...args: string[]) => new Promise<{ code: number; out: string; err: string }>((resolve) => {
    execFile(process.execPath, ["scripts/run.mjs", "lib/cli/inventory.ts", ...args], { env: { ...process.env, DATABASE_URL: inject("databaseUrl") } }, (error, out, err) => resolve({ code: error ? Number(error.code) : 0, out, err }));
  });

  it("takes an inventory out, tells every fault of what comes in and whom it turns, and takes it in", async () => {
    await loadPark(smallPark());
    const [{ stay }, { stay: anywhere }] = [await bookStay(desk, "two-pines", { request: ask(3, 2) }), await bookStay(desk, "two-pines", { request: ask(4, 2, { site: undefined }) })];
    const folder = mkdtempSync(path.join(tmpdir(), "padwright-inventory-"));
    try {
      expect(await run("export", "--format", "csv", "--out", folder)).toMatchObject({ code: 0 });
      expect(await run("import", "--dry-run", folder)).toMatchObject({ code: 0, out: "Nothing. The park is exactly as these files have it.\n" });
      const sites = path.join(folder, "sites.csv"), text = readFileSync(sites, "utf8");
      writeFileSync(sites, text.replace("a01,A01,A,back-in", "a01,A01,A,sideways"));
      expect(await run("import", folder)).toMatchObject({ code: 1, out: "", err: expect.stringContaining("sites.csv, row 3, “entry”: “sideways” is none of back-in, pull-through.") as string });
      // Where the pads end after two and a half meters, no van stands on them.
      writeFileSync(sites, text.replace("a01,A01,A,back-in", "a01,A01,B,back-in").replaceAll("13700", "2500"));
      const lost = new RegExp(`^Would no longer fit \\(2\\):\n  Ada Quill, ${stay.reference}: site a01, .*\n  Ada Quill, ${anywhere.reference}: any site that fits, .*\nWhen the files are read in, .*desk’s list`, "m");
      const { code, out } = await run("import", "--dry-run", folder);
      expect([code, out]).toEqual([0, expect.stringContaining("A01: loop: A → B")]);
      expect(out).toMatch(lost);
      expect(await run("import", folder)).toMatchObject({ code: 0, out: expect.stringMatching(lost) as string });
      expect((await listRevisions(manager, "a01"))[0]).toMatchObject({ cause: "import", record: { loop: "B" } });
      await tellOfSiteChanges();
      expect((await listOpenEffects(manager, "two-pines")).map((effect) => [effect.stay, effect.turn])).toEqual([[stay.id, "shut"], [anywhere.id, "shut"]]);
      expect(await run("import", path.join(folder, "nowhere"))).toMatchObject({ code: 2 });
      expect(await run("export", "--park", "nowhere", "--out", folder)).toMatchObject({ code: 2, err: "There is no park nowhere. There is: two-pines.\n" });
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe("an inventory of ten thousand sites, each with as much on it as those of the demo park", () => {
  it("goes in whole within the bounds of a page, each with its revision, and is known again as tables", async () => {
    await loadPark(smallPark());
    const demo = (readParkFiles("seed/quillback-meadow").sites as { sites: Record<string, Json>[] }).sites;
    const sites = Array.from({ length: 10_000 }, (_, i): Json => ({ ...demo[i % demo.length]!, id: `x${i}` }));
    const files = (format: "json" | "csv") => writeInventory({ park: {}, sites: sites.map((record) => ({ record, version: 1 })), rigs: [] }, format)!.filter(({ name }) => !/^(park|rig)/.test(name)).map(({ name, text }) => file(name, text));
    const plan = await planOf(manager, ...files("json"));
    expect(plan).toMatchObject({ faultCount: 0, sites: { length: 10_000 } });
    await applyImport(manager, plan, "the whole valley");
    expect(await client().siteRevision.count({ where: { cause: "import" } })).toBe(10_000);
    expect(await planOf(manager, ...files("csv"))).toMatchObject({ faultCount: 0, sites: [], unchanged: { sites: 10_002 } });
  });
});
