import { describe, expect, it } from "vitest";
import { findAccess, trainOf } from "@/lib/access";
import { defaultPolicy } from "@/lib/fit";
import { siteSchema, type SiteInput } from "@/lib/park";
import { rigSchema, typicalRig } from "@/lib/rig";
import { backedIn, backInSite, coach, randomWayScene, trailer, withDrive } from "../../scenes/way-scenes";
import { wildWayScene } from "../../scenes/wild-way-scenes";

const half = trailer.body.width / 2, { clearance, touch, wireRoom } = defaultPolicy;
const post = (id: string, x: number, y: number, radius = 100) => ({ id, kind: "post", at: [x, y] as [number, number], radius, from: 0, to: 1200 });
const access = (site: ReturnType<typeof backInSite>, rig = trailer, pose = backedIn(site)) => findAccess(site, rig, [pose], defaultPolicy)!;

describe("a way in", () => {
  it("is said nothing of where nobody measured it", () => {
    expect(findAccess({ ...backInSite(), approach: undefined }, trailer, [backedIn(backInSite())], defaultPolicy)).toBeNull();
  });

  it("is found on open ground from both sides, on the driver's side first", () => {
    const found = access(backInSite({ width: 8000 }));
    expect(found).toMatchObject({ state: "found", way: { from: "left", sight: "sight" }, other: { from: "right", sight: "blind" }, barred: null, leave: null });
    expect(found.way!.bound).toBeLessThanOrEqual(found.way!.room);
    expect(found.way!.room - found.way!.bound).toBeLessThanOrEqual(101);
    expect(found.way!.legs.map(({ kind }) => kind)).toEqual(["back"]);
    expect(access(backInSite({ width: 8000 }), withDrive(trailer, { driver: "right" })).way).toMatchObject({ from: "right", sight: "sight" });
  });

  it("comes only from where traffic may", () => {
    expect(access(backInSite({ width: 8000, traffic: "toward-right" }))).toMatchObject({ way: { from: "left", sight: "sight" }, other: null });
    expect(access(backInSite({ width: 8000, traffic: "toward-left" }))).toMatchObject({ way: { from: "right", sight: "blind" }, other: null });
  });

  it("just passes between two posts, and just does not", () => {
    // Deep on the pad the trailer has to be straight: its half width, the clearance and the posts' own radius are all there is.
    const between = (gap: number) => backInSite({ width: 9000, length: 20_000, more: { obstacles: [post("a", 16_000, half + clearance + gap + 100), post("b", 16_000, -half - clearance - gap - 100)] } });
    const pose = { x: 19_000, y: 0, heading: "tail-in" } as const;
    const passes = access(between(2), trailer, pose);
    expect(passes.state).toBe("found");
    expect(passes.way!.room).toBeLessThanOrEqual(2);
    expect(["a", "b"]).toContain(passes.way!.tightest.other);
    expect(access(between(-touch - 2), trailer, pose).state).toBe("not-found");
    expect(access(between(-400), trailer, pose)).toMatchObject({ state: "no", way: null, barred: { code: "barred-between", scope: "poses" } });
  });

  it("just passes below a wire, and one millimetre lower a wire bars it for good", () => {
    const under = (height: number | null, across: [[number, number], [number, number]] = [[100, -9000], [100, 9000]]) => backInSite({ width: 8000, approach: { heightLimits: [{ id: "line", kind: "wire", across, height }] } });
    expect(access(under(trailer.body.height + wireRoom)).state).toBe("found");
    expect(access(under(trailer.body.height + wireRoom - 1))).toMatchObject({ state: "no", barred: { code: "barred-overhead", things: ["line"], scope: "pad" } });
    expect(access(under(null))).toMatchObject({ state: "found", unmeasured: ["line"] });
  });

  it("goes over what is lower than the floor with its body, and around it with its tires", () => {
    const low = { id: "rock", kind: "rock", at: [1500, 0] as [number, number], radius: 300, from: 0, to: 200 };
    expect(coach.body.floor - defaultPolicy.headroom).toBeGreaterThan(low.to);
    expect(access(backInSite({ width: 8000, more: { obstacles: [low] } }), coach).state).toBe("found");
    expect(access(backInSite({ width: 8000, more: { obstacles: [{ ...low, at: [8000, 1000] }] } }), coach)).toMatchObject({ state: "not-found", nearest: { tightest: { part: "wheels", other: "rock" } } });
    expect(access(backInSite({ width: 8000, more: { obstacles: [{ ...low, to: 900 }] } }), coach).state).not.toBe("found");
  });

  it("bends no hitch beyond its limit", () => {
    const limited = access(backInSite({ width: 9500, mouth: 5000 }), withDrive(trailer, { maxHitchAngle: 48 }));
    for (const { legs } of [limited.way!, limited.other!]) for (const { sharpestBend } of legs) expect((sharpestBend * 180) / Math.PI).toBeLessThanOrEqual(48.1);
  });

  // With these the sharpest bend of what looked best lies between two looks, a hair beyond the limit: nothing held, and none was found.
  it.each([[8500, 44], [8500, 50], [9250, 48], [9500, 46], [10_000, 48]])("is found off a road of %d mm by a hitch that bends %d degrees", (width, maxHitchAngle) => {
    const { way } = access(backInSite({ width, mouth: 5000 }), withDrive(trailer, { maxHitchAngle }));
    for (const { sharpestBend } of way!.legs) expect((sharpestBend * 180) / Math.PI).toBeLessThanOrEqual(maxHitchAngle + 0.04);
  });

  it("takes the roomier of several poses", () => {
    const site = backInSite({ width: 6500 }), one = access(site), several = findAccess(site, trailer, [backedIn(site), backedIn(site, 400), backedIn(site, 1800)], defaultPolicy)!;
    expect(several.way!.room).toBeGreaterThanOrEqual(one.way!.room - 60);
  });

  it("is not passed over for one that was left early: a pose with less room itself hid the better way", () => {
    const { site, rig, poses } = randomWayScene(10);
    expect(findAccess(site, rig, poses, defaultPolicy)!.way!.room).toBeGreaterThan(440);
    expect(poses.map((pose) => findAccess(site, rig, [pose], defaultPolicy)!.state)).toEqual(["found", "found"]);
  });

  it("is barred by no corner of the road that lies further off than it leads", () => {
    const cornered = backInSite({ width: 8000, approach: { road: { centreline: [[-4000, 45_000], [-4000, -60_000], [-40_000, -60_000]], width: 8000, traffic: "both" } } });
    expect(access(cornered)).toMatchObject({ state: "found", way: { from: "left" }, other: { from: "right" } });
    expect(access(cornered).way!.room).toBeCloseTo(access(backInSite({ width: 8000 })).way!.room, 3);
  });

  it("turns no wheels beyond their lock where a bent road has turned them already: 38.6 degrees were asked of 38.0", () => {
    const scene = wildWayScene(53), { way } = findAccess(scene.site, scene.rig, scene.poses, defaultPolicy)!, [into] = way!.legs, { lock } = trainOf(scene.rig);
    expect(into!.kind).toBe("in");
    for (let i = 0; i <= 2000; i++) expect(Math.abs(into!.drive.at((into!.drive.reached * i) / 2000).steer)).toBeLessThanOrEqual(lock + Math.PI / 1800 + 1e-6);
  });

  it("is not found where a road is too narrow to turn, which proves nothing", () => {
    const narrow = access(backInSite({ width: 3600, mouth: 2000 }));
    expect(narrow).toMatchObject({ state: "not-found", way: null, barred: null });
    expect(narrow.nearest!.room).toBeLessThan(0);
  });

  it("cannot be where the ground does not lead to the pad", () => {
    const site = backInSite({ approach: { road: { centreline: [[-9000, 30_000], [-9000, -30_000]], width: 6000 } } });
    expect(access(site)).toMatchObject({ state: "no", barred: { code: "no-ground", things: [], scope: "pad" } });
  });

  it("tells how far it leads over road that nobody surveyed", () => {
    const short = backInSite({ width: 8000, approach: { road: { centreline: [[-4000, 6000], [-4000, -6000]], width: 8000, traffic: "both" } } });
    expect(access(backInSite({ width: 8000 })).way!.legs[0]!.unsurveyed).toBe(0);
    expect(access(short).way!.legs[0]!.unsurveyed).toBeGreaterThan(2000);
  });
});

describe("a pull-through", () => {
  const site = siteSchema.parse({
    id: "through", entry: "pull-through", ground: { along: 0, across: 0 }, pad: { outline: [[0, -2200], [30_000, -2200], [30_000, 2200], [0, 2200]] },
    approach: {
      road: { centreline: [[-4000, -40_000], [-4000, 40_000]], width: 8000 }, exitRoad: { centreline: [[34_000, -40_000], [34_000, 40_000]], width: 8000 },
      driveable: [[[0, -7000], [5000, -2200], [5000, 2200], [0, 7000]], [[30_000, -7000], [25_000, -2200], [25_000, 2200], [30_000, 7000]]],
    },
  } satisfies SiteInput);

  it("is driven in and out of", () => {
    const found = findAccess(site, trailer, [{ x: 14_000, y: 0, heading: "nose-in" }], defaultPolicy)!;
    expect(found).toMatchObject({ state: "found", leave: "found" });
    expect(found.way!.legs.map(({ kind }) => kind)).toEqual(["in", "out"]);
    const [into, away] = found.way!.legs, end = into!.drive.at(into!.drive.reached), begin = away!.drive.at(0);
    end.front.forEach((v, i) => expect(v).toBeCloseTo(begin.front[i]!, 3));
    expect(Math.abs(end.hitches[0]!)).toBeLessThanOrEqual((3 * Math.PI) / 180);
  });

  it("may be entered from the far end by one that stands the other way round", () => {
    expect(findAccess({ ...site, enterFrom: "either" }, trailer, [{ x: 16_000, y: 0, heading: "tail-in" }], defaultPolicy)).toMatchObject({ state: "found", leave: "found", way: { legs: [{ kind: "in" }, { kind: "out" }] } });
  });
});

describe("a motorized rig", () => {
  it("backs in or drives in", () => {
    const site = backInSite({ width: 9000, mouth: 7000, deep: 5000 });
    expect(findAccess(site, coach, [backedIn(site)], defaultPolicy)).toMatchObject({ state: "found", way: { legs: [{ kind: "back" }] } });
    expect(findAccess(site, coach, [{ x: 14_000 - coach.body.length - 500, y: 0, heading: "nose-in" }], defaultPolicy)).toMatchObject({ state: "found", way: { legs: [{ kind: "in" }] } });
  });

  it("has its towed car behind where that stays hitched", () => {
    const towing = rigSchema.parse({ ...typicalRig("class-a", 9500), tow: { length: 4500, width: 1850, height: 1700, stays: "hitched" } }), site = backInSite({ width: 9000, length: 20_000, padHalf: 2400, mouth: 10_000, deep: 9000 });
    const found = findAccess(site, towing, [{ x: 6000, y: 0, heading: "nose-in" }], defaultPolicy)!;
    expect(found.state).toBe("found");
    expect(found.way!.legs[0]!.drive.combination.units).toHaveLength(1);
  });
});
