import { describe, expect, it } from "vitest";
import { findAccess, trainOf, wayGroundOf, type Access, type Way } from "@/lib/access";
import { judgeFor, roomAt } from "@/lib/access/judge";
import { findBarred } from "@/lib/access/necessary";
import { parkedOn } from "@/lib/access/train";
import { defaultPolicy } from "@/lib/fit";
import type { Radians } from "@/lib/measure";
import { anglesOf, defaultTolerances, driveAlong, largestSteer, reversePath } from "@/lib/turning";
import { faultsOfAccess } from "../checker/access-check";
import { searchByDriving } from "../checker/access-drive-out";
import { replay, replayTrain, roomOf } from "../checker/access-replay";
import { mirroredScene, randomWayScene, type WayScene } from "../scenes/way-scenes";
import { wildWayScene } from "../scenes/wild-way-scenes";

/** Seeds are the scenes: a failure names its own. */
const scenes = Array.from({ length: 28 }, (_, seed) => ({ seed, ...randomWayScene(seed) }));
const accessOf = ({ site, rig, poses }: WayScene): Access => findAccess(site, rig, poses, defaultPolicy)!;
const answers = new Map(scenes.map((scene) => [scene.seed, accessOf(scene)]));
const waysOf = ({ way, other }: Access): Way[] => [way, other].filter((w) => w !== null);
const found = scenes.filter(({ seed }) => answers.get(seed)!.state === "found");

describe("the scenes", () => {
  it("decide both ways", () => {
    const states = [...answers.values()].map(({ state }) => state);
    expect(states.filter((s) => s === "found").length).toBeGreaterThan(6);
    expect(states.filter((s) => s !== "found").length).toBeGreaterThan(6);
  });
});

describe("a way that was found", () => {
  it("has no less room anywhere than was proven, and the least that was told somewhere", () => {
    for (const scene of found) for (const way of waysOf(answers.get(scene.seed)!)) for (const { drive, room, bound } of way.legs) {
      const judge = judgeFor(trainOf(scene.rig), wayGroundOf(scene.site)!, defaultPolicy), n = 800;
      const least = Math.min(...Array.from({ length: n + 1 }, (_, i) => roomAt(judge, drive.at((drive.reached * i) / n))));
      expect(least, `seed ${scene.seed}`).toBeGreaterThanOrEqual(bound);
      expect(least, `seed ${scene.seed}`).toBeGreaterThanOrEqual(room - 101);
      expect(bound, `seed ${scene.seed}`).toBeGreaterThanOrEqual(-defaultPolicy.touch);
    }
  });

  it("is so in another reading of motion and ground: pulled by a string and measured with a tape", () => {
    for (const scene of found) for (const { legs, bound } of waysOf(answers.get(scene.seed)!)) for (const { drive } of legs) {
      const train = replayTrain(scene.rig), n = Math.ceil(drive.reached / 10), first = drive.at(0);
      const frames = replay(train, Array.from({ length: n + 1 }, (_, i) => drive.path.pointAt((drive.reached * i) / n).at), first.poses.map(({ heading }) => heading));
      const rooms = frames.filter((_, i) => i % 50 === 0).map((f) => roomOf(train, f, scene.site, defaultPolicy, 100));
      // Steps of 10 mm, rays 10 mm long and 7.5 degrees apart, points 100 mm apart.
      expect(Math.min(...rooms), `seed ${scene.seed}`).toBeGreaterThanOrEqual(bound - 25);
    }
  });

  it("ends on its pose, in reverse as well", () => {
    for (const scene of found) for (const { legs, pose } of waysOf(answers.get(scene.seed)!)) for (const leg of legs) {
      const { drive, kind } = leg, train = trainOf(scene.rig), onPose = drive.at(kind === "in" ? drive.reached : 0);
      const parked = parkedOn(train, pose, kind === "back" ? onPose.hitches[0] : 0);
      onPose.front.forEach((v, i) => expect(v, `seed ${scene.seed}`).toBeCloseTo(parked.at[i]!, 3));
      if (kind !== "back") continue;
      // Backwards errors grow by e for every wheelbase or drawbar, so it is followed finely: from the road all the way onto the pose.
      const { path } = drive, fine = { ...defaultTolerances, angle: 1e-12 as Radians };
      const out = driveAlong(drive.combination, path, anglesOf(drive.at(0)), fine), all = driveAlong(drive.combination, reversePath(path), anglesOf(out.at(out.reached)), fine);
      for (const share of [0.25, 0.5, 0.75, 1]) {
        const there = out.at(out.reached * (1 - share)), here = all.at(share * out.reached);
        there.poses.forEach(({ axle }, i) => axle.forEach((v, k) => expect(Math.abs(v - here.poses[i]!.axle[k]!), `seed ${scene.seed}, ${share} of the way`).toBeLessThan(5)));
      }
    }
  });

  it("is barred by no condition that every way has to meet", () => {
    for (const scene of found) expect(findBarred(judgeFor(trainOf(scene.rig), wayGroundOf(scene.site)!, defaultPolicy), wayGroundOf(scene.site)!, [answers.get(scene.seed)!.way!.pose]), `seed ${scene.seed}`).toBeNull();
  });

  it("has as much room where it is driven more finely", () => {
    for (const scene of found.slice(0, 6)) for (const { legs } of waysOf(answers.get(scene.seed)!)) for (const { drive, room } of legs) {
      const judge = judgeFor(trainOf(scene.rig), wayGroundOf(scene.site)!, defaultPolicy);
      const fine = driveAlong(drive.combination, drive.path, anglesOf(drive.at(0)), { ...defaultTolerances, angle: 1e-11 as Radians });
      expect(Math.abs(Math.min(...Array.from({ length: 801 }, (_, i) => roomAt(judge, fine.at((fine.reached * i) / 800)))) - room), `seed ${scene.seed}`).toBeLessThan(101);
    }
  });
});

describe("ways in of every sort", () => {
  // Roads with corners, pull-throughs, walls, gaps, wires, towed cars: what an answer says of itself, helpers included, and its mirror image.
  it.each(Array.from({ length: 24 }, (_, seed) => seed))("hold in another reading: seed %d", (seed) => {
    const scene = wildWayScene(seed), access = accessOf(scene), there = accessOf(mirroredScene(scene)), room = ({ way }: Access) => (way ? Math.min(defaultPolicy.comfort, way.room) : null);
    expect(faultsOfAccess(scene, access, defaultPolicy)).toEqual([]);
    expect(there.state).toBe(access.state);
    if (room(access) !== null) expect(Math.abs(room(there)! - room(access)!)).toBeLessThan(2);
  });
});

describe("mirrored", () => {
  it("left is right, with the same room", () => {
    for (const scene of scenes) {
      const here = answers.get(scene.seed)!, there = accessOf(mirroredScene(scene));
      expect(there.state, `seed ${scene.seed}`).toBe(here.state);
      expect(there.barred?.things, `seed ${scene.seed}`).toEqual(here.barred?.things);
      if (!here.way) continue;
      expect(there.way!.sight, `seed ${scene.seed}`).toBe(here.way.sight);
      expect(there.way!.from, `seed ${scene.seed}`).not.toBe(here.way.from);
      expect(Math.abs(there.way!.room - here.way.room), `seed ${scene.seed}`).toBeLessThan(2);
    }
  });
});

describe("worse ground", () => {
  it("opens no way: a gate that is too low never helps", () => {
    for (const scene of scenes.slice(0, 12)) {
      const { approach } = scene.site, gate = { id: "gate", kind: "gate", across: [[-100, -30_000], [-100, 30_000]] as [[number, number], [number, number]], height: 1000 };
      expect(accessOf({ ...scene, site: { ...scene.site, approach: { ...approach!, heightLimits: [gate] } } }), `seed ${scene.seed}`).toMatchObject({ state: "no", barred: { scope: "pad" } });
    }
  });
});

describe("the obvious search", () => {
  it("finds no way with room to spare where none can be, nor where none was found", () => {
    const missed: string[] = [];
    let looked = 0;
    for (const scene of scenes.slice(0, 18)) {
      const { state } = answers.get(scene.seed)!, [pose] = scene.poses, train = trainOf(scene.rig);
      if (state === "found" || pose!.heading === "nose-in" || looked === 4) continue;
      const steer = largestSteer(train.combination.vehicle)!, sides = (["left", "right"] as const).filter((s) => scene.site.approach!.road.traffic !== (s === "left" ? "toward-left" : "toward-right"));
      const front = (bend: number) => { const p = parkedOn(train, pose!, bend); return { at: p.at, headings: p.angles.hitches.reduce((all, h) => [...all, all.at(-1)! - h], [p.angles.heading as number]) }; };
      const best = Math.max(...sides.map((side) => searchByDriving(scene.site, side, { ...replayTrain(scene.rig), steer, front }, defaultPolicy) ?? -1e9));
      looked++;
      if (state === "no") expect(best, `seed ${scene.seed}`).toBeLessThan(30);
      else if (best > 30) missed.push(`seed ${scene.seed}: ${Math.round(best)} mm`);
    }
    expect(looked).toBeGreaterThan(3);
    expect(missed).toEqual([]);
  });
});
