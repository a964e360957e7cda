import { sitePoint } from "@/lib/plane";
import type { Approach } from "./approach";
import { routeIfServed } from "./landscapes";
import { DRAIN_FALL, ownLength, type Need, type Pair } from "./needs";
import type { Means, NeedResult } from "./types";

/** A wanted service at a pose, with the pair that serves it. */
export interface Served {
  readonly result: NeedResult;
  readonly pair: Pair | null;
}

const RANK: Readonly<Record<Means, number>> = { own: 0, gear: 1, no: 2 };

/**
 * Every wanted service at a pose: by own gear before anything brought, then by the shorter run. `tolerance` (mm) is
 * what the pose itself was found within.
 */
export function servedAt(approach: Approach, x: number, y: number, tolerance: number): Served[] {
  return approach.needs.map((need) => {
    const choices = need.pairs.map((pair) => ({ pair, ok: meansOf(pair, x, y, tolerance), route: pair.routeOf(pair.pathAt(x, y)) }));
    choices.sort((a, b) => RANK[a.ok] - RANK[b.ok] || Number(b.pair.limit.gear >= 0) - Number(a.pair.limit.gear >= 0) || a.route - b.route);
    const best = choices[0];
    return best ? served(approach, need, best.pair, best.ok, x, y) : unknown(approach, need);
  });
}

function meansOf(pair: Pair, x: number, y: number, tolerance: number): Means {
  if (routeIfServed(pair, "own", x, y, tolerance) < Infinity) return "own";
  return routeIfServed(pair, "gear", x, y, tolerance) < Infinity ? "gear" : "no";
}

function served({ setting }: Approach, { service }: Need, pair: Pair, ok: Means, x: number, y: number): Served {
  const path = pair.pathAt(x, y);
  const route = pair.routeOf(path);
  const own = ownLength(setting.form, service);
  const { points, underBody } = pair.lineAt(x, y);
  const fall = service === "sewer" ? { fall: { drop: pair.dropAt(x, y), needed: path * DRAIN_FALL } } : {};
  return {
    pair,
    result: {
      service, hookup: pair.hookup.id, inlet: pair.inlet, route, own,
      extra: ok === "own" ? 0 : Math.max(0, route - own),
      ok, underBody,
      line: points.map(([px, py]) => sitePoint(px, py)),
      ...fall,
    },
  };
}

function unknown({ setting }: Approach, { service }: Need): Served {
  return {
    pair: null,
    result: { service, hookup: null, inlet: null, route: null, own: ownLength(setting.form, service), extra: 0, ok: "no", underBody: false, line: [] },
  };
}
