import { boundsOf } from "@/lib/plane";
import type { Obstacle, Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { Policy } from "../policy";
import type { Change, Service } from "../types";

/** What a fit is asked about. */
export interface Case {
  readonly site: Site;
  readonly rig: Rig;
  readonly policy: Policy;
}

/** Whose a change is to make: the guest's own, or the park's ground and leave. */
export type Owner = "guest" | "park";

export function remedyOwner({ code }: Pick<Change, "code">): Owner {
  return code === "leave-in" || code === "do-without" || code === "park-elsewhere" ? "guest" : "park";
}

/** The case after a change. Records are copied, never altered. */
export function applyChange(change: Change, { site, rig, policy }: Case): Case {
  switch (change.code) {
    case "remove":
      return { site: { ...site, obstacles: site.obstacles.filter((o) => o.id !== change.what) }, rig, policy };
    case "trim":
      return { site: withObstacle(site, change.what, (o) => ({ ...o, crownFrom: change.amount, crownTo: Math.max(o.crownTo ?? 0, change.amount) })), rig, policy };
    case "move":
      return { site: moved(site, change.what, change.by), rig, policy };
    case "widen-left": case "widen-right": case "lengthen":
      return { site: { ...site, pad: { ...site.pad, outline: stretched(site, change.code, change.amount) } }, rig, policy };
    case "add-receptacle":
      return { site: withHookup(site, change.what, (h) => ({ ...h, receptacles: [...(h.receptacles ?? []), change.amount as 50 | 30 | 20 | 15] })), rig, policy };
    case "add-hookup":
      return { site: { ...site, hookups: [...site.hookups, newHookup(site, change.what, change.at, rig)] }, rig, policy };
    case "level":
      return { site: { ...site, ground: { along: 0, across: 0, heights: undefined } }, rig, policy };
    case "waive":
      return waived(change.what, { site, rig, policy });
    case "leave-in":
      return { site, rig: { ...rig, parts: rig.parts.filter((p) => p.id !== change.what) }, policy };
    case "do-without":
      return { site, rig: { ...rig, wants: rig.wants.filter((service) => service !== change.what) }, policy };
    case "park-elsewhere":
      return { site, rig: { ...rig, tow: rig.tow && { ...rig.tow, stays: "elsewhere" } }, policy };
    case "enter-from-either":
      return { site: { ...site, enterFrom: "either" }, rig, policy };
    case "allow-run":
      return { site, rig, policy: { ...policy, longest: { ...policy.longest, [change.what]: change.amount } } };
    case "allow-lift":
      return { site, rig, policy: change.what === "side" ? { ...policy, maxLiftSide: change.amount } : { ...policy, maxLiftAlong: change.amount } };
  }
}

function withObstacle(site: Site, id: string, change: (o: Obstacle) => Obstacle): Site {
  return { ...site, obstacles: site.obstacles.map((o) => (o.id === id ? change(o) : o)) };
}

function withHookup(site: Site, id: string, change: (h: Site["hookups"][number]) => Site["hookups"][number]): Site {
  return { ...site, hookups: site.hookups.map((h) => (h.id === id ? change(h) : h)) };
}

/** An obstacle or hookup carried off by (dx, dy). A drain down a bank stays as deep as it was. */
function moved(site: Site, id: string, [dx, dy]: readonly [number, number]): Site {
  const shift = ([x, y]: readonly [number, number]): [number, number] => [x + dx, y + dy];
  const carried = withObstacle(site, id, (o) => ({ ...o, at: o.at && shift(o.at), outline: o.outline?.map(shift) }));
  return withHookup(carried, id, (h) => ({ ...h, at: shift(h.at) }));
}

/** Everything of the pad beyond its middle carried out by so much: the sides keep their lines, the end or edge its shape. */
function stretched(site: Site, way: "widen-left" | "widen-right" | "lengthen", by: number): [number, number][] {
  const { minX, maxX, minY, maxY } = boundsOf(site.pad.outline);
  const midX = (minX + maxX) / 2, midY = (minY + maxY) / 2;
  return site.pad.outline.map(([x, y]) => {
    if (way === "lengthen") return [x > midX ? x + by : x, y];
    if (way === "widen-left") return [x, y > midY ? y + by : y];
    return [x, y < midY ? y - by : y];
  });
}

/** A hookup as the trade sets them (heights by common practice). */
function newHookup(site: Site, service: Service, at: readonly [number, number], rig: Rig): Site["hookups"][number] {
  const plug = rig.electric?.plug ?? 30;
  const id = unusedId(site, service);
  const base = { id, kind: service, at: [at[0], at[1]] as [number, number], receptacles: undefined, volts: undefined, pressure: undefined, groundZ: undefined, postRadius: undefined, postHeight: undefined };
  if (service === "power") return { ...base, height: 900, receptacles: [plug], volts: 120 };
  return service === "water" ? { ...base, height: 600 } : { ...base, height: 60 };
}

function unusedId(site: Site, service: Service): string {
  const taken = new Set([...site.obstacles, ...site.hookups].map((o) => o.id));
  let id = `new-${service}`;
  while (taken.has(id)) id += "-1";
  return id;
}

function waived(rule: string, { site, rig, policy }: Case): Case {
  const key = rule.slice("rule:".length);
  return { site: { ...site, rules: { ...site.rules, [key]: undefined } as Site["rules"] }, rig, policy };
}
