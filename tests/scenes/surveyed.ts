import { siteSchema, type MeasurementInput, type Site } from "@/lib/park";
import { between, chance, pick, type Random } from "./random";

/** The site as if somebody had measured most of it, with errors from a careful tape's to a guess. */
export function surveyed(site: Site, r: Random): Site {
  const measurements: MeasurementInput[] = [];
  const add = (of: string, error: number, how: MeasurementInput["how"] = "tape") => {
    if (chance(r, 0.7)) measurements.push({ id: `m${measurements.length}`, of, how, error, on: "2026-05-04" });
  };
  const length = () => pick(r, [5, 15, 40, 120]) + between(r, 0, 5);
  add("pad", length());
  if (site.lot) add("lot", length());
  if (site.roadEdge) add("roadEdge", length());
  add("ground", pick(r, [0.05, 0.2, 0.5]), "level");
  for (const o of site.obstacles) {
    const fields = ["at", "outline", "radius", "from", "to", "trunkRadius", "crownRadius", "crownFrom", "crownTo"] as const;
    for (const field of fields) if (o[field] !== undefined) add(`obstacles.${o.id}.${field}`, length());
  }
  for (const h of site.hookups) {
    for (const field of ["at", "height", "groundZ", "postRadius", "postHeight"] as const) if (h[field] !== undefined) add(`hookups.${h.id}.${field}`, length());
    if (h.pressure !== undefined) add(`hookups.${h.id}.pressure`, pick(r, [10, 60]));
  }
  return siteSchema.parse({ ...site, survey: { measurements } });
}
