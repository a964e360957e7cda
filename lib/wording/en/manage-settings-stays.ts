import type { CancellationStep, HouseRules, Lendable } from "@/lib/stays/settings";
import { guestStay } from "./guest-stay";
import { count } from "./text";

/** As guests read it: "10:00 PM". */
const { hour: clock } = guestStay;

const kinds: Readonly<Record<Lendable["kind"], string>> = {
  "power-cord": "Power cord", "water-hose": "Water hose", "sewer-hose": "Sewer hose", adapter: "Adapter", regulator: "Regulator", blocks: "Leveling blocks", other: "Something else",
};

const fires: Readonly<Record<HouseRules["campfires"], string>> = { "rings-only": "In fire rings only", anywhere: "Anywhere", never: "Never" };

/** The settings for stays: what each means, how it reads, and what follows from a change. `follows` is told before it is saved. */
export const manageSettingsStays = {
  title: "Stays, house rules and lending",
  lead: "How guests come to a stay, what they are told, and what the desk has to lend. Look at what follows before you save.",
  groups: { booking: "Booking", times: "Times", rules: "House rules", cancelling: "Canceling", lends: "What the desk lends" },
  fields: {
    guestsMay: { label: "A guest’s stay is", means: "Booked at once, or asked for and answered by the desk.", follows: "Counts for guests who send their form from now on. Stays that are booked or asked for stay as they are." },
    holdMinutes: { label: "A site is held for", unit: "minutes", means: "While a guest fills in the form. From 1 to 1,440.", follows: "Counts for sites held from now on." },
    answerHours: { label: "A request waits for", unit: "hours", means: "Then it gives its site back. From 1 to 720; empty: it waits until it is answered.", follows: "Counts for requests made from now on. Those that wait keep their time." },
    daysAhead: { label: "Guests arrive at most", unit: "days ahead", means: "The desk may go further. From 1 to 730.", follows: "Counts for guests who ask from now on. Stays that are booked further ahead stay." },
    longestStay: { label: "Guests stay at most", unit: "nights", means: "The desk may go up to 400. From 1 to 400.", follows: "Counts for guests who ask from now on. Longer stays that are booked stay." },
    zone: { label: "Time zone", means: "Tells which date it is in the park. By name, such as America/Denver.", follows: "Which day is today may change at once: in the lists of the day, in holds, and in what canceling costs." },
    checkIn: { label: "Guests come from", means: "On the arrival day. Told to guests, not enforced.", follows: "Told to all guests from now on, those who are booked as well. Nobody is sent word of it." },
    checkOut: { label: "Guests leave by", means: "On the departure day. Told to guests, not enforced.", follows: "Told to all guests from now on, those who are booked as well. Nobody is sent word of it." },
    quietHours: { label: "Quiet hours", from: "Quiet from", to: "Quiet until", means: "Leave both empty where the park keeps none.", follows: "Told on the page of every stay from now on. Nobody is sent word of it." },
    generatorHours: { label: "Generators", from: "Generators from", to: "Generators until", means: "May run between these alone. Leave both empty to say nothing of them.", follows: "Told on the page of every stay from now on. Nobody is sent word of it." },
    campfires: { label: "Fires", means: "Where they may be lit. Local fire rules and bans come first.", follows: "Told on the page of every stay from now on. Nobody is sent word of it." },
    more: { label: "Other rules", means: "One on each line, in your own words.", follows: "Told on the page of every stay from now on. Nobody is sent word of it." },
    cancellation: {
      label: "What the park keeps",
      means: "By how long before arrival a guest cancels. The last line is for 0 days, for who cancels late. Leave every line empty where nothing is kept.",
      follows: (stays: number) => `New terms count for stays that are booked from now on.${stays === 0 ? "" : ` ${stays === 1 ? "The stay that is booked now keeps" : `The ${stays} stays that are booked now keep`} the terms that were agreed to.`}`,
    },
    lends: { label: "What the desk lends", means: "Offered to guests whose own gear is too short. Clear the name of a line to take it off the list.", follows: "Offered from now on. What is lent stays noted with its stay." },
  },
  source: "Usual values are our own choice to begin with.",
  usual: (value: string) => `Usual: ${value}.`,
  guestsMay: { ask: "Asked for, the desk answers", book: "Booked at once" },
  campfires: fires,
  kinds,
  keepKinds: { share: "Percent of the price", nights: "Nights", amount: "Amount" },
  row: {
    daysBefore: "At least this many days before", keepKind: "Keep", keepValue: "How much",
    name: "Name", kind: "Kind", reach: "Length or lift", count: "How many",
    /** Filled in by the browser, for each line of a list. */
    of: "{label}, line {n}",
    more: { cancellation: "One more line for canceling", lends: "One more line for lending" },
  },
  reachBare: { "ft-in": "A number alone means feet.", metric: "A number alone means meters." },
  none: "none",
  waits: "until it is answered",
  minutes: (n: number) => count(n, "minute", "minutes"),
  hours: (n: number) => count(n, "hour", "hours"),
  days: (n: number) => count(n, "day", "days"),
  nights: (n: number) => count(n, "night", "nights"),
  clock,
  between: (from: string, to: string) => `${clock(from)} to ${clock(to)}`,
  thing: (name: string, kind: Lendable["kind"], reach: string | null, many: number) => `${many} to lend, “${name}” (${kinds[kind].toLowerCase()}${reach ? `, ${reach}` : ""})`,
  thingName: (name: string) => `Lending: ${name}`,
  notThere: "not on the list",
  rule: (text: string) => `“${text}”`,
  ruleName: "House rule",
  keeps: (step: CancellationStep, money: (amount: number) => string): string => {
    switch (step.keep.kind) {
      case "share": return `${Number((step.keep.basisPoints / 100).toFixed(2))}% of the price`;
      case "nights": return count(step.keep.nights, "night", "nights");
      case "amount": return money(step.keep.amount);
    }
  },
  terms: (steps: readonly { readonly daysBefore: number; readonly keeps: string }[]) => (steps.length === 0 ? "nothing is kept" : steps.map(({ daysBefore, keeps }) => (daysBefore === 0 ? `${keeps}${steps.length > 1 ? " if later" : " whenever it is"}` : `${keeps} if ${count(daysBefore, "day", "days")} or more before`)).join("; ")),
  check: "Show what would change",
  save: "Save",
  same: "Nothing is changed.",
  edited: "You changed something since you looked. Look again, then save.",
  preview: "What would change",
  follows: "What follows",
  lentMore: (name: string, out: number, left: number) => `${name}: ${out} ${out === 1 ? "is" : "are"} lent out now, and the list would have ${left === 0 ? "none" : left}. Ask for ${out - left === 1 ? "it" : "them"} back, or lend no more until ${out - left === 1 ? "it is" : "they are"} back.`,
  lentGone: (name: string, out: number) => `${name}: ${out} ${out === 1 ? "is" : "are"} lent out now. Taken off the list, ${out === 1 ? "it stays" : "they stay"} noted with the stays that have ${out === 1 ? "it" : "them"}.`,
  gone: "Could not be saved: the park is not there any more.",
  faults: {
    title: (n: number) => `${count(n, "field needs", "fields need")} another look`,
    zone: "Type a time zone by its name, such as America/Denver.",
    choice: "Choose one.",
    whole: (least: number, most: number) => `Type a whole number from ${least} to ${most.toLocaleString("en-US")}.`,
    time: "Type a time, such as 15:00.",
    bothTimes: "Type both times, or neither.",
    rules: "At most 30 rules, each of at most 300 letters.",
    sameDays: "Another line begins on the same day.",
    lastStep: "Add a line of 0 days, for who cancels late.",
    share: "Type a percentage from 0 to 100, such as 50.",
    amount: (example: string) => `Type an amount of money, such as ${example}.`,
    name: "Type a name of at most 80 letters, or clear the whole line.",
    reach: (most: string) => `Type a length up to ${most}, or leave it empty.`,
  },
};
