import type { Units } from "@/lib/measure/parse";
import type { CancellationStep, HouseRules, Lendable, StaySettings } from "@/lib/stays";
import { catalogueOf, formatLength } from "@/lib/wording";
import type { ChangeLine } from "./policy-words";

const { staySettings: words, stays } = catalogueOf();

/** What reads from a settings record one line at a time, and what it is called. */
const plain: readonly { readonly name: string; readonly text: (settings: StaySettings) => string }[] = [
  { name: words.fields.guestsMay.label, text: ({ guestsMay }) => words.guestsMay[guestsMay] },
  { name: words.fields.holdMinutes.label, text: ({ holdMinutes }) => words.minutes(holdMinutes) },
  { name: words.fields.answerHours.label, text: ({ answerHours }) => (answerHours === null ? words.waits : words.hours(answerHours)) },
  { name: words.fields.daysAhead.label, text: ({ daysAhead }) => words.days(daysAhead) },
  { name: words.fields.longestStay.label, text: ({ longestStay }) => words.nights(longestStay) },
  { name: words.fields.zone.label, text: ({ zone }) => zone },
  { name: words.fields.checkIn.label, text: ({ checkIn }) => words.clock(checkIn) },
  { name: words.fields.checkOut.label, text: ({ checkOut }) => words.clock(checkOut) },
  { name: words.fields.quietHours.label, text: ({ houseRules }) => hoursText(houseRules.quietHours) },
  { name: words.fields.generatorHours.label, text: ({ houseRules }) => hoursText(houseRules.generatorHours) },
  { name: words.fields.campfires.label, text: ({ houseRules }) => words.campfires[houseRules.campfires] },
];

/** Every difference of two records in words, a line each. */
export function stayChanges(before: StaySettings, after: StaySettings, units: Units, currency: string): ChangeLine[] {
  const lines = plain.map(({ name, text }) => ({ name, from: text(before), to: text(after) }));
  const terms = { name: words.fields.cancellation.label, from: termsText(before.cancellation, currency), to: termsText(after.cancellation, currency) };
  return [...[...lines, terms].filter(({ from, to }) => from !== to), ...ruleChanges(before.houseRules.more, after.houseRules.more), ...lendingChanges(before.lends, after.lends, units)];
}

function hoursText(hours: HouseRules["quietHours"]): string {
  return hours ? words.between(hours.from, hours.to) : words.none;
}

export function termsText(steps: readonly CancellationStep[], currency: string): string {
  const longestFirst = [...steps].sort((a, b) => b.daysBefore - a.daysBefore);
  return words.terms(longestFirst.map((step) => ({ daysBefore: step.daysBefore, keeps: words.keeps(step, (amount) => stays.money(amount, currency)) })));
}

function ruleChanges(before: readonly string[], after: readonly string[]): ChangeLine[] {
  return [
    ...before.filter((rule) => !after.includes(rule)).map((rule) => ({ name: words.ruleName, from: words.rule(rule), to: words.none })),
    ...after.filter((rule) => !before.includes(rule)).map((rule) => ({ name: words.ruleName, from: words.none, to: words.rule(rule) })),
  ];
}

function lendingChanges(before: readonly Lendable[], after: readonly Lendable[], units: Units): ChangeLine[] {
  const text = (thing: Lendable | undefined) => (thing ? words.thing(thing.name, thing.kind, thing.reach === null ? null : formatLength(thing.reach, units, "nearest"), thing.count) : words.notThere);
  return [...new Set([...before, ...after].map(({ id }) => id))].flatMap((id) => {
    const [was, is] = [before, after].map((list) => list.find((thing) => thing.id === id));
    const [from, to] = [text(was), text(is)];
    return from === to ? [] : [{ name: words.thingName((was ?? is)!.name), from, to }];
  });
}
