import type { Measurement, Site } from "@/lib/park";

const known = new WeakMap<Site, ReadonlyMap<string, Measurement>>();

/** Of each field that was measured the measurement that counts: the latest, and of one day's the one listed last. By the field's path. */
export function latestOf(site: Site): ReadonlyMap<string, Measurement> {
  let latest = known.get(site);
  if (!latest) {
    const made = new Map<string, Measurement>();
    for (const measurement of site.survey?.measurements ?? []) {
      const before = made.get(measurement.of);
      // ISO days compare as texts.
      if (!before || before.on <= measurement.on) made.set(measurement.of, measurement);
    }
    known.set(site, (latest = made));
  }
  return latest;
}

/** The same for one field; `ground` speaks for both of its slopes, the later of the two counting. */
export function measurementOf(site: Site, path: string): Measurement | null {
  const latest = latestOf(site), own = latest.get(path) ?? null;
  if (path !== "ground.along" && path !== "ground.across") return own;
  const both = latest.get("ground") ?? null;
  return own && (!both || both.on < own.on) ? own : both;
}
