import type { Conflict, FitResult, Service } from "../types";

/** The things that some constraints speak of, by id: of the rig (`body`, `supports`, `rig` for all of it, parts), of the site (`pad`, `road`, `lot`, obstacles, hookups), and services. */
export interface Involved {
  readonly rig: ReadonlySet<string>;
  readonly site: ReadonlySet<string>;
  readonly services: ReadonlySet<Service>;
}

/** The conflict worth a drawing: the first with a nearest try to show, else the first at all; null where there is none. */
export function conflictToShow({ conflicts }: Pick<FitResult, "conflicts">): Conflict | null {
  return conflicts.find((c) => c.shown !== null) ?? conflicts[0] ?? null;
}

export function thingsInvolved(constraints: readonly string[]): Involved {
  const rig = new Set<string>(), site = new Set<string>(), services = new Set<Service>();
  for (const id of constraints) {
    const [family, what = "rig", ...rest] = id.split(":");
    switch (family) {
      case "stand": rig.add("supports"); site.add("pad"); break;
      case "road": rig.add(what); site.add("road"); break;
      case "lot": rig.add(what); site.add("lot"); break;
      case "clear": rig.add(what); site.add(rest.join(":")); break;
      case "reach": case "fall": services.add(what as Service); break;
      case "power": services.add("power"); break;
      case "vehicle": rig.add("vehicle"); break;
      default: break; // rules and slopes are about no thing that could be drawn
    }
  }
  return { rig, site, services };
}
