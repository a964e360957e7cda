import type { Units } from "@/lib/measure";
import { hookupSchema, obstacleSchema, type FieldChange, type RingSize, type Site, type SiteDifference } from "@/lib/park";
import { boundsOf, type Point } from "@/lib/plane";
import { catalogueOf, numbersFor } from "./catalogue";
import type { Numbers } from "./format";
import { unbroken } from "./lengths";
import { siteThing } from "./things";

/** One line of what changes: a thing, which of it, and what it was and is. */
export interface ChangeRow {
  readonly key: string;
  readonly thing: string;
  /** Which of it; empty where it is the whole. */
  readonly field: string;
  readonly before: string;
  readonly after: string;
  /** What is to be said beside it, such as how far it was moved. */
  readonly note: string;
}

/** What differs, in words and the reader's units. Measurements are counted in one row. `before` and `after` are the two records. */
export function changeRows(differences: readonly SiteDifference[], before: Site | null, after: Site | null, units: Units): ChangeRow[] {
  const n = numbersFor(units);
  const rows = differences.filter(({ part }) => part !== "survey").flatMap((difference) => rowsOf(difference, before, after, n));
  const measured = differences.filter(({ part, id }) => part === "survey" && id !== null);
  return (measured.length === 0 ? rows : [...rows, surveyRow(measured, before, after)]).map((row) => ({ ...row, before: unbroken(row.before), after: unbroken(row.after), note: unbroken(row.note) }));
}

/** What a thing of a site is called where changes of it are told: "Oak", "Power pedestal", "Pad". */
export function nameOfDifference({ part, id, key }: Pick<SiteDifference, "part" | "id" | "key">, before: Site | null, after: Site | null): string {
  const { things, siteChanges: words, staff: { site } } = catalogueOf();
  if (part === "other") return words.note(id ?? key);
  if (part !== "obstacles" && part !== "hookups" && !(part === "parking" && id !== null)) return words.parts[part];
  const found = [after, before].flatMap((record) => (record && siteThing(id!, record)) ?? [])[0];
  return site.name(things.full(found ?? { type: "other", id: id! }));
}

function rowsOf(difference: SiteDifference, before: Site | null, after: Site | null, n: Numbers): ChangeRow[] {
  const { siteChanges: words } = catalogueOf();
  const { key, part, how, fields } = difference;
  const thing = nameOfDifference(difference, before, after);
  if (fields.length > 0) {
    return fields.map((field, i) => ({ key: `${key} ${i}`, thing, field: part === "rules" ? words.field(field.field) : field.field === part || part === "other" ? "" : words.field(field.field), ...valuesOf(field, n) }));
  }
  const told = (value: unknown) => describe(part, value, n);
  return [{ key, thing, field: "", before: how === "added" ? words.isNew : told(difference.before), after: how === "removed" ? words.gone : told(difference.after), note: "" }];
}

function valuesOf(change: FieldChange, n: Numbers): Pick<ChangeRow, "before" | "after" | "note"> {
  const { siteChanges: words, staff: { site, table } } = catalogueOf();
  switch (change.kind) {
    case "length": {
      const text = (mm: number | null) => (mm === null ? words.none : `${mm < 0 ? "−" : ""}${n.measured(Math.abs(mm) * (words.doubled.has(change.field) ? 2 : 1))}`);
      return { before: text(change.before), after: text(change.after), note: "" };
    }
    case "place": {
      const text = (at: Point | null) => (at ? site.spot({ into: at[0], left: at[1] }, n) : words.none);
      return { before: text(change.before), after: text(change.after), note: change.moved ? words.moved(change.moved, n) : "" };
    }
    case "ring": {
      const text = (ring: RingSize | null) => (ring ? words.ring(ring, n) : words.none);
      return { before: text(change.before), after: text(change.after), note: change.moved === null ? "" : words.cornerMoved(change.moved, n) };
    }
    case "slope": {
      const text = (percent: number | null) => (percent === null ? words.none : change.field === "along" ? table.slopeAlong(percent) : table.slopeAcross(percent));
      return { before: text(change.before), after: text(change.after), note: "" };
    }
    case "value": return { ...bothOf(change, n), note: "" };
  }
}

/** Values with words of their own; of what has none only that it is another. */
function bothOf({ field, before, after }: { readonly field: string; readonly before: unknown; readonly after: unknown }, n: Numbers): { before: string; after: string } {
  const { siteChanges: words } = catalogueOf();
  const [was, is] = [textOf(field, before, n), textOf(field, after, n)];
  if (was !== null && is !== null && was !== is) return { before: was, after: is };
  return { before: was === null || was === is ? words.before : was, after: is === null || was === is ? words.after : is };
}

function textOf(field: string, value: unknown, n: Numbers): string | null {
  const { siteChanges: words } = catalogueOf();
  if (value === null || value === undefined) return words.none;
  if (typeof value === "boolean") return value ? words.yes : words.no;
  if (field === "receptacles" && Array.isArray(value)) return words.amps(value.filter((a): a is number => typeof a === "number"));
  if (field === "heights" && Array.isArray(value)) return words.spots(value.length);
  if (Array.isArray(value)) return field === "roadEdge" || field === "exitEdge" ? null : words.entries(value.length);
  if (typeof value === "number") return field === "volts" ? words.volts(value) : field === "pressure" ? n.pressure(value) : field === "bearing" ? words.degrees(value) : field === "east" || field === "north" ? words.map(value) : String(value);
  return typeof value === "string" ? value.replaceAll("-", " ") : null;
}

/** What came or went, as one would find it. */
function describe(part: SiteDifference["part"], value: unknown, n: Numbers): string {
  const { siteChanges: words, staff: { site } } = catalogueOf();
  const spot = (at: Point | undefined) => (at ? [site.spot({ into: at[0], left: at[1] }, n)] : []);
  if (part === "obstacles") {
    const read = obstacleSchema.safeParse(value);
    return read.success ? [...spot(read.data.at), ...site.obstacle(read.data, n)].join(" ") : words.there;
  }
  if (part === "hookups") {
    const read = hookupSchema.safeParse(value);
    return read.success ? [...spot(read.data.at), ...site.hookup(read.data, n)].join(" ") : words.there;
  }
  const outline = (value as { outline?: Point[] } | null)?.outline;
  if (!Array.isArray(outline) || outline.length === 0) return words.there;
  const { minX, maxX, minY, maxY } = boundsOf(outline);
  return words.ring({ along: maxX - minX, across: maxY - minY, corners: outline.length }, n);
}

function surveyRow(measured: readonly SiteDifference[], before: Site | null, after: Site | null): ChangeRow {
  const { siteChanges: words } = catalogueOf();
  const many = (how: SiteDifference["how"]) => measured.filter((difference) => difference.how === how).length;
  const on = (site: Site | null) => words.entries(site?.survey?.measurements.length ?? 0);
  return { key: "survey", thing: words.parts.survey, field: "", before: on(before), after: on(after), note: `${words.measurements(many("added"), many("removed"), many("changed"))}.` };
}
