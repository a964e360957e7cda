import { defaultStaySettings, lendableKinds } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import type { DraftContext } from "./draft-context";
import { draftOf } from "./draft";

const { staySettings: words, settings: { preview, stale }, guestStay } = catalogueOf();

/** A field as the form shows it. What it is called and what it means, in words: none of them is made in the browser. */
export interface FieldSpec {
  readonly name: string;
  readonly label: string;
  readonly kind: "count" | "time" | "text" | "choice" | "lines";
  readonly unit?: string;
  readonly options?: readonly { readonly value: string; readonly text: string }[];
}

/** Fields that belong together, with what they mean. */
export interface RowSpec {
  readonly key: string;
  readonly fields: readonly FieldSpec[];
  readonly means: string;
  readonly usual: string | null;
}

export interface FormLayout {
  readonly groups: readonly { readonly title: string; readonly rows: readonly RowSpec[] }[];
  readonly steps: ListSpec;
  readonly things: ListSpec;
  readonly zones: readonly string[];
  readonly words: FormWords;
}

/** A list of lines, with the fields of each. Names of fields are without the list and the line. */
export interface ListSpec {
  readonly title: string;
  readonly means: string;
  readonly fields: readonly FieldSpec[];
  readonly more: string;
}

export type FormWords = ReturnType<typeof formWords>;

/** The whole form in words. */
export function layoutOf(by: DraftContext): FormLayout {
  const { fields, groups } = words;
  return {
    groups: [
      { title: groups.booking, rows: [choice("guestsMay", words.guestsMay), count("holdMinutes"), count("answerHours"), count("daysAhead"), count("longestStay")] },
      { title: groups.times, rows: [{ ...row("zone", [{ name: "zone", label: fields.zone.label, kind: "text" }]) }, time("checkIn"), time("checkOut")] },
      { title: groups.rules, rows: [hours("quietHours", "quiet"), hours("generatorHours", "generators"), choice("campfires", words.campfires), row("more", [{ name: "more", label: fields.more.label, kind: "lines" }], null)] },
    ],
    steps: { title: fields.cancellation.label, means: fields.cancellation.means, more: words.row.more.cancellation, fields: stepFields() },
    things: { title: fields.lends.label, means: `${fields.lends.means} ${words.reachBare[by.units]}`, more: words.row.more.lends, fields: thingFields() },
    zones: Intl.supportedValuesOf("timeZone"),
    words: formWords(),
  };
}

function formWords() {
  return { check: words.check, save: words.save, preview: words.preview, follows: words.follows, columns: preview.columns, reason: preview.reason, notSaved: preview.notSaved, stale: { title: stale.title, line: stale.line, keep: stale.keep }, lineOf: words.row.of };
}

type Plain = keyof Omit<typeof words.fields, "cancellation" | "lends">;

function row(key: Plain, fields: readonly FieldSpec[], usual: string | null = usualOf(key)): RowSpec {
  return { key, fields, means: words.fields[key].means, usual: usual === null ? null : words.usual(usual) };
}

function count(name: "holdMinutes" | "answerHours" | "daysAhead" | "longestStay"): RowSpec {
  return row(name, [{ name, label: words.fields[name].label, kind: "count", unit: words.fields[name].unit }]);
}

function time(name: "checkIn" | "checkOut"): RowSpec {
  return row(name, [{ name, label: words.fields[name].label, kind: "time" }]);
}

function hours(key: "quietHours" | "generatorHours", name: string): RowSpec {
  const { from, to } = words.fields[key];
  return row(key, [{ name: `${name}.from`, label: from, kind: "time" }, { name: `${name}.to`, label: to, kind: "time" }]);
}

function choice(name: "guestsMay" | "campfires", options: Readonly<Record<string, string>>): RowSpec {
  return row(name, [{ name, label: words.fields[name].label, kind: "choice", options: optionsOf(options) }]);
}

function optionsOf(of: Readonly<Record<string, string>>): { value: string; text: string }[] {
  return Object.entries(of).map(([value, text]) => ({ value, text }));
}

function stepFields(): FieldSpec[] {
  const { row: told } = words;
  return [{ name: "daysBefore", label: told.daysBefore, kind: "count" }, { name: "kind", label: told.keepKind, kind: "choice", options: optionsOf(words.keepKinds) }, { name: "value", label: told.keepValue, kind: "text" }];
}

function thingFields(): FieldSpec[] {
  const { row: told } = words;
  return [
    { name: "name", label: told.name, kind: "text" },
    { name: "kind", label: told.kind, kind: "choice", options: lendableKinds.map((value) => ({ value, text: words.kinds[value] })) },
    { name: "reach", label: told.reach, kind: "text" },
    { name: "count", label: told.count, kind: "count" },
  ];
}

/** What holds in a park that says nothing of it. */
function usualOf(key: Plain): string {
  const { houseRules: { quietHours, campfires }, checkIn, checkOut, zone } = defaultStaySettings;
  const { texts } = draftOf(defaultStaySettings, { units: "ft-in", places: 2 });
  switch (key) {
    case "guestsMay": return words.guestsMay[defaultStaySettings.guestsMay].toLowerCase();
    case "answerHours": return words.waits;
    case "zone": return zone;
    case "checkIn": return guestStay.hour(checkIn);
    case "checkOut": return guestStay.hour(checkOut);
    case "quietHours": return quietHours ? words.between(quietHours.from, quietHours.to) : words.none;
    case "generatorHours": return words.none;
    case "campfires": return words.campfires[campfires].toLowerCase();
    default: return texts[key] ?? words.none;
  }
}
