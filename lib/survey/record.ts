import { siteSchema, surveyTarget, type Site, type SiteInput } from "@/lib/park";

/** A record as the engine reads it; null where it is not sound. */
export function soundSite(record: SiteInput): Site | null {
  const read = siteSchema.safeParse(record);
  return read.success ? read.data : null;
}

/** The record with another value in a field that a measurement can give, things found by their ids. */
export function withField(record: SiteInput, of: string, value: unknown): SiteInput {
  const { list, id, field } = surveyTarget(of)!;
  const inList = <T extends { readonly id: string }>(things: readonly T[] | null | undefined) => (things ?? []).map((thing) => (thing.id === id ? { ...thing, [field]: value } : thing));
  switch (list) {
    case "obstacles": return { ...record, obstacles: inList(record.obstacles) };
    case "hookups": return { ...record, hookups: inList(record.hookups) };
    case "parking": return { ...record, parking: inList(record.parking) };
    case "approach.heightLimits": return record.approach ? { ...record, approach: { ...record.approach, heightLimits: inList(record.approach.heightLimits) } } : record;
    case "": return { ...record, [field]: value };
  }
}
