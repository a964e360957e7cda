import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { defaultPolicy, fitSite, policySchema, rankSites, type FitResult } from "@/lib/fit";
import { siteSchema, type Site } from "@/lib/park";
import { contains, nearestOnOutline, nearestOnSegment, type Point } from "@/lib/plane";
import { motorizedKinds, rigSchema, trailerKinds, type Rig } from "@/lib/rig";

interface Road { readonly id: string; readonly width: number; readonly points: readonly Point[] }
interface Park {
  readonly slug: string;
  readonly units: string;
  readonly policy: unknown;
  readonly loops: readonly { readonly id: string }[];
  readonly map: { readonly roads: readonly Road[]; readonly loops: readonly { readonly id: string }[]; readonly buildings: readonly { readonly kind: string; readonly outline: readonly Point[] }[] };
}

const park = read<Park>("park.json");
const entries = read<{ sites: { measuredOn?: string }[] }>("sites.json").sites;
const named = read<{ rigs: { name: string; note: string; rig: unknown }[] }>("rigs.json").rigs;
const sites: Site[] = entries.map((entry) => siteSchema.parse(entry));
const rigs: Rig[] = named.map(({ rig }) => rigSchema.parse(rig));

describe("the files", () => {
  it("hold about 70 sites in five loops and two dozen rigs of every kind, each with its own id", () => {
    expect(new Set(sites.map((s) => s.id)).size).toBe(sites.length);
    expect(new Set(rigs.map((r) => r.id)).size).toBe(rigs.length);
    expect(new Set(named.map((r) => r.name)).size).toBe(rigs.length);
    expect(sites.length).toBeGreaterThanOrEqual(65);
    expect(rigs.length).toBeGreaterThanOrEqual(24);
    expect([...new Set(sites.map((s) => s.loop))].sort()).toEqual(park.loops.map((l) => l.id).sort());
    expect([...new Set(rigs.map((r) => r.kind))].sort()).toEqual([...trailerKinds, ...motorizedKinds].sort());
  });

  it("give the park settings that the policy understands and every survey its day", () => {
    expect(policySchema.safeParse(park.policy).success).toBe(true);
    expect(park).toMatchObject({ slug: "quillback-meadow", units: "ft-in" });
    for (const { measuredOn } of entries) expect(measuredOn).toMatch(/^\d{4}-\d\d-\d\d$/);
  });

  it("show every shape a site may have: skew roads, concave pads and lots, far roads, spot heights, banks", () => {
    const some = (what: (s: Site) => unknown) => expect(sites.filter(what).length, String(what)).toBeGreaterThan(0);
    some((s) => s.entry === "pull-through" && s.enterFrom === "either" && s.exitEdge);
    some((s) => s.entry === "pull-through" && !s.exitEdge);
    some((s) => s.ground.heights);
    some((s) => s.hookups.some((h) => (h.groundZ ?? 0) < 0));
    some((s) => s.hookups.some((h) => (h.groundZ ?? 0) > 0));
    some((s) => concave(s.pad.outline));
    some((s) => s.lot && concave(s.lot.outline));
    some((s) => s.obstacles.some((o) => o.kind === "fence" && o.outline && concave(o.outline)));
    some((s) => s.hookups.length === 0);
    some((s) => s.rules?.accessible);
    for (const kind of ["tree", "wire", "fire-ring", "wheel-stop", "table", "rock", "stump", "fence", "lamp", "post"]) some((s) => s.obstacles.some((o) => o.kind === kind));
  });
});

describe("the park map", () => {
  const lots = sites.map((site) => ({ id: site.id, outline: (site.lot ?? site.pad).outline.map((p) => onMap(site, p)) }));

  it("keeps neighbouring lots apart", () => {
    const overlaps = lots.flatMap((a) => lots.filter((b) => b !== a && near(a.outline, b.outline)).flatMap((b) => (deepest(a.outline, b.outline) > SLIVER ? [`${a.id} in ${b.id}`] : [])));
    expect(overlaps).toEqual([]);
  });

  it("meets a road at every road edge, and the far road where there is one", () => {
    for (const site of sites) {
      for (const edge of [site.roadEdge, site.exitEdge]) {
        if (!edge) continue;
        const middle: Point = [(edge[0][0] + edge[1][0]) / 2, (edge[0][1] + edge[1][1]) / 2];
        const gaps = park.map.roads.map((road) => Math.abs(toRoad(onMap(site, middle), road)));
        expect(Math.min(...gaps), `${site.id}: gap between road edge and road`).toBeLessThan(500);
      }
      expect(Math.min(...park.map.roads.map((road) => Math.abs(toRoad(onMap(site, [0, 0]), road)))), `${site.id}: origin off the road`).toBeLessThan(500);
    }
  });

  it("keeps pads off roads and buildings", () => {
    for (const site of sites) {
      const pad = site.pad.outline.map((p) => onMap(site, p));
      for (const p of along(pad)) {
        for (const road of park.map.roads) expect(toRoad(p, road), `${site.id} on ${road.id}`).toBeGreaterThan(-500);
        for (const { kind, outline } of park.map.buildings) expect(contains(outline, p), `${site.id} under the ${kind}`).toBe(false);
      }
    }
  });
});

describe("the reasons", () => {
  const results: { rig: Rig; site: Site; result: FitResult }[] = [];
  beforeAll(() => {
    const byId = new Map(sites.map((s) => [s.id, s]));
    for (const rig of rigs) for (const result of rankSites(sites, rig, defaultPolicy)) results.push({ rig, site: byId.get(result.site)!, result });
  });

  const pairsWith = (test: (result: FitResult, site: Site, rig: Rig) => boolean) => results.filter(({ result, site, rig }) => test(result, site, rig)).length;
  const codes = (verdict?: string) => new Set(results.filter(({ result }) => !verdict || result.verdict === verdict).flatMap(({ result }) => result.reasons.map((r) => r.code.replace(/^(wish):.*/, "$1"))));

  it("leave nothing unsettled", () => {
    expect(pairsWith(({ verdict }) => verdict === "unsettled")).toBe(0);
  });

  it.each([
    "stand", "road", "fall:sewer", "level:side", "level:along", "loads", "plug", "rinse-only:water", "missing:power", "missing:water", "missing:sewer",
    "reach:power", "reach:water", "reach:sewer",
    "rule:maxLength", "rule:maxGuests", "rule:maxVehicles", "rule:pets", "rule:tents", "rule:accessible",
  ])("refuse some rig some site for %s", (code) => {
    expect(codes("no")).toContain(code);
  });

  it.each(["reach:power", "reach:water", "reach:sewer", "adapter", "pressure", "level:side", "level:along"])("ask some rig to bring something for %s", (code) => {
    expect(codes("gear")).toContain(code);
  });

  it.each(["left-in", "shed", "overflow", "tight", "wish"])("tell of %s where a rig fits", (code) => {
    expect(codes("fits")).toContain(code);
  });

  it.each([
    ["body", "tree"], ["body", "wire"], ["body", "rock"], ["body", "fence"], ["body", "hookup"], ["supports", "rock"],
    ["slide", "tree"], ["slide", "table"], ["slide", "hookup"],
  ])("refuse some rig because %s would meet %s", (part, other) => {
    const hits = results.flatMap(({ rig, site, result }) => result.reasons.filter((r) => r.code.startsWith("clear:") && kindOfPart(rig, r.parts[0]) === part && kindOfThing(site, r.parts[1]) === other));
    expect(hits.length).toBeGreaterThan(0);
  });

  it.each(["body", "slide", "entry", "ramp", "tow"])("refuse some rig because %s would leave the lot", (part) => {
    const hits = results.flatMap(({ rig, result }) => result.reasons.filter((r) => r.code.startsWith("lot:") && kindOfPart(rig, r.parts[0]) === part));
    expect(hits.length).toBeGreaterThan(0);
  });

  it("leave an awning in for a fire ring, a crown and the lot, a slide for a post, a folding bed for the road", () => {
    const leftIn = new Set(results.flatMap(({ rig, site, result }) =>
      result.reasons.filter((r) => r.code === "left-in").map((r) => `${kindOfPart(rig, r.parts[0])} ${kindOfThing(site, r.parts[1])}`)));
    for (const pair of ["awning fire-ring", "awning tree", "awning lot", "bed road"]) expect([...leftIn]).toContain(pair);
  });

  it("pass a crown and meet a trunk, and the other way round", () => {
    const limit = (what: (trunk: number) => boolean) => pairsWith(({ limit }, site) => {
      const tree = limit && site.obstacles.find((o) => o.kind === "tree" && limit.id.endsWith(`:${o.id}`));
      return Boolean(tree?.at && what(Math.abs(Math.hypot(limit!.to[0] - tree.at[0], limit!.to[1] - tree.at[1]) - tree.trunkRadius!)));
    });
    expect(limit((off) => off < 5)).toBeGreaterThan(0);
    expect(limit((off) => off > 500)).toBeGreaterThan(0);
  });

  it.each(["power", "water", "sewer"] as const)("meet the want for %s with own gear, with gear brought, and not at all", (service) => {
    expect(new Set(results.flatMap(({ result }) => result.needs.filter((n) => n.service === service).map((n) => n.ok)))).toEqual(new Set(["own", "gear", "no"]));
  });

  it("drain down a bank where level ground would not do", () => {
    const down = pairsWith(({ verdict, needs }, site) => verdict === "fits" && needs.some((n) => n.service === "sewer" && (site.hookups.find((h) => h.id === n.hookup)?.groundZ ?? 0) < 0));
    expect(down).toBeGreaterThan(0);
  });

  it("run through an adapter that is on board, through one to bring, and straight; shed nice loads", () => {
    expect(pairsWith(({ verdict, power }) => verdict === "fits" && power?.through !== null && power !== null)).toBeGreaterThan(0);
    expect(pairsWith(({ bring }) => bring.some((b) => b.code === "adapter"))).toBeGreaterThan(0);
    expect(pairsWith(({ verdict, power }) => verdict === "fits" && power?.through === null)).toBeGreaterThan(0);
    expect(pairsWith(({ verdict, power }) => verdict === "fits" && (power?.shed.length ?? 0) > 0 && power!.runs.length > 1)).toBeGreaterThan(0);
  });

  it("let a regulator decide at the high-pressure taps", () => {
    const atHighPressure = (has: boolean, verdict: string) => pairsWith((result, site, rig) =>
      result.verdict === verdict && rig.gear.regulator === has && result.needs.some((n) => n.service === "water" && (site.hookups.find((h) => h.id === n.hookup)?.pressure ?? 0) > defaultPolicy.maxPressure));
    expect(atHighPressure(true, "fits")).toBeGreaterThan(0);
    expect(atHighPressure(false, "gear")).toBeGreaterThan(0);
    expect(atHighPressure(false, "fits")).toBe(0);
  });

  it("level with nothing, with own blocks, with brought ones and not at all", () => {
    expect(pairsWith(({ level }) => level.side === 0 && level.along === 0)).toBeGreaterThan(0);
    for (const ok of ["own", "gear", "no"]) expect(pairsWith(({ level }) => level.side + level.along > 0 && level.ok === ok), ok).toBeGreaterThan(0);
  });

  it("put the vehicle in a stall, in line, on the hitch, in overflow, and nowhere where there is no overflow", () => {
    const where = new Set(results.filter(({ result }) => result.pose).map(({ result }) => result.vehicle));
    for (const place of ["stall", "in line", "hitched", "overflow"]) expect([...where]).toContain(place);
    const strict = policySchema.parse({ overflow: false });
    const sentAway = results.filter(({ rig, result }) => rig.id === "demo-tt-31" && result.verdict === "fits" && result.vehicle === "overflow");
    const answers = sentAway.map(({ site, rig }) => fitSite(site, rig, strict)).filter(({ verdict }) => verdict === "no");
    expect(answers.length).toBeGreaterThan(0);
    for (const { reasons } of answers) expect(reasons.map((r) => r.code)).toContain("vehicle");
  });

  it("give each rig the share of the park that someone who works there would expect", () => {
    const share = (id: string) => pairsWith(({ verdict }, _, rig) => rig.id === id && (verdict === "fits" || verdict === "gear")) / sites.length;
    expect(share("demo-van-17")).toBeGreaterThan(0.85);
    expect(share("demo-tt-31")).toBeGreaterThan(0.25);
    expect(share("demo-tt-31")).toBeLessThan(0.45);
    expect(share("demo-fw-42")).toBeGreaterThan(0.05);
    expect(share("demo-fw-42")).toBeLessThan(0.17);
    for (const rig of rigs) expect(share(rig.id), rig.id).toBeGreaterThan(0);
    for (const site of sites) expect(pairsWith(({ verdict }, s) => s === site && verdict !== "no"), site.id).toBeGreaterThan(0);
  });
});

/** Measured corners are rounded to 25 mm, so shared boundaries may cross by a sliver, mm. */
const SLIVER = 100;

function read<T>(file: string): T {
  return JSON.parse(readFileSync(new URL(`../../../seed/quillback-meadow/${file}`, import.meta.url), "utf8")) as T;
}

function onMap(site: Site, [x, y]: Point): Point {
  const { east, north, bearing } = site.place!;
  const a = (bearing * Math.PI) / 180;
  return [east + x * Math.sin(a) - y * Math.cos(a), north + x * Math.cos(a) + y * Math.sin(a)];
}

/** How far a point lies outside the road's surface, mm; below 0 on the road. */
function toRoad([x, y]: Point, { points, width }: Road): number {
  let least = Infinity;
  for (let i = 1; i < points.length; i++) {
    const [nx, ny] = nearestOnSegment([x, y], points[i - 1]!, points[i]!);
    least = Math.min(least, Math.hypot(x - nx, y - ny));
  }
  return least - width / 2;
}

/** Points along an outline, no further than half a metre apart. */
function along(outline: readonly Point[]): Point[] {
  return outline.flatMap(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    const steps = Math.ceil(Math.hypot(bx - ax, by - ay) / 500);
    return Array.from({ length: steps }, (_, k): Point => [ax + ((bx - ax) * k) / steps, ay + ((by - ay) * k) / steps]);
  });
}

/** How deep the rim of one outline reaches into another, mm; 0 where it stays outside. */
function deepest(a: readonly Point[], b: readonly Point[]): number {
  return Math.max(0, ...along(a).filter((p) => contains(b, p)).map((p) => {
    const [nx, ny] = nearestOnOutline(p, b);
    return Math.hypot(p[0] - nx, p[1] - ny);
  }));
}

function near([a]: readonly Point[], [b]: readonly Point[]): boolean {
  return Math.hypot(a![0] - b![0], a![1] - b![1]) < 60_000;
}

function concave(outline: readonly Point[]): boolean {
  const signs = outline.map(([bx, by], i) => {
    const [ax, ay] = outline.at(i - 1)!, [cx, cy] = outline[(i + 1) % outline.length]!;
    return Math.sign((bx - ax) * (cy - by) - (by - ay) * (cx - bx));
  });
  return signs.includes(1) && signs.includes(-1);
}

function kindOfPart(rig: Rig, id = ""): string {
  return rig.parts.find((p) => p.id === id)?.kind ?? id;
}

function kindOfThing(site: Site, id = ""): string {
  return site.obstacles.find((o) => o.id === id)?.kind ?? (site.hookups.some((h) => h.id === id) ? "hookup" : id);
}
