import type { StaySettings } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import { changedSettings, type StaySetting } from "./merge";

const { staySettings: words } = catalogueOf();

/** What is asked of the database for it. */
export interface FollowFacts {
  /** Stays that are asked for, booked or here, from today on. */
  readonly staysAhead: number;
  /** How many of each item are lent out now. */
  readonly stock: readonly { readonly id: string; readonly name: string; readonly out: number }[];
}

/** What follows from a change for guests, stays and loans that are there already: a sentence each, none twice. */
export function followsOf(before: StaySettings, after: StaySettings, facts: FollowFacts): string[] {
  const changed = changedSettings(before, after);
  return [...new Set([...changed.map((setting) => followOf(setting, facts)), ...(changed.includes("lends") ? lentOut(after, facts) : [])])];
}

function followOf(setting: StaySetting, { staysAhead }: FollowFacts): string {
  return setting === "cancellation" ? words.fields.cancellation.follows(staysAhead) : words.fields[setting].follows;
}

/** Items of which more are lent out than the list would have. */
function lentOut({ lends }: StaySettings, { stock }: FollowFacts): string[] {
  return stock.flatMap(({ id, name, out }) => {
    const thing = lends.find((one) => one.id === id);
    if (!thing) return out > 0 ? [words.lentGone(name, out)] : [];
    return out > thing.count ? [words.lentMore(thing.name, out, thing.count)] : [];
  });
}
