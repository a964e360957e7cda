import { describe, expect, it } from "vitest";
import { headingsFor, type Heading, type Pose, type Service } from "@/lib/fit";
import { Approach } from "@/lib/fit/approach";
import { clashAt } from "@/lib/fit/refusal/conflicts";
import { applyChange } from "@/lib/fit/refusal/changes";
import { formOf } from "@/lib/fit/form";
import { Workspace } from "@/lib/fit/landscapes";
import { levelOf } from "@/lib/fit/level";
import { stallFor } from "@/lib/fit/vehicle";
import { terrainOf } from "@/lib/park";
import { pairsOf, suppliesOf } from "../checker/services";
import { slacks } from "../checker/slacks";
import { scene, type Scene } from "../scenes/random-scene";
import { answer, law } from "./support";

/** Conflicts rest on cells of 0.2 mm; the checker reads each demand anew, so a millimetre is all they may differ by. */
const MARGIN = 1;

describe("a refusal", () => {
  it("comes with a conflict, and every conflict names each demand once", () => {
    law(400, (s) => {
      const { verdict, conflicts } = answer(s);
      if (verdict !== "no") return expect(conflicts).toEqual([]);
      expect(conflicts.length).toBeGreaterThan(0);
      for (const { heading, constraints } of conflicts) {
        expect(new Set(constraints).size).toBe(constraints.length);
        expect([null, ...headingsFor(s.site, s.rig)]).toContain(heading);
      }
    }, 40);
  });

  it("shows for a conflict a pose where all but one of it hold, and what is missing there", () => {
    law(200, (scene) => {
      const s = straight(scene);
      for (const { constraints, shown } of answer(s).conflicts) {
        if (!shown) continue;
        expect(constraints).toContain(shown.dropped);
        const rest = constraints.filter((id) => id !== shown.dropped);
        expect(least(s, shown.pose, rest), `${constraints.join(" ")} but ${shown.dropped}`).toBeGreaterThanOrEqual(-MARGIN);
        if (shown.dropped !== "vehicle") expect(least(s, shown.pose, [shown.dropped])).toBeLessThan(MARGIN);
        if (!shown.gap) continue;
        const { from, to, short, line } = shown.gap;
        expect(short).toBeGreaterThan(0);
        if (!line) expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(short, 3);
      }
    }, 42);
  });

  it("comes with a conflict also where the last tenth of a millimetre decides", () => {
    // These touch at 0: nothing within tolerance is let through, and strips of poses thinner than a cell decide.
    const edges = [[206, "move", 2075.9997], [312, "shrink", 1729.9582], [406, "shrink", 718.935], [427, "widen", 2442.4996]] as const;
    for (const [seed, how, amount] of edges) {
      const { verdict, conflicts } = answer(changed(scene(seed), how, amount));
      expect(verdict, String(seed)).toBe("no");
      expect(conflicts.length, String(seed)).toBeGreaterThan(0);
    }
  });

  it("has demands that no sampled pose meets together, while each left out leaves a pose that meets the rest", () => {
    law(150, (scene) => {
      const s = straight(scene);
      if (answer(s).verdict !== "no") return;
      for (const heading of headingsFor(s.site, s.rig)) {
        const clash = clashAt(approachTo(s, heading));
        if (!clash) continue;
        const ids = clash.demands.map((d) => d.id);
        clash.without.forEach(({ x, y }, i) => {
          const rest = ids.filter((_, k) => k !== i);
          expect(least(s, { x, y, heading }, rest), `${ids.join(" ")} without ${ids[i]}`).toBeGreaterThanOrEqual(-MARGIN);
        });
        for (const pose of grid(s, heading, 300)) expect(least(s, pose, ids), `${ids.join(" ")} at ${pose.x}, ${pose.y}`).toBeLessThan(MARGIN);
      }
    }, 41);
  });
});

/**
 * Lines run straight here: what the way around to a hookup right under the body would be, no rule says. And overflow
 * parking takes the vehicle, since where it may stand in line can be read in more than one way.
 */
function straight(s: Scene): Scene {
  return { ...s, policy: { ...s.policy, underBody: ["power", "water", "sewer"], overflow: true } };
}

/** A scene eased by so much: hookups carried off, obstacles made smaller, or the pad wider on the left, mm. */
function changed(s: Scene, how: "move" | "shrink" | "widen", amount: number): Scene {
  if (how === "widen") return { ...s, ...applyChange({ code: "widen-left", amount }, s) };
  if (how === "move") return { ...s, site: { ...s.site, hookups: s.site.hookups.map((h) => ({ ...h, at: [h.at[0] - amount, h.at[1] + amount / 3] })) } };
  const less = (radius: number | undefined) => (radius === undefined ? undefined : Math.max(1, radius * (1 - amount / 3000)));
  return { ...s, site: { ...s.site, obstacles: s.site.obstacles.map((o) => ({ ...o, radius: less(o.radius), crownRadius: less(o.crownRadius) })) } };
}

function approachTo({ site, rig, policy }: Scene, heading: Heading): Approach {
  const terrain = terrainOf(site), form = formOf(rig);
  const { side, along } = levelOf(terrain.ground, form, policy);
  return new Approach({ terrain, form, policy, rise: side + along, stall: stallFor(site, rig, policy) }, heading, new Workspace(), 100_000);
}

/** How far the demands are from holding at a pose, as the checker reads the rules; needs with whatever may be brought. */
function least(s: Scene, pose: Pose, ids: readonly string[]): number {
  const hard = new Map(slacks(s.site, s.rig, s.policy, pose, []).map(({ id, slack }) => [id, slack]));
  let value = Infinity;
  for (const id of ids) if (hard.has(id)) value = Math.min(value, hard.get(id)!);
  for (const service of ["power", "water", "sewer"] as const) value = Math.min(value, serviceAt(s, pose, service, ids));
  return value;
}

/** The pair that does best in all that is asked of this service. */
function serviceAt(s: Scene, pose: Pose, service: Service, ids: readonly string[]): number {
  const reach = ids.includes(`reach:${service}`), fall = service === "sewer" && ids.includes("fall:sewer"), power = service === "power" && ids.includes("power");
  if (!reach && !fall && !power) return Infinity;
  const must = (s.rig.electric?.loads ?? []).filter((l) => l.need === "must").reduce((sum, l) => sum + l.va, 0);
  const values = pairsOf(s.site, s.rig, s.policy, pose, service).map((pair) => {
    const hookup = s.site.hookups.find((h) => h.id === pair.hookup)!;
    if (power && !suppliesOf(s.rig, s.policy, hookup).some((supply) => must <= supply.usableVa)) return -Infinity;
    const drop = fall && pair.fall ? (pair.fall.drop - pair.fall.needed) * 20 : Infinity; // at most 1 mm of fall in 20 of pose
    return Math.min(reach ? s.policy.longest[service] - pair.route : Infinity, drop);
  });
  return Math.max(-Infinity, ...values);
}

/** Poses all over the site and well beyond it. */
function* grid({ site, rig }: Scene, heading: Heading, step: number): Generator<Pose> {
  const xs = site.pad.outline.map(([x]) => x), ys = site.pad.outline.map(([, y]) => y);
  const reach = rig.body.length + (rig.hitch?.length ?? 0);
  for (let x = Math.min(...xs) - reach; x <= Math.max(...xs) + reach; x += step) {
    for (let y = Math.min(...ys) - 2000; y <= Math.max(...ys) + 2000; y += step) yield { x, y, heading };
  }
}
