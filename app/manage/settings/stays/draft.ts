import { parseLength, type Units } from "@/lib/measure/parse";
import { isTimeZone, lendableKinds, mostMinor, mostNights, staySettingsSchema, type CancellationStep, type Lendable, type StaySettings } from "@/lib/stays";
import { catalogueOf, formatLength } from "@/lib/wording";
import { decimalOf, readMoney } from "@/lib/wording/money";

const { staySettings: { faults: told } } = catalogueOf();

/** The settings as they are typed: every value a text by its field's name, and how many lines the lists have. */
export interface StaysDraft {
  readonly texts: Readonly<Record<string, string>>;
  readonly steps: number;
  readonly things: number;
}

/** What texts are read by. */
export interface DraftUnits {
  readonly units: Units;
  /** Places of the currency after the point. */
  readonly places: number;
}

/** Lists end in this many empty lines to fill in. */
const spare = 1, mostLines = 100;

export function draftOf(settings: StaySettings, by: DraftUnits): StaysDraft {
  const { houseRules: { quietHours, generatorHours, campfires, more }, cancellation, lends } = settings;
  const texts: Record<string, string> = {
    guestsMay: settings.guestsMay, holdMinutes: String(settings.holdMinutes), answerHours: settings.answerHours === null ? "" : String(settings.answerHours),
    daysAhead: String(settings.daysAhead), longestStay: String(settings.longestStay), zone: settings.zone, checkIn: settings.checkIn, checkOut: settings.checkOut,
    "quiet.from": quietHours?.from ?? "", "quiet.to": quietHours?.to ?? "", "generators.from": generatorHours?.from ?? "", "generators.to": generatorHours?.to ?? "",
    campfires, more: more.join("\n"),
  };
  [...cancellation].sort((a, b) => b.daysBefore - a.daysBefore).forEach((step, i) => Object.assign(texts, { [`step.${i}.daysBefore`]: String(step.daysBefore), [`step.${i}.kind`]: step.keep.kind, [`step.${i}.value`]: keptText(step, by) }));
  lends.forEach((thing, i) => Object.assign(texts, { [`thing.${i}.id`]: thing.id, [`thing.${i}.name`]: thing.name, [`thing.${i}.kind`]: thing.kind, [`thing.${i}.reach`]: reachText(thing.reach, by.units), [`thing.${i}.count`]: String(thing.count) }));
  return { texts, steps: cancellation.length + spare, things: lends.length + spare };
}

/** What the form sent; anything that is no field of ours is passed over. */
export function readDraft(form: FormData): StaysDraft {
  const texts: Record<string, string> = {};
  for (const [name, value] of form) if (typeof value === "string" && /^[a-z]+(\.\w+){0,2}$/i.test(name)) texts[name] = value.trim().slice(0, name === "more" ? 10_000 : 200);
  const lines = (list: string) => Math.min(mostLines, Math.max(0, ...Object.keys(texts).flatMap((name) => (name.startsWith(`${list}.`) ? [Number(name.split(".")[1]) + 1] : []))) || spare);
  return { texts, steps: lines("step"), things: lines("thing") };
}

export type DraftFaults = Readonly<Record<string, string>>;

/** The settings that a draft means, or every fault of it by field. `base` is what was filled in: a length left as it was is not rounded. */
export function readSettings(draft: StaysDraft, base: StaySettings, by: DraftUnits): { readonly settings: StaySettings; readonly faults: null } | { readonly settings: null; readonly faults: DraftFaults } {
  const reader = new DraftReader(draft.texts);
  const read = {
    zone: reader.check("zone", (text) => (isTimeZone(text) ? text : null), told.zone),
    guestsMay: reader.oneOf("guestsMay", ["ask", "book"]),
    holdMinutes: reader.whole("holdMinutes", 1, 1440),
    answerHours: draft.texts["answerHours"] ? reader.whole("answerHours", 1, 720) : null,
    checkIn: reader.time("checkIn"), checkOut: reader.time("checkOut"),
    daysAhead: reader.whole("daysAhead", 1, 730), longestStay: reader.whole("longestStay", 1, mostNights),
    houseRules: { quietHours: reader.hours("quiet"), generatorHours: reader.hours("generators"), campfires: reader.oneOf("campfires", ["rings-only", "anywhere", "never"]), more: reader.rules() },
    cancellation: readSteps(reader, draft.steps, by),
    lends: readThings(reader, draft.things, base.lends, by.units),
  };
  if (Object.keys(reader.faults).length > 0) return { settings: null, faults: reader.faults };
  return { settings: staySettingsSchema.parse(read), faults: null };
}

/** Reads texts by the name of their field and keeps what is wrong with each. */
class DraftReader {
  readonly faults: Record<string, string> = {};
  constructor(private readonly texts: Readonly<Record<string, string>>) {}

  text(name: string): string {
    return this.texts[name] ?? "";
  }

  fail(name: string, fault: string): null {
    this.faults[name] ??= fault;
    return null;
  }

  check<T>(name: string, read: (text: string) => T | null, fault: string): T | null {
    return read(this.text(name)) ?? this.fail(name, fault);
  }

  whole(name: string, least: number, most: number): number | null {
    return this.check(name, (text) => (/^\d{1,7}$/.test(text) && Number(text) >= least && Number(text) <= most ? Number(text) : null), told.whole(least, most));
  }

  oneOf<T extends string>(name: string, known: readonly T[]): T | null {
    return this.check(name, (text) => known.find((one) => one === text) ?? null, told.choice);
  }

  time(name: string): string | null {
    return this.check(name, (text) => (/^([01]\d|2[0-3]):[0-5]\d$/.test(text) ? text : null), told.time);
  }

  /** Null where both are empty: none are kept. */
  hours(name: string): { from: string; to: string } | null {
    const [from, to] = [`${name}.from`, `${name}.to`];
    if (!this.text(from) && !this.text(to)) return null;
    if (!this.text(from) || !this.text(to)) return this.fail(this.text(from) ? to : from, told.bothTimes);
    const read = { from: this.time(from), to: this.time(to) };
    return read.from && read.to ? { from: read.from, to: read.to } : null;
  }

  rules(): string[] | null {
    const lines = this.text("more").split(/\r?\n/).map((line) => line.trim()).filter((line) => line !== "");
    return lines.length <= 30 && lines.every((line) => line.length <= 300) ? lines : this.fail("more", told.rules);
  }
}

/** Lines with nothing in them are none. The steps are told longest before first. */
function readSteps(reader: DraftReader, lines: number, by: DraftUnits): CancellationStep[] {
  const steps = rowsOf(lines).flatMap((i): (CancellationStep & { row: number })[] => {
    const name = (field: string) => `step.${i}.${field}`;
    if (!reader.text(name("daysBefore")) && !reader.text(name("value"))) return [];
    const daysBefore = reader.whole(name("daysBefore"), 0, 1000);
    const keep = readKeep(reader, name, by);
    return daysBefore === null || keep === null ? [] : [{ daysBefore, keep, row: i }];
  });
  steps.forEach(({ daysBefore, row }, i) => { if (steps.slice(0, i).some((other) => other.daysBefore === daysBefore)) reader.fail(`step.${row}.daysBefore`, told.sameDays); });
  const filled = rowsOf(lines).some((i) => reader.text(`step.${i}.daysBefore`) || reader.text(`step.${i}.value`));
  if (filled && !rowsOf(lines).some((i) => reader.text(`step.${i}.daysBefore`) === "0")) reader.fail(`step.${Math.max(0, lines - 1)}.daysBefore`, told.lastStep);
  return steps.map(({ row: _, ...step }) => step).sort((a, b) => b.daysBefore - a.daysBefore);
}

function readKeep(reader: DraftReader, name: (field: string) => string, { places }: DraftUnits): CancellationStep["keep"] | null {
  const value = name("value");
  switch (reader.oneOf(name("kind"), ["share", "nights", "amount"])) {
    case "share": {
      const basisPoints = reader.check(value, (text) => (/^\d{1,3}([.,]\d{1,2})?\s*%?$/.test(text) ? Math.round(Number(text.replace(",", ".").replace(/\s*%$/, "")) * 100) : null), told.share);
      return basisPoints === null ? null : basisPoints <= 10_000 ? { kind: "share", basisPoints } : reader.fail(value, told.share);
    }
    case "nights": {
      const nights = reader.whole(value, 0, mostNights);
      return nights === null ? null : { kind: "nights", nights };
    }
    case "amount": {
      const amount = reader.check(value, (text) => readMoney(text, places), told.amount(decimalOf(10 * 10 ** places, places)));
      return amount === null ? null : amount <= mostMinor ? { kind: "amount", amount } : reader.fail(value, told.amount(decimalOf(10 * 10 ** places, places)));
    }
    case null: return null;
  }
}

function readThings(reader: DraftReader, lines: number, base: readonly Lendable[], units: Units): Lendable[] {
  const ids = new Set(base.map(({ id }) => id));
  return rowsOf(lines).flatMap((i): Lendable[] => {
    const name = (field: string) => `thing.${i}.${field}`;
    if (!reader.text(name("name"))) return [];
    const called = reader.check(name("name"), (text) => (text.length <= 80 ? text : null), told.name);
    const kind = reader.oneOf(name("kind"), lendableKinds), count = reader.whole(name("count"), 0, 1000);
    const before = base.find(({ id }) => id === reader.text(name("id")));
    const reach = readReach(reader, name("reach"), before, units);
    if (called === null || kind === null || count === null) return [];
    const id = before?.id ?? idFor(called, ids);
    ids.add(id);
    return [{ id, name: called, kind, reach, count }];
  });
}

/** Which item it is, is told by its id, whatever it is called later: loans carry it. A new one gets it from its name, and none that another has or had. */
function idFor(name: string, taken: ReadonlySet<string>): string {
  const plain = name.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 32).replace(/-+$/, "") || "thing";
  for (let n = 1; n <= mostLines + 1; n++) {
    const id = n === 1 ? plain : `${plain}-${n}`;
    if (!taken.has(id)) return id;
  }
  throw new RangeError(`no id is left for ${name}`);
}

function readReach(reader: DraftReader, name: string, before: Lendable | undefined, units: Units): number | null {
  const text = reader.text(name), most = 100_000;
  if (text === "") return null;
  if (before && text === reachText(before.reach, units)) return before.reach;
  const read = parseLength(text, units === "metric" ? "m" : "ft");
  const mm = read.ok ? Math.round(read.mm) : 0;
  return mm >= 1 && mm <= most ? mm : reader.fail(name, told.reach(formatLength(most, units, "down")));
}

function reachText(reach: number | null, units: Units): string {
  return reach === null ? "" : formatLength(reach, units, "nearest");
}

function keptText({ keep }: CancellationStep, { places }: DraftUnits): string {
  switch (keep.kind) {
    case "share": return String(Number((keep.basisPoints / 100).toFixed(2)));
    case "nights": return String(keep.nights);
    case "amount": return decimalOf(keep.amount, places);
  }
}

function rowsOf(lines: number): number[] {
  return Array.from({ length: lines }, (_, i) => i);
}
