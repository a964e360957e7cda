import type { Conflict, Reason } from "@/lib/fit/types";
import type { Hindrance } from "./types";

/**
 * All that turns a rig away, each thing once: what the reasons name, and of every conflict (one for each heading that was
 * tried) what a person would name of it. A tree that the rig meets only while its wheels stay on the pad is the tree's doing,
 * not the pad's.
 */
export function hindrancesOf({ reasons, conflicts }: { readonly reasons: readonly Reason[]; readonly conflicts: readonly Conflict[] }): Hindrance[] {
  const found = [
    ...reasons.flatMap(ofReason),
    ...conflicts.flatMap(({ constraints }) => named(constraints).flatMap((id) => ofConstraint(id, reasons))),
  ];
  return [...new Set(found)];
}

/** What in a conflict is nearest to a thing that could be pointed at: obstacles, then edges, services, the pad itself. */
const RANK: Readonly<Record<string, number>> = { vehicle: 0, rule: 0, level: 0, power: 0, clear: 1, lot: 2, road: 2, reach: 3, fall: 3, stand: 4 };

function named(constraints: readonly string[]): string[] {
  const rankOf = (id: string) => RANK[familyOf(id)] ?? 5;
  const first = Math.min(...constraints.map(rankOf));
  return constraints.filter((id) => rankOf(id) === first);
}

function ofReason({ code, parts }: Reason): Hindrance[] {
  const [family = "", tail = ""] = code.split(":");
  switch (family) {
    case "rule": return [code === "rule:accessible" ? `rule:accessible:${parts[0] === "site" ? "kept" : "lacking"}` : code];
    case "missing": case "rinse-only": return [`missing:${tail}`];
    case "no-inlet": return [`inlet:${tail}`];
    case "plug": case "loads": return ["power"];
    default: return ofConstraint(code, []);
  }
}

/**
 * A constraint's id as what it stands for. A service that fails whatever the pose is `reach:<service>` in a conflict, while
 * its reason says why: then the reason has told it.
 */
function ofConstraint(id: string, reasons: readonly Reason[]): Hindrance[] {
  const [family, tail = "", ...rest] = id.split(":");
  switch (family) {
    case "clear": return [`thing:${rest.join(":")}`];
    case "stand": return ["pad"];
    case "road": case "lot": case "vehicle": case "power": return [family];
    case "fall": return ["fall"];
    case "level": return ["slope"];
    case "reach": return reasons.some(({ code }) => code === `missing:${tail}` || code === `rinse-only:${tail}` || code === `no-inlet:${tail}`) ? [] : [`run:${tail}`];
    default: return [];
  }
}

function familyOf(id: string): string {
  return id.slice(0, id.includes(":") ? id.indexOf(":") : undefined);
}
