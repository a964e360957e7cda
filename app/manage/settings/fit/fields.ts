import type { Policy } from "@/lib/fit/policy";
import type { BareUnit, Units } from "@/lib/measure/parse";
import type { manageSettings, PolicySetting } from "@/lib/wording/en/manage-settings";

/** How a value is typed. */
export type FieldKind = "small-length" | "large-length" | "percent" | "share" | "pressure" | "yes-no" | "services";

export interface PolicyField {
  readonly name: PolicySetting;
  readonly kind: FieldKind;
  readonly group: keyof typeof manageSettings.groups;
  /** Going this way from the usual value asks for less care where somebody could be hurt: said before it is saved. */
  readonly careless?: "less" | "more";
}

/** Every value of the policy, in the order in which the form asks for it. A test holds it against the schema. */
export const policyFields: readonly PolicyField[] = [
  { name: "clearance", kind: "small-length", group: "room" },
  { name: "headroom", kind: "small-length", group: "room" },
  { name: "limbRoom", kind: "small-length", group: "room" },
  { name: "footing", kind: "small-length", group: "room", careless: "less" },
  { name: "roadSetback", kind: "small-length", group: "room" },
  { name: "wireRoom", kind: "small-length", group: "safety", careless: "less" },
  { name: "wireClearance", kind: "small-length", group: "safety", careless: "less" },
  { name: "fireClearance", kind: "large-length", group: "safety", careless: "less" },
  { name: "longest.power", kind: "large-length", group: "hookups", careless: "more" },
  { name: "longest.water", kind: "large-length", group: "hookups" },
  { name: "longest.sewer", kind: "large-length", group: "hookups", careless: "more" },
  { name: "underBody", kind: "services", group: "hookups" },
  { name: "maxPressure", kind: "pressure", group: "hookups", careless: "more" },
  { name: "continuous", kind: "share", group: "hookups", careless: "more" },
  { name: "levelWithin", kind: "percent", group: "level", careless: "more" },
  { name: "maxLiftSide", kind: "small-length", group: "level", careless: "more" },
  { name: "maxLiftAlong", kind: "small-length", group: "level", careless: "more" },
  { name: "overflow", kind: "yes-no", group: "vehicles" },
  { name: "keepAccessible", kind: "yes-no", group: "vehicles" },
  { name: "tight", kind: "small-length", group: "marks" },
  { name: "comfort", kind: "small-length", group: "marks" },
  { name: "touch", kind: "small-length", group: "marks", careless: "more" },
];

export type PolicyValue = number | boolean | readonly string[];

export function valueOf(policy: Policy, name: PolicySetting): PolicyValue {
  const [first, second] = name.split(".") as [keyof Policy, string | undefined];
  const value = policy[first];
  return (second === undefined ? value : (value as Record<string, number>)[second]) as PolicyValue;
}

/** The policy with one value another; what is handed in stays as it is. */
export function withValue(policy: Policy, name: PolicySetting, value: PolicyValue): Policy {
  const [first, second] = name.split(".") as [keyof Policy, string | undefined];
  return { ...policy, [first]: second === undefined ? value : { ...(policy[first] as object), [second]: value } } as Policy;
}

export function sameValue(a: PolicyValue, b: PolicyValue): boolean {
  return Array.isArray(a) && Array.isArray(b) ? a.length === b.length && a.every((item) => b.includes(item)) : a === b;
}

/** What a number alone means in a field of lengths. */
export function bareUnitOf(kind: FieldKind, units: Units): BareUnit {
  const large = kind === "large-length";
  return units === "metric" ? (large ? "m" : "cm") : large ? "ft" : "in";
}

export function isLength(kind: FieldKind): boolean {
  return kind === "small-length" || kind === "large-length";
}
