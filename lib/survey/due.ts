import { surveyTarget, type Measurement, type Site } from "@/lib/park";
import { latestOf } from "./latest";

/** Something to look at again. */
export interface Due {
  readonly site: string;
  readonly measurement: Measurement;
  /** The day by which, as `2026-11-26`. */
  readonly by: string;
  /** Said with the measurement; else it is the usual time for what was measured. */
  readonly said: boolean;
}

/**
 * After how many years one usually looks again (common practice; a park says otherwise with each measurement). Trees grow and
 * sag by the season, gravel moves, posts are added and hit; what is built stays. What was only judged by eye or read off a plan is
 * due after a season, however it stands.
 */
export const yearsUntilAgain = { tree: 1, wire: 1, ground: 2, hookup: 3, obstacle: 3, approach: 3, pad: 5, lot: 10, unmeasured: 1 } as const;

/** The day by which a measurement is usually to be looked at again. */
export function usualAgain(measurement: Pick<Measurement, "of" | "how" | "on">, site: Site): string {
  return yearsLater(measurement.on, yearsUntilAgain[kindOf(measurement, site)]);
}

/** What is due on a day or before it, longest due first. Of a field measured several times only the latest counts, and things that are gone are not due. */
export function dueOn(sites: readonly Site[], day: string): Due[] {
  const due = sites.flatMap((site) => [...latestOf(site).values()].filter((measurement) => isThere(measurement.of, site)).map((measurement) => dueOf(measurement, site)));
  return due.filter(({ by }) => by <= day).sort((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : 0));
}

export function dueOf(measurement: Measurement, site: Site): Due {
  return { site: site.id, measurement, by: measurement.again ?? usualAgain(measurement, site), said: measurement.again !== undefined };
}

/** Whether what a measurement gives is still on the site. */
export function isThere(of: string, site: Site): boolean {
  const target = surveyTarget(of);
  if (!target) return false;
  const { list, id, field } = target;
  switch (list) {
    case "obstacles": return site.obstacles.some((o) => o.id === id);
    case "hookups": return site.hookups.some((h) => h.id === id);
    case "parking": return site.parking?.some((p) => p.id === id) ?? false;
    case "approach.heightLimits": return site.approach?.heightLimits.some((h) => h.id === id) ?? false;
    case "": return field.startsWith("ground") || site[field as "pad" | "lot" | "roadEdge" | "exitEdge" | "approach"] !== undefined;
  }
}

function kindOf({ of, how }: Pick<Measurement, "of" | "how">, site: Site): keyof typeof yearsUntilAgain {
  if (how === "estimated" || how === "from-plan") return "unmeasured";
  const target = surveyTarget(of);
  if (!target || target.list === "parking") return "pad";
  if (target.list === "hookups") return "hookup";
  if (target.list === "approach.heightLimits") return "tree";
  if (target.list === "obstacles") {
    const kind = site.obstacles.find(({ id }) => id === target.id)?.kind;
    return kind === "tree" || kind === "wire" ? kind : "obstacle";
  }
  if (target.field.startsWith("ground")) return "ground";
  return target.field === "pad" || target.field === "lot" ? target.field : "approach";
}

/** The same day so many years later; of a leap day the 28th. */
function yearsLater(day: string, years: number): string {
  const year = Number(day.slice(0, 4)) + years, rest = day.slice(4);
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return `${String(year).padStart(4, "0")}${rest === "-02-29" && !leap ? "-02-28" : rest}`;
}
