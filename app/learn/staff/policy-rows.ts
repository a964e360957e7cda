import { z } from "zod";
import { policySchema, type Policy } from "@/lib/fit";
import { catalogueOf, numbersFor, type Numbers } from "@/lib/wording";
import type { Units } from "@/lib/measure";

export interface PolicyRow {
  /** As it is named in the record: `longest.power`. */
  readonly name: string;
  readonly meaning: string;
  /** In the reader's units. */
  readonly standard: string;
  readonly here: string;
  /** As the record has it, where that reads otherwise. */
  readonly standardRecord: string | null;
  readonly hereRecord: string | null;
  readonly differs: boolean;
}

/** What the schema says of one setting. */
interface Described {
  readonly description?: string;
  readonly default?: unknown;
  readonly properties?: Readonly<Record<string, Described>>;
}

/** How the schema's descriptions name the unit of a number. */
const UNIT = / ?\((mm|kPa|per cent)\)/;

/** What a reader's lengths are rounded to, mm: less than that must not read as nothing. */
const FINEST: Readonly<Record<Units, number>> = { "ft-in": 12.7, metric: 10 };

/** Every setting there is, from the schema itself: what it means, its default, and what this park has. */
export function policyRows(policy: Policy, units: Units): PolicyRow[] {
  const schema = z.toJSONSchema(policySchema, { io: "input" }) as Described;
  const n = numbersFor(units);
  return rowsOf(schema, policy as Readonly<Record<string, unknown>>, "", n);
}

function rowsOf(schema: Described, values: Readonly<Record<string, unknown>>, prefix: string, n: Numbers): PolicyRow[] {
  return Object.entries(schema.properties ?? {}).flatMap(([field, described]) => {
    const name = `${prefix}${field}`, value = values[field];
    if (described.properties) return rowsOf(described, value as Readonly<Record<string, unknown>>, `${name}.`, n);
    const description = described.description ?? "";
    const unit = UNIT.exec(description)?.[1] ?? null;
    const [standard, here] = [told(described.default, unit, n), told(value, unit, n)];
    return [{ name, meaning: description.replace(UNIT, ""), standard: standard.text, here: here.text, standardRecord: standard.record, hereRecord: here.record, differs: JSON.stringify(described.default) !== JSON.stringify(value) }];
  });
}

function told(value: unknown, unit: string | null, n: Numbers): { readonly text: string; readonly record: string | null } {
  const { policyValue, services } = catalogueOf().learn.staff({ n });
  const same = (text: string) => ({ text, record: null });
  if (typeof value === "boolean") return same(value ? policyValue.yes : policyValue.no);
  if (Array.isArray(value)) return same(value.length > 0 ? catalogueOf().list(value.map((v) => services[String(v)] ?? String(v))) : policyValue.none);
  if (typeof value !== "number") return same(String(value));
  switch (unit) {
    case "mm": return { text: value > 0 && value < FINEST[n.units] ? policyValue.under(n.lacking(value)) : n.measured(value), record: `${value} ${unit}` };
    case "kPa": return n.units === "metric" ? same(n.pressure(value)) : { text: n.pressure(value), record: `${value} ${unit}` };
    case "per cent": return same(policyValue.percent(value));
    default: return same(String(value));
  }
}
