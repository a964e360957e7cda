import { describe, expect, it } from "vitest";
import { headingsFor, type Heading, type Pose, type Service } from "@/lib/fit";
import { Approach } from "@/lib/fit/approach";
import { clashAt } from "@/lib/fit/refusal/conflicts";
import { formOf } from "@/lib/fit/form";
import { Workspace } from "@/lib/fit/landscapes";
import { levelOf } from "@/lib/fit/level";
import { stallFor } from "@/lib/fit/vehicle";
import { terrainOf } from "@/lib/park";
import { pairsOf, suppliesOf } from "../checker/services";
import { slacks } from "../checker/slacks";
import type { Scene } from "../scenes/random-scene";
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

  it("has demands that no sampled pose meets together, while each left out leaves a pose that meets the rest", () => {
    law(150, (scene) => {
      // Lines run straight here: what the way around to a hookup right under the body would be, no rule says. And
      // overflow parking takes the vehicle, since where it may stand in line can be read in more than one way.
      const s: Scene = { ...scene, policy: { ...scene.policy, underBody: ["power", "water", "sewer"], overflow: true } };
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
