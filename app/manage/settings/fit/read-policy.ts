import { policySchema, type Policy } from "@/lib/fit/policy";
import { parseLength, type Units } from "@/lib/measure/parse";
import { catalogueOf, formatLength } from "@/lib/wording";
import type { PolicySetting } from "@/lib/wording/en/manage-settings";
import { list, one, type Params } from "../../../components/rig-form/params";
import { bareUnitOf, isLength, policyFields, sameValue, valueOf, withValue, type PolicyField, type PolicyValue } from "./fields";

const { settings: words, lengthFault } = catalogueOf();

/** What an address says of the policy: the texts as typed, what is wrong with each, and the policy where nothing is. */
export interface PolicyForm {
  readonly texts: Readonly<Record<PolicySetting, string>>;
  readonly faults: Readonly<Partial<Record<PolicySetting, string>>>;
  /** The fields that stand otherwise than in the park's policy. */
  readonly changed: readonly PolicyField[];
  /** With everything that was typed; null where something cannot be read. */
  readonly policy: Policy | null;
}

const kPaPerPsi = 6.894757, mostLength = 100_000, mostPressure = 5000, mostSlope = 20;
/** A list of ticks with nothing ticked is still a list. */
export const nothingTicked = "-";

/** Reads what differs from `current`: a field that is not in the address stands as it is. Every fault at once. */
export function readPolicyForm(params: Params, current: Policy, units: Units): PolicyForm {
  const texts = {} as Record<PolicySetting, string>, faults: Partial<Record<PolicySetting, string>> = {}, changed: PolicyField[] = [];
  let policy = current;
  for (const field of policyFields) {
    const typed = typedText(params, field), held = valueOf(current, field.name);
    texts[field.name] = typed ?? textOf(held, field, units);
    if (typed === undefined) continue;
    const read = readValue(typed, field, units);
    if (!read.ok) { faults[field.name] = read.fault; continue; }
    if (sameValue(read.value, held)) continue;
    changed.push(field);
    policy = withValue(policy, field.name, read.value);
  }
  // Each field was held to the schema's bounds: one that is not is a fault of this file, and must not be saved.
  return { texts, faults, changed, policy: Object.keys(faults).length > 0 ? null : policySchema.parse(policy) };
}

/** What the form sent, as short as can be: fields whose text is still the one that was shown (`was.…`) are left out, numbers alone get their unit. */
export function shortParams(params: Params, units: Units): URLSearchParams {
  const short = new URLSearchParams();
  for (const field of policyFields) {
    const typed = typedText(params, field);
    if (typed === undefined || typed === one(params[`was.${field.name}`])) continue;
    short.set(field.name, withUnit(typed, field, units));
  }
  return short;
}

/** The value as it stands in its field: as it would be typed. */
export function textOf(value: PolicyValue, { kind }: PolicyField, units: Units): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value !== "number") return value.length > 0 ? value.join(",") : nothingTicked;
  switch (kind) {
    case "percent": return String(value);
    case "share": return String(Number((value * 100).toFixed(4)));
    case "pressure": return String(units === "metric" ? value : Math.round(value / kPaPerPsi));
    default: return lengthText(value, units);
  }
}

/** To the nearest half inch, but what would read as nothing in millimeters; in metric to the millimeter. */
function lengthText(mm: number, units: Units): string {
  if (units === "metric") return mm % 10 === 0 ? formatLength(mm, units, "nearest") : mm < 10 ? `${mm} mm` : `${Number((mm / 10).toFixed(2))} cm`;
  return mm > 0 && mm < 12.7 ? `${mm} mm` : formatLength(mm, units, "nearest");
}

function typedText(params: Params, { name, kind }: PolicyField): string | undefined {
  if (params[name] === undefined) return undefined;
  if (kind !== "services") return one(params[name])!.trim();
  const ticked = list(params[name]).flatMap((text) => text.split(",")).filter((text) => text !== nothingTicked && text !== "");
  return ticked.length > 0 ? [...new Set(ticked)].join(",") : nothingTicked;
}

function withUnit(text: string, { kind }: PolicyField, units: Units): string {
  if (/[a-z'"′″]/i.test(text) || !/\d/.test(text)) return text;
  if (kind === "pressure") return `${text} ${units === "metric" ? "kPa" : "psi"}`;
  return isLength(kind) ? `${text} ${bareUnitOf(kind, units)}` : text;
}

type Read = { readonly ok: true; readonly value: PolicyValue } | { readonly ok: false; readonly fault: string };

function readValue(text: string, { kind }: PolicyField, units: Units): Read {
  const fail = (fault: string): Read => ({ ok: false, fault });
  const { faults } = words;
  switch (kind) {
    case "yes-no": return text === "yes" || text === "no" ? { ok: true, value: text === "yes" } : fail(faults.choice);
    case "services": {
      const known = policySchema.shape.underBody.safeParse(text === nothingTicked ? [] : text.split(","));
      return known.success ? { ok: true, value: known.data } : fail(faults.choice);
    }
    case "percent": {
      const value = readNumber(text, /%$/);
      return value !== null && value <= mostSlope ? { ok: true, value } : fail(faults.percent(mostSlope));
    }
    case "share": {
      const value = readNumber(text, /%$/);
      return value !== null && value > 0 && value <= 100 ? { ok: true, value: Number((value / 100).toFixed(6)) } : fail(faults.share);
    }
    case "pressure": return readPressure(text, units);
    default: {
      const read = parseLength(text, bareUnitOf(kind, units));
      if (!read.ok) return fail(lengthFault(read.fault, read.text, units));
      return read.mm <= mostLength ? { ok: true, value: read.mm } : fail(faults.longest(formatLength(mostLength, units, "down")));
    }
  }
}

function readPressure(text: string, units: Units): Read {
  const named = /(psi|kpa)$/i.exec(text)?.[1]?.toLowerCase();
  const unit = named ?? (units === "metric" ? "kpa" : "psi");
  const value = readNumber(text, /(psi|kpa)$/i);
  const kPa = value === null ? null : unit === "psi" ? Number((value * kPaPerPsi).toFixed(1)) : value;
  if (kPa !== null && kPa <= mostPressure) return { ok: true, value: kPa };
  const shown = unit === "psi" ? `${Math.floor(mostPressure / kPaPerPsi)} psi` : `${mostPressure} kPa`;
  return { ok: false, fault: words.faults.pressure(shown, unit) };
}

/** A number not below zero, its unit written behind it or not; null where it is none. */
function readNumber(text: string, unit: RegExp): number | null {
  const plain = text.replace(unit, "").trim().replace(",", ".");
  return /^(\d{1,6}(\.\d{0,4})?|\.\d{1,4})$/.test(plain) ? Number(plain) : null;
}
