import { describe, expect, it } from "vitest";
import { geoFrame, siteFrame, valueAt, writeInventory, type Inventory, type Json } from "@/lib/exchange";
import { signedArea, type Point } from "@/lib/plane";
import { planOf, smallInventory } from "./support";

const features = () => (JSON.parse(writeInventory(smallInventory(), "geojson")![0]!.text) as { features: { geometry: { type: string; coordinates: unknown }; properties: Record<string, Json> }[] }).features;
const mapOf = (of: unknown) => ({ "sites.geojson": JSON.stringify({ type: "FeatureCollection", features: of }) });
const pad = () => features().find(({ properties }) => properties["thing"] === "pad")!;

describe("a park on the earth", () => {
  it("comes back from degrees within a tenth of a millimetre", () => {
    for (const latitude of [-60, 0, 43.6, 60]) {
      const frame = geoFrame({ latitude, longitude: -74.8, bearing: 33 });
      for (const p of [[0, 0], [1_000_000, -1_000_000], [-123_456, 987_654]] as Point[]) frame.toMap(frame.toPosition(p)).forEach((mm, i) => expect(Math.abs(mm - p[i]!)).toBeLessThan(0.1));
    }
  });

  /** Through coordinates fixed to the earth (WGS 84), and from there along east and north at the origin: nothing of it is shared with the frame. */
  const earth = (lat: number, lon: number): [number, number, number] => {
    const rad = Math.PI / 180, a = 6_378_137, f = 1 / 298.257223563, e2 = f * (2 - f), n = a / Math.sqrt(1 - e2 * Math.sin(lat * rad) ** 2);
    return [n * Math.cos(lat * rad) * Math.cos(lon * rad), n * Math.cos(lat * rad) * Math.sin(lon * rad), n * (1 - e2) * Math.sin(lat * rad)];
  };

  it.each([[0, 0.02], [40, 0.15], [50, 0.2], [60, 0.3]])("a point 1 km out at %d° of latitude lies within %d m of where the ellipsoid has it", (latitude, bound) => {
    const frame = geoFrame({ latitude, longitude: 10, bearing: 0 }), rad = Math.PI / 180, origin = earth(latitude, 10);
    let worst = 0;
    for (let i = 0; i < 64; i++) {
      const p: Point = [1e6 * Math.cos((i * Math.PI) / 32), 1e6 * Math.sin((i * Math.PI) / 32)], [lon, lat] = frame.toPosition(p), d = earth(lat, lon).map((c, k) => c - origin[k]!) as [number, number, number];
      const east = -Math.sin(10 * rad) * d[0] + Math.cos(10 * rad) * d[1], north = -Math.sin(latitude * rad) * (Math.cos(10 * rad) * d[0] + Math.sin(10 * rad) * d[1]) + Math.cos(latitude * rad) * d[2];
      worst = Math.max(worst, Math.hypot(east - p[0] / 1000, north - p[1] / 1000));
    }
    expect(worst).toBeLessThan(bound);
  });

  it("turns with the map's north", () => {
    const [lon, lat] = geoFrame({ latitude: 50, longitude: 10, bearing: 90 }).toPosition([0, 1_000_000]);
    expect(lon).toBeGreaterThan(10.01);
    expect(lat).toBeCloseTo(50, 6);
  });

  it("has sites placed as the map draws them", () => {
    const { toMap, toSite } = siteFrame({ east: 100, north: 200, bearing: 90 });
    expect(toMap([1000, 0]).map(Math.round)).toEqual([1100, 200]);
    expect(toSite(toMap([345, -678])).map(Math.round)).toEqual([345, -678]);
  });
});

describe("a map", () => {
  it("has outer rings counter-clockwise and closed", () => {
    const polygons = features().filter(({ geometry }) => geometry.type === "Polygon");
    expect(polygons.length).toBeGreaterThan(0);
    for (const { geometry } of polygons) {
      const [ring] = geometry.coordinates as [Point[]];
      expect(ring[0]).toEqual(ring.at(-1));
      expect(signedArea(ring.slice(0, -1))).toBeGreaterThan(0);
    }
  });

  it("is read whichever way its rings run, wherever they begin, with heights and with parts that are one", () => {
    const one = pad(), ring = (one.geometry.coordinates as [Point[]])[0], open = ring.slice(0, -1), other = [...open.slice(2), ...open.slice(0, 2)].reverse();
    const turned = { ...one, geometry: { type: "MultiPolygon", coordinates: [[[...other, other[0]].map((p) => [...p!, 287.5])]] } };
    expect(planOf(smallInventory(), mapOf([turned]))).toMatchObject({ faultCount: 0, sites: [] });
  });

  it("moves what lies elsewhere, to the millimetre", () => {
    const one = features().find(({ properties }) => properties["id"] === "oak")!, frame = geoFrame({ latitude: 50, longitude: 10, bearing: 0 }), at = siteFrame({ east: 10_000, north: 20_000, bearing: 30 });
    const plan = planOf(smallInventory(), mapOf([{ ...one, geometry: { type: "Point", coordinates: frame.toPosition(at.toMap([9100, -3250])) } }]));
    expect(valueAt(plan.sites[0]!.after!, ["obstacles", 0, "at"])).toEqual([9100, -3250]);
  });

  it.each([
    ["holes", (one: ReturnType<typeof pad>) => ({ ...one, geometry: { type: "Polygon", coordinates: [...(one.geometry.coordinates as unknown[]), []] } }), "holes"],
    ["several parts", (one: ReturnType<typeof pad>) => ({ ...one, geometry: { type: "MultiPolygon", coordinates: [one.geometry.coordinates, one.geometry.coordinates] } }), "many-parts"],
    ["a point for an outline", (one: ReturnType<typeof pad>) => ({ ...one, geometry: { type: "Point", coordinates: [10, 50] } }), "geometry"],
    ["metres for degrees", (one: ReturnType<typeof pad>) => ({ ...one, geometry: { type: "Polygon", coordinates: [[[500000, 4800000], [1, 1], [2, 2], [500000, 4800000]]] } }), "coordinates"],
    ["latitude before longitude", (one: ReturnType<typeof pad>) => ({ ...one, geometry: { type: "Polygon", coordinates: [(one.geometry.coordinates as [Point[]])[0].map(([lon, lat]) => [lat, lon])] } }), "far-away"],
    ["a site that is not there", (one: ReturnType<typeof pad>) => ({ ...one, properties: { ...one.properties, site: "zz" } }), "no-such-owner"],
    ["no thing", (one: ReturnType<typeof pad>) => ({ ...one, properties: { site: "a1", thing: "pond" } }), "no-thing"],
  ])("tells of %s at its feature", (_, change, code) => expect(planOf(smallInventory(), mapOf([change(pad())])).faults).toMatchObject([{ row: 1, code }]));

  it("asks for the park's origin where its record has none", () => {
    const inventory = { ...smallInventory(), park: { slug: "two-pines", name: "Two Pines" } };
    expect(planOf(inventory, mapOf([pad()])).faults).toMatchObject([{ code: "no-origin" }]);
    expect(writeInventory(inventory, "geojson")).toBeNull();
  });
});

describe("the way in on a map", () => {
  const approach = {
    road: { centreline: [[-4000, -30_000], [-4000, 30_000]], width: 5500, traffic: "both" }, driveable: [[[-1300, -3000], [10, -1800], [10, 1800], [-1300, 3000]], [[12_000, -1800], [14_000, -1800], [14_000, 1800]]],
    heightLimits: [{ id: "wire", kind: "wire", across: [[-2000, -9000], [-2000, 9000]], height: 4600 }, { id: "gate", kind: "gate", across: [[-6000, -9000], [-2000, -9000]] }], gradeBreaks: [{ at: -900, change: 4 }],
  } as unknown as Json;
  const inventory = (): Inventory => { const small = smallInventory(); return { ...small, sites: small.sites.map(({ record, version }) => ({ version, record: { ...(record as object), approach } as Json })) }; };
  const drawn = () => (JSON.parse(writeInventory(inventory(), "geojson")![0]!.text) as { features: ReturnType<typeof features> }).features;
  const of = (thing: string) => drawn().filter(({ properties }) => properties["thing"] === thing);

  it("is drawn as lines and outlines with their widths and heights, and read back as no change", () => {
    expect(of("road")).toMatchObject([{ geometry: { type: "LineString" }, properties: { site: "a1", width: 5500, traffic: "both" } }]);
    expect(of("driveable").map(({ geometry }) => geometry.type)).toEqual(["Polygon", "Polygon"]);
    expect(of("height-limit").map(({ properties }) => [properties["id"], properties["kind"], properties["height"]])).toEqual([["wire", "wire", 4600], ["gate", "gate", undefined]]);
    expect(planOf(inventory(), mapOf(drawn()))).toMatchObject({ faultCount: 0, sites: [], unchanged: { sites: 1 } });
  });

  it("is read where the record had none; what a map cannot say is asked for", () => {
    const plan = planOf(smallInventory(), mapOf([...of("road"), ...of("driveable"), ...of("height-limit")]));
    expect(plan.faultCount).toBe(0);
    expect(valueAt(plan.sites[0]!.after!, ["approach"])).toEqual({ ...(approach as object), gradeBreaks: undefined });
    const [road] = of("road"), bare = { ...road!, properties: { site: "a1", thing: "road" } };
    expect(planOf(smallInventory(), mapOf([of("driveable")[0], bare])).faults).toMatchObject([{ row: 2, code: "record", at: "width" }]);
    expect(planOf(smallInventory(), mapOf(of("driveable"))).faults).toMatchObject([{ code: "record" }]);
  });

  it("has the grounds that the file has, and keeps height limits that it does not name until they are to be taken out", () => {
    const [first] = of("driveable"), [wire] = of("height-limit");
    const after = (missing: "keep" | "remove") => planOf(inventory(), mapOf([first, wire]), missing).sites[0]!.after!;
    expect(valueAt(after("keep"), ["approach", "driveable"])).toEqual([(approach as { driveable: Json[] }).driveable[0]]);
    expect([(valueAt(after("keep"), ["approach", "heightLimits"]) as Json[]).length, (valueAt(after("remove"), ["approach", "heightLimits"]) as Json[]).length]).toEqual([2, 1]);
  });
});
