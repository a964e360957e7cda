import { surveyTarget, type MeasurementInput } from "./survey-schema";
import type { SiteInput } from "./schema";

/**
 * What a measurement gives, wherever its thing stands in its list; undefined where the record has nothing of the kind. Of pad and lot that is the outline, of the way in
 * all but the heights over it, which are measured by themselves, and of one slope the spot heights where the ground is given by those.
 */
export function surveyedValue(record: SiteInput, of: string): unknown {
  const target = surveyTarget(of);
  if (!target) return undefined;
  const { list, id, field } = target, { ground } = record;
  if (list !== "") {
    const things: unknown = list === "approach.heightLimits" ? record.approach?.heightLimits : record[list];
    return Array.isArray(things) ? (things.find((thing: { id?: unknown } | null) => thing?.id === id) as Record<string, unknown> | undefined)?.[field] ?? undefined : undefined;
  }
  switch (field) {
    case "pad": return record.pad?.outline;
    case "lot": return record.lot?.outline;
    case "ground.along": return ground?.along ?? ground?.heights;
    case "ground.across": return ground?.across ?? ground?.heights;
    case "approach": return record.approach ? { ...record.approach, heightLimits: undefined } : undefined;
    default: return record[field as "ground" | "roadEdge" | "exitEdge"] ?? undefined;
  }
}

/** The thing of a record, by its key among {@link thingsIn}, that holds the number a measurement gives. */
export function thingMeasured(of: string): string | null {
  const target = surveyTarget(of);
  if (!target) return null;
  return (target.list === "" ? target.field : target.list === "approach.heightLimits" ? "approach" : `${target.list}.${target.id}`).replace(/^ground\..*/, "ground");
}

/** The measurements of a record; none where it has no such list. */
export function measurementsOf(record: SiteInput): readonly MeasurementInput[] {
  const held: unknown = record.survey?.measurements;
  return Array.isArray(held) ? (held as MeasurementInput[]) : [];
}
