import type { HouseRules, StaySettings } from "@/lib/stays";
import { canonicalJson } from "@/lib/jobs/content-key";

/** What is set by itself: a setting, or one of the house rules. */
export type StaySetting = Exclude<keyof StaySettings, "houseRules"> | keyof HouseRules;

const rules: readonly (keyof HouseRules)[] = ["quietHours", "generatorHours", "campfires", "more"];

/** Which settings differ, in the record's order. */
export function changedSettings(before: StaySettings, after: StaySettings): StaySetting[] {
  const plain = (Object.keys(before) as (keyof StaySettings)[]).filter((key): key is Exclude<keyof StaySettings, "houseRules"> => key !== "houseRules" && !same(before[key], after[key]));
  return [...plain, ...rules.filter((rule) => !same(before.houseRules[rule], after.houseRules[rule]))];
}

export interface Merged {
  readonly settings: StaySettings;
  /** Settings that both changed, and not to the same: `mine` stands in the result. */
  readonly both: readonly StaySetting[];
}

/** What I changed of `base`, on top of `theirs`: what I left alone is as they have it. */
export function mergeSettings(base: StaySettings, mine: StaySettings, theirs: StaySettings): Merged {
  const ofMine = changedSettings(base, mine), ofTheirs = changedSettings(base, theirs);
  const { houseRules, ...plain } = theirs;
  const merged = { ...plain, houseRules: { ...houseRules } } as StaySettings;
  for (const key of ofMine) {
    if (isRule(key)) Object.assign(merged.houseRules, { [key]: mine.houseRules[key] });
    else Object.assign(merged, { [key]: mine[key] });
  }
  const both = ofMine.filter((key) => ofTheirs.includes(key) && !same(valueOf(mine, key), valueOf(theirs, key)));
  return { settings: merged, both };
}

function isRule(key: StaySetting): key is keyof HouseRules {
  return (rules as readonly string[]).includes(key);
}

function valueOf(settings: StaySettings, key: StaySetting): unknown {
  return isRule(key) ? settings.houseRules[key] : settings[key];
}

function same(a: unknown, b: unknown): boolean {
  return canonicalJson(a) === canonicalJson(b);
}
