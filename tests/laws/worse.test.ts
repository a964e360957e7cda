import { describe, expect, it } from "vitest";
import type { Site } from "@/lib/park/schema";
import { randomFrom, between } from "../scenes/random";
import type { Scene } from "../scenes/random-scene";
import { withBody, withGear, withObstacle, withPart } from "../scenes/transform";
import { answer, better, clearlyHolds, law, refuse, settled } from "./support";

/** What makes a scene harder, drawn from the scene's own seed; null where it does not apply. */
const changes: Record<string, (s: Scene) => Scene | null> = {
  "a deeper part": (s) => {
    // parts at the ends are left out: a vehicle in line stands clear of them, so growing one moves it
    const index = s.rig.parts.findIndex((p) => p.side === "left" || p.side === "right");
    return index < 0 ? null : withPart(s, index, { depth: s.rig.parts[index]!.depth + draw(s, 10, 400) });
  },
  "a wider door": (s) => {
    const index = s.rig.parts.findIndex((p) => p.kind === "entry" && p.side === "right");
    const part = s.rig.parts[index];
    return part ? withPart(s, index, { span: [part.span[0] - draw(s, 10, 150), part.span[1]] }) : null;
  },
  "a part that reaches higher and lower": (s) => {
    const part = s.rig.parts[0];
    return part ? withPart(s, 0, { from: Math.max(0, part.from - draw(s, 10, 300)), to: part.to + draw(s, 10, 600) }) : null;
  },
  "a part that has to be out": (s) => {
    const index = s.rig.parts.findIndex((p) => p.need === "nice" && (p.side === "left" || p.side === "right"));
    return index < 0 ? null : withPart(s, index, { need: "must" });
  },
  "a higher roof": (s) => withBody(s, { height: s.rig.body.height + draw(s, 10, 900) }),
  "a lower floor": (s) => withBody(s, { floor: Math.max(0, s.rig.body.floor - draw(s, 10, 300)) }),
  "another obstacle": (s) => withObstacle(s, rock(s)),
  "lower limbs": (s) => withLimbs(s, draw(s, 50, 900)),
  "a shorter cord": (s) => withGear(s, { powerCord: Math.max(0, s.rig.gear.powerCord - draw(s, 100, 4000)) }),
  "a shorter water hose": (s) => withGear(s, { waterHose: Math.max(0, s.rig.gear.waterHose - draw(s, 100, 4000)) }),
  "a shorter drain hose": (s) => withGear(s, { sewerHose: Math.max(0, s.rig.gear.sewerHose - draw(s, 100, 3000)) }),
  "no adapters": (s) => withGear(s, { adapters: [] }),
  "less lift": (s) => withGear(s, { liftSide: 0, liftAlong: 0 }),
  "a bigger footing": (s) => ({ ...s, policy: { ...s.policy, footing: s.policy.footing + draw(s, 1, 100) } }),
  "more clearance": (s) => ({ ...s, policy: { ...s.policy, clearance: s.policy.clearance + draw(s, 1, 200) } }),
  "no lines under the rig": (s) => ({ ...s, policy: { ...s.policy, underBody: [] } }),
  "no overflow parking": (s) => ({ ...s, policy: { ...s.policy, overflow: false } }),
};

describe("nothing that makes a scene harder improves the answer", () => {
  Object.entries(changes).forEach(([what, change], i) => {
    it(`${what} never improves the verdict, nor the most room there is`, () => {
      law(120, (s) => {
        const harder = change(s);
        if (!harder) return;
        const before = answer(s), after = answer(harder);
        if (!settled(before) || !settled(after)) return;
        if (better(after, before) && clearlyHolds(after)) refuse(what, before, after);
        // no pose had more than the bound before, so none has now
        if (after.best.room >= 0) expect(after.best.room).toBeLessThanOrEqual(before.best.bound + 1e-6);
      }, 20 + i);
    });
  });
});

function draw(s: Scene, low: number, high: number): number {
  return between(randomFrom(s.seed ^ 0x5bd1e995), low, high);
}

/** Every crown begins lower by so much. Null where there is no tree. */
function withLimbs(s: Scene, by: number): Scene | null {
  if (!s.site.obstacles.some((o) => o.kind === "tree")) return null;
  const obstacles = s.site.obstacles.map((o) => (o.crownFrom === undefined ? o : { ...o, crownFrom: Math.max(0, o.crownFrom - by) }));
  return { ...s, site: { ...s.site, obstacles } };
}

function rock(s: Scene): Site["obstacles"][number] {
  const r = randomFrom(s.seed ^ 0x2545f491);
  const long = Math.max(...s.site.pad.outline.map((p) => p[0]));
  return { id: "rock-added", kind: "rock", at: [between(r, -2000, long + 1000), between(r, -5000, 5000)], radius: between(r, 50, 600), from: 0, to: between(r, 100, 1500), outline: undefined, trunkRadius: undefined, crownRadius: undefined, crownFrom: undefined, crownTo: undefined, removable: false };
}
