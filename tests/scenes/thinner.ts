import type { Scene } from "./random-scene";

type Spare = Pick<Scene, "site" | "rig">;

/** The scene with one thing left out, for every thing that can be: how a failing scene is made small. */
export function thinner(scene: Scene): Scene[] {
  const { site, rig } = scene;
  const list: Partial<Spare>[] = [];
  const without = <T>(items: readonly T[], make: (rest: T[]) => Partial<Spare>) => {
    items.forEach((_, i) => list.push(make(items.filter((_, j) => j !== i))));
  };
  without(site.obstacles, (obstacles) => ({ site: { ...site, obstacles } }));
  without(site.hookups, (hookups) => ({ site: { ...site, hookups } }));
  without(rig.wants, (wants) => ({ rig: { ...rig, wants } }));
  without(rig.parts, (parts) => ({ rig: { ...rig, parts } }));
  without(rig.inlets, (inlets) => ({ rig: { ...rig, inlets } }));
  without(rig.gear.adapters, (adapters) => ({ rig: { ...rig, gear: { ...rig.gear, adapters } } }));
  if (rig.electric) {
    const { electric } = rig;
    without(electric.loads, (loads) => ({ rig: { ...rig, electric: { ...electric, loads } } }));
  }
  if (rig.supports.filter((s) => s.kind === "tyre").length < rig.supports.length || rig.supports.length > 2) {
    without(rig.supports, (supports) => ({ rig: { ...rig, supports } }));
  }
  for (const field of ["lot", "roadEdge", "exitEdge", "parking", "rules"] as const) {
    if (site[field]) list.push({ site: { ...site, [field]: undefined } });
  }
  for (const field of ["tow", "hitch"] as const) if (rig[field]) list.push({ rig: { ...rig, [field]: undefined } });
  if (rig.wishes.length > 0) list.push({ rig: { ...rig, wishes: [] } });
  if (site.ground.heights || site.ground.along || site.ground.across) list.push({ site: { ...site, ground: { along: 0, across: 0, heights: undefined } } });
  return list.map((change) => ({ ...scene, ...change })).filter((s) => s.rig.supports.some((p) => p.kind === "tyre"));
}

/** Leaves things out for as long as the scene still fails, at most `most` trials. */
export function minimise(scene: Scene, fails: (scene: Scene) => boolean, most = 300): Scene {
  let here = scene;
  for (let trials = 0, again = true; again && trials < most; ) {
    again = false;
    for (const next of thinner(here)) {
      if (trials++ >= most) break;
      if (!fails(next)) continue;
      here = next;
      again = true;
      break;
    }
  }
  return here;
}
