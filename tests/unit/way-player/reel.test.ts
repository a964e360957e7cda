import { describe, expect, it } from "vitest";
import { makeReel } from "@/app/components/way-player/make-reel";
import { rowAt, type Reel } from "@/app/components/way-player/reel";
import { sweptPieces } from "@/app/components/way-player/swept";
import { frameOfWay, WAY_WIDTH } from "@/app/components/way-player/way-frame";
import { layoutWay } from "@/app/components/way-player/way-sheet";
import type { WayShown } from "@/lib/card/way";
import { policySchema } from "@/lib/fit";
import { findWayIn } from "@/lib/jobs/find-way-in";
import { contains, type Point } from "@/lib/plane";
import { numbersFor } from "@/lib/wording";
import { wayIn as words } from "@/lib/wording/en/way-in";
import { demo, type Stood } from "../card/demo";
import { gradeOf, sentencesOf } from "../card/readability";

const policy = policySchema.parse({});
const wayOf = ({ site, rig, result }: Stood) => findWayIn({ site, rig, pose: result.pose!, policy })!;

const trailer = demo("d03", "demo-tt-31"), trailerWay = wayOf(trailer).way!;
const coach = demo("d03", "demo-class-a-35"), coachWay = wayOf(coach).way!;
const through = demo("b02", "demo-tt-31"), throughWay = wayOf(through).way!;
const all: [Stood, WayShown][] = [[trailer, trailerWay], [coach, coachWay], [through, throughWay]];

function reelOf({ site }: Stood, way: WayShown, units: "ft-in" | "metric" = "ft-in") {
  const frame = frameOfWay(site, way), reel = makeReel(site, way, frame, numbersFor(units));
  return { frame, reel, sheet: layoutWay(site, way, [], reel, frame, units) };
}

/** Where the corners of every body are drawn at a row. */
function cornersDrawn({ bodies }: Reel, row: readonly number[]): Point[] {
  return bodies.flatMap(({ boxes }, b) => boxes.flatMap(({ box: [left, top, width, height] }) => [[left, top], [left + width, top], [left + width, top + height], [left, top + height]].map(([u, v]): Point => {
    const [x, y, turn] = row.slice(2 + 3 * b), c = Math.cos((turn! * Math.PI) / 180), s = Math.sin((turn! * Math.PI) / 180);
    return [x! + u! * c - v! * s, y! + u! * s + v! * c];
  })));
}

describe("a way moment by moment", () => {
  it("has one at least every half meter, one at the tightest place, and none tighter than was proven", () => {
    for (const [, { film, legs, tightest, room }] of all) {
      expect(film.legs.length).toBe(legs.length);
      film.legs.forEach((moments, i) => {
        expect(moments[0]!.along).toBe(0);
        expect(moments.at(-1)!.along).toBeCloseTo(legs[i]!.length, 6);
        moments.slice(1).forEach(({ along }, k) => expect(along - moments[k]!.along).toBeLessThanOrEqual(500));
        for (const { nearest } of moments) expect(nearest.room).toBeGreaterThanOrEqual(room - 1e-6);
      });
      const there = film.legs[tightest.leg]!.find(({ along }) => Math.abs(along - tightest.along) < 1)!;
      expect(there.nearest).toMatchObject({ part: tightest.part, other: tightest.other });
      expect(there.nearest.room).toBeCloseTo(tightest.room, 3);
    }
  });

  it("ends on the pose that was asked for, tail in", () => {
    const { pose } = trailer.result, last = trailerWay.film.legs[0]!.at(-1)!, body = trailerWay.film.bodies[1]!.boxes[0]!;
    const { at: [x], heading } = last.poses[1]!;
    // The rear wall stands deepest, and the rig faces the road.
    expect(Math.abs(Math.cos((heading * Math.PI) / 180) + 1)).toBeLessThan(1e-3);
    expect(x - body.u0).toBeCloseTo(pose!.x, 0);
  });

  it("turns on without a jump, bodies bent at the hitch by as much as is told", () => {
    for (const [, { film }] of all) for (const moments of film.legs) moments.forEach(({ poses, hitches }, i) => {
      if (i > 0) poses.forEach(({ heading }, b) => expect(Math.abs(heading - moments[i - 1]!.poses[b]!.heading)).toBeLessThan(30));
      const bend = poses[1] ? poses[0]!.heading - poses[1].heading : 0;
      if (poses[1]) expect(Math.abs(Math.sin(((bend - hitches[0]!) * Math.PI) / 180))).toBeLessThan(1e-6);
    });
  });

  it("names the post that is stood on over its stretch, and no other", () => {
    for (const [, { film, spotting: { posts } }] of all) film.legs.forEach((moments, leg) => {
      for (const { along, helper } of moments) {
        const stood = posts.findIndex((post) => post.leg === leg && along >= post.span[0] && along <= post.span[1]);
        if (stood >= 0) expect(helper?.post).toBe(stood);
        if (helper) expect(posts[helper.post]!.leg).toBe(leg);
      }
    });
  });
});

describe("a reel", () => {
  it("draws every body at every moment where the film has it, to two centimeters, all of it on the page", () => {
    for (const [stood, way] of all) {
      const { reel, frame } = reelOf(stood, way);
      way.film.legs.forEach((moments, l) => moments.forEach(({ poses }, i) => {
        const drawn = cornersDrawn(reel, reel.legs[l]!.rows[i]!);
        const there = poses.flatMap(({ at: [x, y], heading }, b) => way.film.bodies[b]!.boxes.flatMap(({ u0, u1, halfWidth }) => [[u1, halfWidth], [u1, -halfWidth], [u0, -halfWidth], [u0, halfWidth]].map(([u, v]) => {
          const c = Math.cos((heading * Math.PI) / 180), s = Math.sin((heading * Math.PI) / 180);
          return frame.toPage([x + u! * c - v! * s, y + u! * s + v! * c]);
        })));
        there.forEach(([x, y], k) => {
          expect(Math.hypot(x - drawn[k]![0], y - drawn[k]![1])).toBeLessThan(20 * frame.scale);
          expect(x > 0 && x < WAY_WIDTH && y > 0 && y < frame.ground.h).toBe(true);
        });
      }));
    }
  });

  it("covers with its sweep every corner at and between its moments", () => {
    for (const [stood, way] of all) {
      const { reel, frame } = reelOf(stood, way);
      for (const leg of reel.legs) {
        const rings = sweptPieces(reel.bodies, leg).flatMap((piece) => piece.split("Z").filter(Boolean).map((ring) => ring.slice(1).split("L").map((pair) => pair.split(" ").map(Number) as unknown as Point)));
        for (let along = 0; along <= leg.length; along += 370) for (const p of cornersDrawn(reel, rowAt(leg, along))) expect(rings.some((ring) => contains(ring, p) || contains([...ring].reverse(), p) || nearRing(ring, p) < 60 * frame.scale)).toBe(true);
      }
    }
  });

  it("steps to the ends, to where the wheel turns another way and to the tightest place, never more than some three meters at once", () => {
    for (const [stood, way] of all) {
      const { reel } = reelOf(stood, way);
      reel.legs.forEach(({ stations, rows }, l) => {
        expect([stations[0], stations.at(-1)]).toEqual([0, rows.length - 1]);
        stations.slice(1).forEach((to, i) => {
          expect(to).toBeGreaterThan(stations[i]!);
          expect(rows[to]![0]! - rows[stations[i]!]![0]!).toBeLessThanOrEqual(3600);
        });
        if (way.tightest.leg === l) expect(stations.some((i) => Math.abs(rows[i]![0]! - way.tightest.along) <= 1)).toBe(true);
      });
    }
  });

  it("stays small: what goes to a phone for one way is under 40 kB before it is packed", () => {
    for (const [stood, way] of all) expect(JSON.stringify(reelOf(stood, way).reel).length).toBeLessThan(40_000);
  });

  it("turns to the left on the page for a turn to the left, wheels and bodies alike", () => {
    const { reel } = reelOf(trailer, trailerWay), moments = trailerWay.film.legs[0]!;
    moments.forEach(({ steer }, i) => expect(reel.legs[0]!.rows[i]![1]).toBeCloseTo(-steer, 1));
  });
});

describe("what is said at a moment", () => {
  it("tells what to do, the bend, what comes nearest and where the helper is seen", () => {
    expect(words.moment({ backs: true, wheel: "left", far: false, bend: 23, drawn: "trailer", gap: "2 ft 1 in", short: null, part: "the rig", other: "the oak" })).toBe("Back slowly, wheel to the left; the trailer bends 23 degrees; 2 ft 1 in from the rig to the oak.");
    expect(words.moment({ backs: false, wheel: "straight", far: false, bend: 0, drawn: "car", gap: null, short: "4 in", part: "the tires", other: words.ground })).toBe("Drive slowly, wheel straight; the car is in line; 4 in too little from the tires to the edge of the firm ground.");
    expect(words.moment({ backs: true, wheel: "right", far: true, bend: null, drawn: "trailer", gap: "1 ft", short: null, part: "the rig", other: "the post" })).toBe("Back slowly, wheel far to the right; 1 ft from the rig to the post.");
    expect([words.helper(1, "left-mirror"), words.helper(2, null)]).toEqual(["Your helper at 1 is in sight in your left mirror.", "You do not see the helper at 2 here: stop."]);
  });

  it("begins on the road, with the side told, and ends with a check", () => {
    const { said } = reelOf(trailer, trailerWay).reel.legs[0]!;
    expect(said[0]).toMatch(/^Start here, in line on the road, with the site on your left\./);
    expect(said.at(-1)).toBe("You are in. Stop and check all sides.");
    expect(said).toContainEqual(expect.stringMatching(/^Back slowly, wheel (far )?to the (left|right); the trailer bends \d+ degrees; \d.* from the tires to the edge of the firm ground\. Your helper at 1 is in sight in your left mirror\.$/));
    expect(reelOf(through, throughWay).reel.legs.map(({ name, said }) => [name, said.at(-1)])).toEqual([["Drive in", "You are in. Stop and check all sides."], ["Drive out", "You are out on the road."]]);
    expect(reelOf(coach, coachWay).reel.legs[0]!.said.join(" ")).not.toMatch(/trailer/);
  });

  it("comes in the reader's units, rounded so that no gap is told larger than it is", () => {
    const [feet, meters] = (["ft-in", "metric"] as const).map((units) => reelOf(trailer, trailerWay, units).reel.legs[0]!);
    const { gap } = trailerWay.film.legs[0]![6]!.nearest;
    expect(feet!.said[6]).toContain(` ${numbersFor("ft-in").spare(gap!)} from `);
    expect(meters!.said[6]).toContain(` ${numbersFor("metric").spare(gap!)} from `);
    expect([feet!.far[0], meters!.far.at(-1)]).toEqual([expect.stringMatching(/^0 of \d+ ft$/), expect.stringMatching(/^(\d+\.[05]0 m) of \1$/)]);
  });

  it("reads at grade 8 or lower", () => {
    const fixed = [words.unknown, words.notFound, words.notFoundWhy, words.none, words.noneWhy, words.noGround, words.noWayOut, words.keys, ...words.legendLines, words.barredBy(["the oak"]), words.barredOver(["the wire"]), words.nearestTry("4 in", "the tires", words.ground)];
    expect(gradeOf(fixed.flatMap(sentencesOf))).toBeLessThanOrEqual(8);
    for (const [stood, way] of all) expect(gradeOf(reelOf(stood, way).reel.legs.flatMap(({ said }) => said.flatMap((line) => line.split(/[;.:]\s*/).filter(Boolean))))).toBeLessThanOrEqual(8);
  });
});

describe("the still part of the drawing", () => {
  it("names what stands by the way, dimensions the tightest place, and lays no two labels on each other", () => {
    for (const [stood, way] of all) {
      const { sheet } = reelOf(stood, way);
      expect(sheet.labels.map(({ id }) => id)).toContain("gap");
      expect(sheet.labels.map(({ id }) => id)).toEqual(expect.arrayContaining(sheet.obstacles.filter(({ type }) => type !== "outline").map(({ id }) => id)));
      sheet.labels.forEach((a, i) => sheet.labels.slice(i + 1).forEach((b) => expect(a.box.x < b.box.x + b.box.w && b.box.x < a.box.x + a.box.w && a.box.y < b.box.y + b.box.h && b.box.y < a.box.y + a.box.h).toBe(false)));
      expect(sheet.north).not.toBeNull();
    }
  });

  it("tells a limit to height by its number, or to look up where nobody measured it", () => {
    const low = demo("a03", "demo-tt-16"), { sheet } = reelOf(low, wayOf(low).way!);
    expect(sheet.limits.map(({ id }) => id)).toEqual(["lane-limb"]);
    expect(sheet.labels.find(({ id }) => id === "lane-limb")!.lines.join(" ")).toBe("limb: look up");
    const gated = demo("c12", "demo-class-c-24");
    expect(reelOf(gated, wayOf(gated).way!).sheet.labels.find(({ id }) => id === "gate")!.lines.join(" ")).toBe("gate 14′1″");
  });
});

function nearRing(ring: readonly Point[], [x, y]: Point): number {
  return Math.min(...ring.map(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!, dx = bx - ax, dy = by - ay, t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    return Math.hypot(x - ax - t * dx, y - ay - t * dy);
  }));
}
