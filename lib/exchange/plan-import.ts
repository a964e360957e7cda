import { z } from "zod";
import { siteSchema, type SiteInput } from "@/lib/park";
import { dropContradicted, settleSurvey } from "@/lib/park/edit/survey";
import { rigSchema } from "@/lib/rig";
import type { IsoDate } from "@/lib/stays";
import { bounds, type Limits } from "./bounds";
import type { Json } from "./cells";
import { compareRecords, type RecordChange } from "./compare";
import { readCsv, type CsvTable } from "./csv-text";
import { decodeText, type ExchangeFile } from "./decode";
import { Drafts, tellIssues, type Draft } from "./draft";
import { Faults, type Fault } from "./faults";
import { readGeoJson } from "./geo-read";
import { listed } from "./geo-things";
import { bindHeader, findTable, type BoundHeader } from "./header";
import { keptSettings, rigEntry, type Inventory } from "./inventory";
import { readJson } from "./json-text";
import { originSchema, readOrigin } from "./origin";
import { sameJson, valueAt } from "./paths";
import { planStays, type StayPlan } from "./plan-stays";
import { kindOfJson, readRecords } from "./read-json";
import { StayRows } from "./read-stays";
import { readTable } from "./read-table";
import { tables, type TableName } from "./tables";

/** What becomes of what a file does not name: it stays, or is taken out. */
export type Missing = "keep" | "remove";

/** A file as it was understood. */
export interface FileRead {
  readonly file: string;
  readonly what: TableName | "stays" | "json-sites" | "json-rigs" | "json-park" | "map" | null;
  readonly rows: number;
  /** Of a table: the columns that were recognised, with the unit their headers name. */
  readonly columns: readonly { readonly header: string; readonly unit: string | null }[];
  /** Headers that mean nothing here, and were passed over. */
  readonly passed: readonly string[];
  /** Of a map: features of no site. */
  readonly foreign: number;
}

export interface RecordPlan {
  readonly id: string;
  readonly label: string;
  readonly what: "added" | "changed" | "removed";
  /** The version that it changes. */
  readonly base: number | null;
  readonly before: Json | null;
  readonly after: Json | null;
  readonly changes: readonly RecordChange[];
}

/** What an upload would do. With any fault nothing of it is done. */
export interface ImportPlan {
  readonly faults: readonly Fault[];
  /** How many there are; the list is cut short. */
  readonly faultCount: number;
  readonly files: readonly FileRead[];
  readonly sites: readonly RecordPlan[];
  readonly rigs: readonly RecordPlan[];
  readonly stays: readonly StayPlan[];
  /** The day by which stays were judged; null where no table of stays was sent. */
  readonly today: IsoDate | null;
  /** Of stays: rows that say what is there; null where no table of stays was sent. */
  readonly unchanged: { readonly sites: number; readonly rigs: number; readonly stays: number | null };
  /** The park's file where it changes, and whether it has other settings than the park, which stay as they are. */
  readonly park: { readonly before: Json; readonly after: Json; readonly fields: readonly string[] } | null;
  readonly settingsLeft: boolean;
}

/** Works out what files would change in an inventory, and everything that is wrong with them. Changes nothing. */
export function planImport(files: readonly ExchangeFile[], inventory: Inventory, missing: Missing, limits: Limits): ImportPlan {
  const planning = new Planning(inventory, limits);
  const size = files.reduce((sum, { bytes }) => sum + bytes.length, 0);
  if (files.length > bounds.files) planning.faults.add({ file: files[0]!.name, code: "too-many-files", count: bounds.files });
  else if (size > limits.bytes) planning.faults.add({ file: files[0]!.name, code: "too-large", count: limits.bytes });
  else planning.read(files);
  return planning.finish(missing);
}

interface TextTable {
  readonly file: string;
  readonly header: BoundHeader;
  readonly table: CsvTable;
}

/** One import while it is planned. */
class Planning {
  readonly faults = new Faults();
  readonly #files: FileRead[] = [];
  readonly #sites: Drafts;
  readonly #rigs: Drafts;
  /** The lists, by their names in a record, of which the upload has a file. */
  readonly #lists = new Set<string>();
  #park: Json | null = null;
  #stays: TextTable | null = null;

  constructor(readonly inventory: Inventory, readonly limits: Limits) {
    this.#sites = new Drafts(inventory.sites.map(({ record, version }) => ({ id: String(valueAt(record, ["id"])), record, version })));
    this.#rigs = new Drafts(inventory.rigs.map((rig) => ({ id: String(valueAt(rig.record, ["id"])), record: rigEntry(rig), version: null })));
  }

  /** Whole records first, then tables, those of records before those of their things, then maps: each may speak of what the one before made. */
  read(files: readonly ExchangeFile[]): void {
    const texts: TextTable[] = [], maps: { file: string; value: Json }[] = [];
    for (const { name, bytes } of files) {
      const decoded = decodeText(bytes);
      if (!decoded.ok) this.faults.add({ file: name, code: decoded.code });
      else if (/^\s*[[{]/.test(decoded.text) || /\.(geo)?json$/i.test(name)) this.#readJsonFile(name, decoded.text, maps);
      else this.#readTableFile(name, decoded.text, texts);
    }
    const order = Object.keys(tables);
    for (const { file, header, table } of texts.sort((a, b) => order.indexOf(a.header.table.name) - order.indexOf(b.header.table.name))) {
      readTable(file, header, table, header.table.of === "site" ? this.#sites : this.#rigs, this.faults);
      this.#lists.add(header.table.list === null ? header.table.name : header.table.list.join("."));
    }
    for (const { file, value } of maps) this.#readMap(file, value);
  }

  finish(missing: Missing): ImportPlan {
    if (missing === "remove") this.#remove();
    const sites = this.#settle("site", this.#sites), rigs = this.#settle("rig", this.#rigs);
    const { stays, unchanged, today } = this.#settleStays(), park = this.#settlePark();
    const counted = (all: readonly RecordPlan[], drafts: Drafts) => drafts.heldCount - all.filter(({ what }) => what !== "added").length;
    return {
      faults: this.faults.list, faultCount: this.faults.count, files: this.#files, sites, rigs, stays, today, unchanged: { sites: counted(sites, this.#sites), rigs: counted(rigs, this.#rigs), stays: unchanged }, ...park,
    };
  }

  #readJsonFile(file: string, text: string, maps: { file: string; value: Json }[]): void {
    const read = readJson(text, this.limits.values);
    if (!read.ok) return this.faults.add({ file, code: read.code, ...(read.need === undefined ? {} : { need: read.need }), ...(read.count === undefined ? {} : { count: read.count }) });
    const kind = kindOfJson(read.value);
    if (kind === null) return this.faults.add({ file, code: "unknown-file" });
    const held = kind === "map" ? valueAt(read.value, ["features"]) : kind === "park" ? [read.value] : valueAt(read.value, [kind]), rows = Array.isArray(held) ? held.length : 0;
    if (rows > this.limits.rows * (kind === "map" ? 10 : 1)) return this.faults.add({ file, code: "too-many-rows", count: this.limits.rows });
    if (kind === "map") return void maps.push({ file, value: read.value });
    this.#files.push({ file, what: `json-${kind}`, rows, columns: [], passed: [], foreign: 0 });
    if (kind === "park") this.#park = read.value;
    else {
      readRecords(file, kind, read.value, kind === "sites" ? this.#sites : this.#rigs, this.faults);
      this.#lists.add(kind);
    }
  }

  #readTableFile(file: string, text: string, texts: TextTable[]): void {
    const read = readCsv(text, this.limits);
    if (!read.ok) return this.faults.add({ file, code: read.code, ...(read.row === undefined ? {} : { row: read.row }), ...(read.count === undefined ? {} : { count: read.count }) });
    const { table } = read, of = findTable(file, table.header);
    if (!of) return this.faults.add({ file, code: "unknown-table" });
    if (texts.some(({ header }) => header.table === of) || (of.name === "stays" && this.#stays)) return this.faults.add({ file, code: "twice-table", given: of.name });
    const header = bindHeader(file, of, table.header, this.faults);
    if (!header) return;
    if (of.name === "stays") this.#stays = { file, header, table };
    else texts.push({ file, header, table });
    const columns = [header.owner, ...header.columns.filter((one) => one !== header.owner)].filter(({ index }) => index >= 0).sort((a, b) => a.index - b.index);
    this.#files.push({ file, what: of.name, rows: table.rows.length, columns: columns.map(({ header: title, unit }) => ({ header: title, unit: unit?.name ?? null })), passed: header.passed, foreign: 0 });
  }

  #readMap(file: string, value: Json): void {
    const foreign = readGeoJson(file, value, readOrigin(this.#park ?? this.inventory.park), this.#sites, this.faults), features = valueAt(value, ["features"]) as readonly Json[];
    this.#files.push({ file, what: "map", rows: Array.isArray(features) ? features.length : 0, columns: [], passed: [], foreign });
    for (const [thing, { list }] of Object.entries(listed)) if (Array.isArray(features) && features.some((one) => valueAt(one, ["properties", "thing"]) === thing)) this.#lists.add(list.join("."));
  }

  #remove(): void {
    for (const name of ["obstacles", "hookups", "parking", "approach.heightLimits"]) if (this.#lists.has(name)) for (const draft of this.#sites.all()) keepNamed(draft, name);
    for (const name of ["rig.parts", "rig.electric.loads"]) if (this.#lists.has(name)) for (const draft of this.#rigs.all()) keepNamed(draft, name);
    if (this.#lists.has("sites")) this.#sites.dropOthers();
    if (this.#lists.has("rigs")) this.#rigs.dropOthers();
  }

  /** What is left of the drafts: those that change anything, each held to its schema. */
  #settle(of: "site" | "rig", drafts: Drafts): RecordPlan[] {
    return drafts.all().flatMap((draft): RecordPlan[] => {
      const { id, before, after } = draft, told = { id, before: before?.record ?? null, after, base: before?.version ?? null, label: labelOf(of, after ?? before!.record, id) };
      if (after === null) return [{ ...told, what: "removed", changes: [] }];
      if (before && sameJson(before.record, after)) return [];
      const read = (of === "site" ? siteSchema : rigEntrySchema).safeParse(after);
      if (!read.success) tellIssues(draft, read.error.issues, this.faults);
      else if (of === "site") draft.after = withTrueSurvey(draft, after);
      return [{ ...told, after: draft.after, what: before ? "changed" : "added", changes: before ? compareRecords(of, before.record, draft.after!) : [] }];
    });
  }

  /** They come last: they may be on sites, and in rigs, that the same upload brings. */
  #settleStays(): { readonly stays: readonly StayPlan[]; readonly unchanged: number | null; readonly today: IsoDate | null } {
    if (!this.#stays) return { stays: [], unchanged: null, today: null };
    const { file, header, table } = this.#stays, { stays: book, park } = this.inventory;
    if (!book) throw new RangeError(`${file} holds stays, and those of the park were not read`);
    const headerRead = !this.faults.list.some((fault) => fault.file === file && fault.row === 1), found = new Faults();
    const planned = planStays(new StayRows(file, header, table, found), { book, headerRead, rates: valueAt(park, ["rates"]), sites: this.#sites.records(), rigs: this.#rigs.records() });
    this.faults.addByRow(found);
    return { ...planned, today: book.today };
  }

  #settlePark(): Pick<ImportPlan, "park" | "settingsLeft"> {
    const before = this.inventory.park, given = this.#park;
    if (given === null) return { park: null, settingsLeft: false };
    const file = this.#files.find(({ what }) => what === "json-park")?.file ?? "park.json";
    const read = parkSchema(String(valueAt(before, ["slug"]))).safeParse(given);
    if (!read.success) for (const issue of read.error.issues) this.faults.add({ file, code: "record", at: issue.path.join("."), need: issue.message });
    const names = new Set([...Object.keys(before as object), ...Object.keys(given as object)]);
    const fields = [...names].filter((name) => !sameJson(valueAt(before, [name]) ?? null, valueAt(given, [name]) ?? null));
    const open = fields.filter((name) => !isSetting(name)), kept = Object.fromEntries(keptSettings.flatMap((name) => { const held = valueAt(before, [name]); return held === undefined ? [] : [[name, held]]; }));
    const after: Json = { ...Object.fromEntries(Object.entries(given as Record<string, Json>).filter(([name]) => !isSetting(name))), ...kept };
    return { park: open.length > 0 ? { before, after, fields: open } : null, settingsLeft: fields.length > open.length };
  }
}

/** Tables and maps change numbers and say nothing of how they are known; a JSON file says it itself, as long as what was read is not another number. */
function withTrueSurvey({ before, stated }: Draft, after: Json): Json {
  const began = (stated ?? before?.record) as SiteInput | undefined, changed = after as unknown as SiteInput;
  const settled = began ? settleSurvey(began, changed, null) : changed;
  return (stated ? dropContradicted((before?.record ?? null) as SiteInput | null, settled) : settled) as unknown as Json;
}

/** Takes out of a list what no row named; whole records from JSON say themselves what there is. */
function keepNamed(draft: Draft, name: string): void {
  const path = name.split("."), held = draft.after === null ? null : valueAt(draft.after, path);
  if (!Array.isArray(held) || draft.marks.some(({ at }) => at !== undefined)) return;
  const places = new Map<number, number>(), inList = (of: readonly (string | number)[]) => of.length === path.length + 1 && path.every((key, i) => of[i] === key);
  for (const { path: of } of draft.marks) if (inList(of) && !places.has(of.at(-1) as number)) places.set(of.at(-1) as number, 0);
  [...places.keys()].sort((a, b) => a - b).forEach((from, to) => places.set(from, to));
  const kept = held.filter((_: Json, i) => places.has(i));
  (held as Json[]).splice(0, held.length, ...kept);
  draft.marks.splice(0, draft.marks.length, ...draft.marks.map((mark) => (inList(mark.path) ? { ...mark, path: [...path, places.get(mark.path.at(-1) as number)!] } : mark)));
}

function labelOf(of: "site" | "rig", record: Json, id: string): string {
  const label = valueAt(record, of === "site" ? ["label"] : ["name"]);
  return typeof label === "string" && label !== "" ? label : id;
}

function isSetting(name: string): boolean {
  return (keptSettings as readonly string[]).includes(name);
}

const rigEntrySchema = z.object({ name: z.string("needs a name").min(1, "needs a name"), note: z.string("must be a text").nullish(), rig: rigSchema });

/** What a park's file has to say, its settings apart; whatever else it carries is kept. */
function parkSchema(slug: string) {
  return z.object({
    slug: z.literal(slug, `must be ${slug}, the park that is open here`),
    name: z.string("needs a name").min(1, "needs a name").max(200),
    units: z.enum(["ft-in", "metric"], "must be ft-in or metric").optional(),
    origin: originSchema.partial().optional(),
  });
}
