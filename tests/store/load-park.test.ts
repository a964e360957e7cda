import { describe, expect, it } from "vitest";
import { client } from "@/lib/store/client";
import { loadPark, readParkFiles, ParkFaults, type ParkFiles } from "@/lib/store/load-park";
import { getDefaultPark, getPark, listParks } from "@/lib/store/parks";
import { listRigs } from "@/lib/store/rigs";
import { getSite, listSiteRecords, listSites } from "@/lib/store/sites";
import { smallPark, withStore } from "./client";

withStore();

async function faultsOf(files: ParkFiles): Promise<readonly string[]> {
  const error = await loadPark(files).then(() => null, (reason: unknown) => reason);
  if (!(error instanceof ParkFaults)) throw new Error(`expected faults, got ${String(error)}`);
  return error.faults;
}

describe("loadPark", () => {
  it("keeps the park, its sites in the file's order, and its rigs", async () => {
    expect(await loadPark(smallPark())).toEqual({ slug: "two-pines", name: "Two Pines", sites: 2, rigs: 1 });
    expect(await getPark("two-pines")).toMatchObject({ name: "Two Pines", units: "metric", policy: { clearance: 200, touch: 5 }, record: smallPark().park });
    expect((await listSites("two-pines")).map(({ id }) => id)).toEqual(["a02", "a01"]);
    expect(await listRigs("two-pines")).toMatchObject([{ id: "short-van", name: "Short van", note: "no hookups", rig: { kind: "van" } }]);
    expect(await getSite("two-pines", "a01")).toMatchObject({ id: "a01", label: "A01" });
  });

  it("hands records out as they came in, fields of others included", async () => {
    const files = smallPark();
    await loadPark(files);
    expect(await listSiteRecords("two-pines")).toEqual(files.sites.sites);
  });

  it("reports every fault of every file and saves nothing", async () => {
    const files = structuredClone(smallPark()) as unknown as { park: { slug: string }; sites: { sites: Record<string, unknown>[] }; rigs: { rigs: { rig: { kind: string } }[] } };
    files.park.slug = "Two Pines";
    files.sites.sites[0]!["entry"] = "sideways";
    files.sites.sites[1]!["pad"] = { outline: [[0, 0]] };
    files.rigs.rigs[0]!.rig.kind = "boat";
    const faults = await faultsOf(files);
    for (const start of ["park.json: slug", "sites.json: sites.0.entry", "sites.json: sites.1.pad.outline", "rigs.json: rigs.0.rig.kind"]) {
      expect(faults.some((fault) => fault.startsWith(start)), start).toBe(true);
    }
    expect(await client().park.count()).toBe(0);
  });

  it("refuses a site id that comes twice", async () => {
    const files = smallPark();
    files.sites.sites[1]!.id = "a02";
    expect(await faultsOf(files)).toEqual(['sites.json: sites.1 repeats the id "a02"']);
  });

  it("refuses a park that is there already and leaves it alone", async () => {
    await loadPark(smallPark());
    await expect(loadPark({ ...smallPark(), sites: { sites: [] } })).rejects.toMatchObject({ name: "StoreError", kind: "taken" });
    expect(await listSites("two-pines")).toHaveLength(2);
  });

  it("keeps two parks with the same site ids apart", async () => {
    await loadPark(smallPark("first"));
    await loadPark(smallPark("second"));
    expect(await listSites("first")).toHaveLength(2);
    expect((await listParks()).map(({ slug }) => slug)).toEqual(["first", "second"]);
    expect((await getDefaultPark())?.slug).toBe("first");
  });

  it("names a file that is not there", () => {
    expect(() => readParkFiles("/nowhere")).toThrow(/park.json: cannot be read/);
  });

  it("finds nothing in an empty database", async () => {
    expect(await getDefaultPark()).toBeNull();
    expect(await getPark("two-pines")).toBeNull();
    expect(await listSites("two-pines")).toEqual([]);
  });
});
