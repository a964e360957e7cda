import type { Policy } from "@/lib/fit/policy";
import type { Units } from "@/lib/measure/parse";
import { catalogueOf, numbersFor } from "@/lib/wording";
import { isLength, policyFields, sameValue, valueOf, type PolicyField, type PolicyValue } from "./fit/fields";

const { settings: words, list } = catalogueOf();

/** One value that differs, in words. */
export interface ChangeLine {
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

/** Less than this reads as nothing in the reader's units, mm. */
const finest: Readonly<Record<Units, number>> = { "ft-in": 12.7, metric: 10 };
/** What rounding for reading may take off unsaid, mm. */
const unsaid = 0.5;

/** A value as it reads in the reader's units. */
export function valueText(value: PolicyValue, { kind }: PolicyField, units: Units): string {
  const { fit } = words, n = numbersFor(units);
  if (typeof value === "boolean") return value ? fit.yes : fit.no;
  if (typeof value !== "number") return value.length > 0 ? list(value.map((service) => fit.services[service as keyof typeof fit.services].toLowerCase())) : fit.none;
  switch (kind) {
    case "percent": return fit.percent(value);
    case "share": return fit.percent(Number((value * 100).toFixed(4)));
    case "pressure": return n.pressure(value);
    default: return value > 0 && value < finest[units] ? fit.under(n.lacking(value)) : n.measured(value);
  }
}

/** The length on record, where what is read is rounded; null where it is all. */
export function recordText(value: PolicyValue, { kind }: PolicyField, units: Units): string | null {
  if (!isLength(kind) || typeof value !== "number") return null;
  const step = finest[units];
  return Math.abs(Math.round(value / step) * step - value) < unsaid ? null : `${value} mm`;
}

/** Both together: "6 in (150 mm)". */
export function wholeText(value: PolicyValue, field: PolicyField, units: Units): string {
  const record = recordText(value, field, units);
  return record === null ? valueText(value, field, units) : `${valueText(value, field, units)} (${record})`;
}

export function policyChanges(before: Policy, after: Policy, units: Units): ChangeLine[] {
  return policyFields.flatMap((field) => {
    const [was, is] = [valueOf(before, field.name), valueOf(after, field.name)];
    return sameValue(was, is) ? [] : [{ name: words.policy[field.name].label, from: wholeText(was, field, units), to: wholeText(is, field, units) }];
  });
}
