import { describe, expect, it } from "vitest";
import { demoInventory, exported, planOf, smallInventory } from "./support";
import { bounds, pageLimits, planImport, valueAt, type Json } from "@/lib/exchange";

describe("files that were handed out", () => {
  it.each(["json", "csv", "geojson"] as const)("change nothing when they are read in again: %s", (format) => {
    const inventory = demoInventory();
    for (const missing of ["keep", "remove"] as const) {
      const plan = planImport(exported(inventory, format), inventory, missing, pageLimits);
      expect(plan).toMatchObject({ faultCount: 0, sites: [], rigs: [], park: null, settingsLeft: false, unchanged: { sites: 72, rigs: 27 } });
    }
  });

  it.each(["json", "csv"] as const)("make an empty park whole: %s", (format) => {
    const inventory = demoInventory(), plan = planImport(exported(inventory, format), { ...inventory, sites: [], rigs: [] }, "keep", pageLimits);
    expect(plan.faults).toEqual([]);
    const made = { ...inventory, sites: plan.sites.map(({ after }) => ({ record: after!, version: 1 })), rigs: plan.rigs.map(({ after }) => ({ name: String(valueAt(after!, ["name"])), note: (valueAt(after!, ["note"]) as string | undefined) ?? null, record: valueAt(after!, ["rig"])! })) };
    expect(exported(made, format)).toEqual(exported(inventory, format));
  });
});

describe("a table", () => {
  it("changes what it says and leaves everything else of a record", () => {
    const plan = planOf(smallInventory(), { "sites.csv": "Site,Max Length (ft),Tents\na1,34' 6\",2\n" });
    expect(plan.faults).toEqual([]);
    expect(plan.sites).toHaveLength(1);
    expect(plan.sites[0]).toMatchObject({ id: "a1", what: "changed", base: 3, after: { note: "kept as it came", rules: { maxLength: 10515.6, tents: 2 }, obstacles: [{ id: "oak" }] } });
    expect(plan.sites[0]!.changes.map(({ column }) => column)).toEqual(["max length", "tents"]);
  });

  it("adds a site, with its obstacles from another file", () => {
    const plan = planOf(smallInventory(), {
      "obstacles.csv": "site;id;kind;x (m);y (m);radius (m);from (m);to (m)\nb1;rock;rock;3,5;-2,2;0,4;0;0,5\n",
      "sites.csv": "id,entry,pad outline (ft),slope along,slope across\nb1,Back In,0 -6; 40 -6; 40 6; 0 6,1.2 %,0\n".replace("0 -6; 40 -6; 40 6; 0 6", '"0 -6; 40 -6; 40 6; 0 6"'),
    });
    expect(plan.faults).toEqual([]);
    expect(plan.sites[0]).toMatchObject({ id: "b1", what: "added", base: null, after: { entry: "back-in", pad: { outline: [[0, -1828.8], [12192, -1828.8], [12192, 1828.8], [0, 1828.8]] }, ground: { along: 1.2, across: 0 }, obstacles: [{ id: "rock", at: [3500, -2200], radius: 400 }] } });
  });

  it("keeps what it does not name, and takes it out only when told to", () => {
    const table = { "hookups.csv": "site,id,kind,x (mm),y (mm),height (mm)\na1,tap,water,8400,-2200,700\n" };
    const ids = (plan: ReturnType<typeof planOf>) => (valueAt(plan.sites[0]!.after!, ["hookups"]) as { id: string }[]).map(({ id }) => id);
    expect(ids(planOf(smallInventory(), table))).toEqual(["ped", "tap"]);
    expect(ids(planOf(smallInventory(), table, "remove"))).toEqual(["tap"]);
    expect(planOf(smallInventory(), { "sites.csv": "id,entry,pad outline (mm),slope along,slope across\nz9,back-in,\"0 0; 9000 0; 9000 3000\",0,0\n" }, "remove").sites.map(({ id, what }) => [id, what])).toEqual([["z9", "added"], ["a1", "removed"]]);
  });

  it("empties a cell to leave a number out", () => {
    const plan = planOf(smallInventory(), { "sites.csv": "id,max length (mm),label\na1,,A-1\n" });
    expect(plan.faults).toEqual([]);
    expect(valueAt(plan.sites[0]!.after!, ["rules"])).toBeUndefined();
  });

  describe("of a surveyed site", () => {
    const pole = { id: "m1", of: "obstacles.oak.crownFrom", how: "pole", error: 25, on: "2026-05-01", by: "AB", readings: { length: 3900 } }, tape = { id: "m2", of: "hookups.ped.at", how: "tape", error: 20, on: "2026-05-01" };
    const surveyed = () => { const inventory = smallInventory(); return { ...inventory, sites: [{ record: { ...(inventory.sites[0]!.record as object), survey: { measurements: [pole, tape] } } as unknown as Json, version: 3 }] }; };
    const surveyAfter = (files: Readonly<Record<string, string>>, missing: "keep" | "remove" = "keep") => {
      const plan = planOf(surveyed(), files, missing);
      expect(plan.faults).toEqual([]);
      return valueAt(plan.sites[0]!.after!, ["survey", "measurements"]);
    };
    const told = (change: object, measurements: readonly object[] = [pole, tape]) => JSON.stringify({ sites: [{ ...(surveyed().sites[0]!.record as object), ...change, survey: { measurements } }] });
    const oak = (crownFrom: number) => ({ obstacles: [{ id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom, crownTo: 11000 }] });

    it("takes no number as measured that came from a file", () => {
      const files = { "obstacles.csv": "site,id,crown from (mm)\na1,oak,4500\n" };
      expect(surveyAfter(files)).toEqual([tape]);
      expect(planOf(surveyed(), files).sites[0]!.changes.map(({ column, field }) => column ?? field)).toEqual(["crown from", "survey"]);
      expect(surveyAfter({ "hookups.csv": "site,id,x (mm)\na1,ped,8100\n" })).toEqual([pole]);
      expect(surveyAfter({ "obstacles.csv": "site,id\na1,oak\n", "hookups.csv": "site,id,kind\n", "sites.csv": "id,label\na1,A-1\n" }, "remove"), "what is taken out takes its measurement along").toEqual([pole]);
      expect(surveyAfter({ "obstacles.csv": "site,id,crown from (mm),crown radius (mm)\na1,oak,3900,2700\n", "sites.csv": "id,surface\na1,paved\n" })).toEqual([pole, tape]);
    });

    it("does so on a map", () => {
      const map = JSON.parse(new TextDecoder().decode(exported(surveyed(), "geojson")[0]!.bytes)) as { features: { properties: { thing: string }; geometry: { coordinates: number[] } }[] };
      const ped = map.features.find(({ properties }) => properties.thing === "hookup")!;
      ped.geometry.coordinates[0]! += 0.00001;
      expect(surveyAfter({ "map.geojson": JSON.stringify(map) })).toEqual([pole]);
    });

    it("takes a measurement in a JSON file as the file says it, unless it reads another number", () => {
      const anew = { ...pole, on: "2026-09-01", readings: { length: 4500 } };
      expect(surveyAfter({ "sites.json": told(oak(4500), [anew, tape]) })).toEqual([anew, tape]);
      expect(surveyAfter({ "sites.json": told(oak(4500)) })).toEqual([tape]);
      expect(surveyAfter({ "sites.json": told(oak(4500), [{ ...pole, readings: undefined }]) })).toEqual([{ ...pole, readings: undefined }].map((one) => JSON.parse(JSON.stringify(one))));
      expect(surveyAfter({ "sites.json": told(oak(4500), [anew, tape]), "obstacles.csv": "site,id,crown from (mm)\na1,oak,5000\n" }), "a table beside it changes the number again").toEqual([tape]);
    });
  });

  it("tells every fault at once, with its row and its column", () => {
    const plan = planOf(smallInventory(), {
      "sites.csv": "id,entry,Max length (ft),pets,measured on\na1,sideways,forty,maybe,18.4.26\na1,back-in,,,\n,back-in,,,\n",
      "obstacles.csv": "site,id,crown from (mm),x (yd)\na1,oak,12000,1\nnowhere,oak,1,1\n",
    });
    expect(plan.faults.map(({ file, row, column, code }) => [file, row, column, code])).toEqual([
      ["obstacles.csv", 1, "x (yd)", "unknown-unit"],
      ["sites.csv", 2, "entry", "one-of"], ["sites.csv", 2, "Max length (ft)", "length"], ["sites.csv", 2, "pets", "yes-no"], ["sites.csv", 2, "measured on", "day"],
      ["sites.csv", 3, "id", "twice"], ["sites.csv", 4, "id", "no-id"],
      ["obstacles.csv", 3, "site", "no-such-owner"],
      ["obstacles.csv", 2, undefined, "record"],
    ]);
  });

  it("tells what the schema finds at the cell that holds it", () => {
    const plan = planOf(smallInventory(), { "obstacles.csv": "site,id,crown from (mm),crown to (mm)\na1,oak,12000,11000\n" });
    expect(plan.faults).toEqual([{ file: "obstacles.csv", row: 2, column: "crown to (mm)", code: "record", need: "must not be below crownFrom" }]);
  });

  it("asks once a column for a unit that neither header nor cells name", () => {
    const plan = planOf(smallInventory(), { "sites.csv": "id,max length\na1,34.5\n" });
    expect(plan.faults).toEqual([{ file: "sites.csv", row: 1, column: "max length", code: "no-unit", count: 1, need: "max length (mm), max length (cm), max length (m), max length (in), max length (ft)" }]);
    expect(planOf(smallInventory(), { "sites.csv": "id,max length\na1,34.5 ft\n" }).faults).toEqual([]);
  });

  it("passes over columns of one's own, and says so", () => {
    const plan = planOf(smallInventory(), { "sites.csv": "id,painted\na1,yes\n" });
    expect(plan).toMatchObject({ faultCount: 0, sites: [], files: [{ what: "sites", rows: 1, passed: ["painted"] }] });
  });

  it("is known by its headers where its name says nothing", () => {
    expect(planOf(smallInventory(), { "export (3).csv": "site,id,trunk radius (mm)\na1,oak,300\n" }).files[0]).toMatchObject({ what: "obstacles" });
    expect(planOf(smallInventory(), { "things.csv": "a,b\n1,2\n" }).faults).toMatchObject([{ code: "unknown-table" }]);
  });
});

describe("files made to do harm", () => {
  const deep = `${"[".repeat(100_000)}${"]".repeat(100_000)}`;
  const utf16 = (text: string) => Uint8Array.from([0xff, 0xfe, ...new Uint8Array(Uint16Array.from([...text].map((sign) => sign.charCodeAt(0))).buffer)]);

  it.each([
    ["deep JSON", "sites.json", `{"sites":${deep}}`, "too-deep"], ["a hundred thousand objects in each other", "sites.json", '{"a":'.repeat(100_000), "too-deep"], ["broken JSON", "sites.json", '{"sites":[', "not-json"], ["JSON that is none of ours", "x.json", "{}", "unknown-file"],
    ["an old encoding", "sites.csv", Uint8Array.from([0x69, 0x64, 0x0a, 0xe9, 0x0a]), "encoding"], ["half a character", "sites.csv", Uint8Array.from([0x69, 0x64, 0x0a, 0xc3]), "encoding"], ["NUL", "sites.csv", "id\na\0b\n", "nul"], ["a packed file", "sites.csv", Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0]), "packed"], ["nothing", "sites.csv", "", "empty"],
    ["blanks alone", "sites.csv", " \n ", "empty"], ["more than the bound", "sites.csv", new Uint8Array(bounds.bytes + 1).fill(97), "too-large"], ["more records than rows may be", "sites.json", `{"sites":[${"{},".repeat(bounds.rows)}{}]}`, "too-many-rows"], ["more values than may be", "sites.json", `{"sites":[{"id":"a","x":[${"{},".repeat(bounds.values)}{}]}]}`, "too-many-values"],
    ["as many obstacles as may be, of one name", "obstacles.csv", `site,id\n${"a1,x\n".repeat(bounds.rows)}`, "twice"], ["an outline of five thousand corners", "sites.csv", `id,pad outline (mm)\na1,"${Array.from({ length: 5000 }, (_, i) => `${i} ${i % 7}`).join("; ")}"\n`, "record"],
  ])("are refused: %s", (_, name, text, code) => {
    const plan = planOf(smallInventory(), { [name]: text });
    expect(plan.faults[0]).toMatchObject({ file: name, code });
    expect(plan.faults.length).toBeLessThanOrEqual(500);
  });

  it("do not reach what records inherit", () => {
    const plan = planOf(smallInventory(), { "sites.json": '{"sites":[{"id":"__proto__","__proto__":{"polluted":1}}]}', "obstacles.csv": "site,id\nconstructor,__proto__\n" });
    expect(plan.faultCount).toBeGreaterThan(0);
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });

  it("are read in UTF-16 where it is marked, as spreadsheets save it", () => {
    expect(planOf(smallInventory(), { "sites.txt": utf16("id\tlabel\r\na1\tÄ-1\r\n") }).sites[0]).toMatchObject({ after: { label: "Ä-1" } });
  });
});
