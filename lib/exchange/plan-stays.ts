import { siteSchema } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import {
  addedNights, cardAtDesk, guestSchema, hookupsOf, judgeChange, judgeNewNights, judgeOpening, mostNights, occupies, partyOf, quoteStay, rateCardSchema, readNights, stayRequestSchema,
  type Change, type Guest, type Hookups, type IsoDate, type Judging, type Nights, type QuoteParty, type RateCard, type StayFault, type StayState,
} from "@/lib/stays";
import type { Json } from "./cells";
import { findConflicts, type Claim } from "./claims";
import { shorten } from "./faults";
import { valueAt } from "./paths";
import type { StayRows } from "./read-stays";
import type { Row } from "./read-table";
import { isSameLength, StayRigs } from "./stay-rigs";
import type { HeldStay, StayBook } from "./stays-book";
import type { StayColumn } from "./stays-table";

/** A stay that comes to be. */
export interface StayAdded {
  readonly what: "added";
  readonly row: number;
  readonly state: "requested" | "booked";
  readonly nights: Nights;
  /** Null: any that fits. */
  readonly site: string | null;
  /** What the site's post says; empty where there is none. */
  readonly label: string;
  readonly guest: Guest;
  readonly note: string;
  readonly rig: Rig;
}

/** A stay of the park that becomes another: everything of it that a table can change, and what of that changes. */
export interface StayChanged {
  readonly what: "changed";
  readonly row: number;
  readonly id: string;
  readonly reference: string;
  /** The version that it changes. */
  readonly base: number;
  readonly before: { readonly nights: Nights; readonly site: string | null };
  readonly nights: Nights;
  readonly site: string | null;
  readonly guest: Guest | null;
  readonly note: string;
  readonly changes: readonly { readonly column: StayColumn; readonly before: string; readonly after: string }[];
  /** It takes the guest off the site that they chose: that needs a reason. */
  readonly leavesChosen: boolean;
  /** The guest chose the site, and stays on it. */
  readonly keepsChosen: boolean;
}

export type StayPlan = StayAdded | StayChanged;

/** What a table of stays is held against: the park as the rest of the upload would have it. */
export interface StaysAround {
  readonly book: StayBook;
  /** The park's rates, as its file has them; undefined where it has none. */
  readonly rates: Json | undefined;
  /** Every header could be read: one that could not is told already, and its column is not told to be missing. */
  readonly headerRead: boolean;
  /** Records by their ids. */
  readonly sites: ReadonlyMap<string, Json>;
  readonly rigs: ReadonlyMap<string, Json>;
}

/** What a table of stays would do, and how many of its rows say what is there. All that is wrong with it is told to the rows' faults. */
export function planStays(rows: StayRows, around: StaysAround): { readonly stays: readonly StayPlan[]; readonly unchanged: number } {
  const planning = new StaysPlanning(rows, around);
  const stays = rows.rows.flatMap((row) => planning.plan(row) ?? []);
  planning.finish();
  return { stays, unchanged: planning.unchanged };
}

const guestColumns = { name: "guest", email: "email", phone: "phone", plate: "plate" } as const;
type GuestField = keyof typeof guestColumns;
const guestFields = Object.keys(guestColumns) as GuestField[];
const columnOf: Readonly<Partial<Record<StayFault["code"], StayColumn>>> = { "no-nights": "depart", "guest-needed": "guest", move: "state" };
/** Whether a night has a price does not depend on who comes. */
const nobody: QuoteParty = { persons: 0, vehicles: 0, pets: 0 };

class StaysPlanning {
  unchanged = 0;
  readonly #held: ReadonlyMap<string, HeldStay>;
  readonly #seen = new Map<string, number>();
  readonly #claims: { readonly row: Row; readonly claim: Claim }[] = [];
  readonly #rigs: StayRigs;
  readonly #judging: Judging;
  readonly #card: RateCard | null;
  readonly #labels: ReadonlyMap<string, string | null>;
  readonly #hookups = new Map<string, Hookups | null>();

  constructor(readonly rows: StayRows, readonly around: StaysAround) {
    const { book, sites, rigs, rates } = around, card = rateCardSchema.safeParse(rates ?? null);
    this.#held = new Map(book.stays.map((stay) => [stay.reference.toUpperCase(), stay]));
    this.#rigs = new StayRigs(rigs);
    this.#judging = { by: "manager", settings: book.settings, today: book.today };
    this.#card = card.success ? cardAtDesk(card.data) : null;
    this.#labels = labelsOf(sites);
    if (around.headerRead && rows.rows.some((row) => rows.textOf(row, "reference") === "")) this.#needColumns();
  }

  plan(row: Row): StayPlan | null {
    const { rows } = this, reference = rows.textOf(row, "reference"), held = this.#held.get(reference.toUpperCase());
    if (reference === "") return this.#planNew(row);
    const first = this.#seen.get(reference.toUpperCase());
    this.#seen.set(reference.toUpperCase(), first ?? row.row);
    if (first !== undefined) rows.tell(row, "reference", { code: "twice", given: shorten(reference), count: first });
    else if (!held) rows.tell(row, "reference", { code: "no-stay", given: shorten(reference) });
    else return this.#planHeld(row, held);
    return null;
  }

  /** Tells what can be said only of all rows together. */
  finish(): void {
    const byRow = new Map(this.#claims.map(({ row, claim }) => [claim.row, row]));
    for (const { claim, by, nights } of findConflicts(this.#claims.map(({ claim }) => claim), this.around.book.taken)) {
      const row = byRow.get(claim.row)!;
      this.rows.tell(row, this.rows.has("site") ? "site" : "arrive", { code: "nights-taken", given: this.#labelOf(claim.site), by, nights });
    }
    this.rows.tellUnordered();
  }

  #planNew(row: Row): StayAdded | null {
    const { rows } = this, before = rows.faults.count;
    const state = this.#stateOf(row), nights = this.#nightsOf(row, null), site = this.#siteOf(row, null), rig = this.#rigs.of(rows, row), guest = this.#guestOf(row, null), note = this.#noteOf(row, null);
    if (nights && state) this.#tellRules(row, judgeOpening(this.#judging, state, { nights, guest, onSite: site !== null }));
    else if (rows.textOf(row, "guest") === "") this.#tellRules(row, [{ code: "guest-needed" }]);
    if (nights && rig && site !== undefined) this.#tellPrice(row, nights, site, partyOf(rig));
    if (!state || !nights || !rig || !guest || site === undefined || note === undefined || rows.faults.count > before) return null;
    if (site !== null) this.#claims.push({ row, claim: { row: row.row, site, nights, stay: null } });
    return { what: "added", row: row.row, state, nights, site, label: this.#labelOf(site), guest, note, rig };
  }

  #planHeld(row: Row, held: HeldStay): StayChanged | null {
    const { rows } = this, before = rows.faults.count;
    this.#tellFixed(row, held);
    const was = { nights: { arrive: held.arrive, depart: held.depart }, site: held.site === "" ? null : held.site };
    const nights = this.#nightsOf(row, held), site = this.#siteOf(row, held), guest = this.#guestOf(row, held), note = this.#noteOf(row, held);
    if (rows.faults.count > before || !nights || site === undefined || note === undefined) return null;
    const now: Readonly<Partial<Record<StayColumn, string>>> = {
      arrive: nights.arrive, depart: nights.depart, site: site ?? "", note,
      ...(guest ? Object.fromEntries(guestFields.map((field) => [guestColumns[field], guest[field] ?? ""])) : {}),
    };
    const changes = (Object.keys(now) as StayColumn[]).flatMap((column) => (now[column] === textOfHeld(held, column) ? [] : [{ column, ...(column === "site" ? { before: this.#labelOf(was.site), after: this.#labelOf(site) } : { before: textOfHeld(held, column), after: now[column]! }) }]));
    if (changes.length === 0) {
      this.unchanged++;
      return null;
    }
    this.#judgeChanges(row, held, was.nights, nights, site, changes.map(({ column }) => column));
    if (rows.faults.count > before) return null;
    const moves = site !== was.site || nights.arrive !== was.nights.arrive || nights.depart !== was.nights.depart;
    if (moves && site !== null && occupies(held.state)) this.#claims.push({ row, claim: { row: row.row, site, nights, stay: held.id } });
    return { what: "changed", row: row.row, id: held.id, reference: held.reference, base: held.version, before: was, nights, site, guest, note, changes, leavesChosen: held.siteChosen && site !== was.site, keepsChosen: held.siteChosen && site === was.site };
  }

  /** By the desk's own rules: what may be changed in that state, and which nights. */
  #judgeChanges(row: Row, held: HeldStay, was: Nights, nights: Nights, site: string | null, changed: readonly StayColumn[]): void {
    for (const column of changed) for (const rule of judgeChange("manager", held, changeOf[column]!)) this.rows.tell(row, column, { code: "stay", rule });
    const moved = changed.filter((column) => column === "arrive" || column === "depart");
    if (moved.length === 0 || judgeChange("manager", held, "dates").length > 0) return;
    for (const rule of judgeNewNights(this.#judging, { state: held.state, nights: was }, nights)) this.rows.tell(row, rule.code === "in-the-past" && !moved.includes("arrive") ? "depart" : "arrive", { code: "stay", rule });
    if (held.priced) for (const more of addedNights(was, nights)) this.#tellPrice(row, more, site, nobody);
  }

  #tellRules(row: Row, rules: readonly StayFault[]): void {
    // A column that is missing was told of once already.
    for (const rule of rules) if (this.rows.has(columnOf[rule.code] ?? "arrive")) this.rows.tell(row, columnOf[rule.code] ?? "arrive", { code: "stay", rule });
  }

  #tellPrice(row: Row, nights: Nights, site: string | null, party: QuoteParty): void {
    const hookups: Hookups | null = site === null ? { services: [], amps: null } : this.#hookupsOf(site);
    if (!this.#card || !hookups) return;
    const outcome = quoteStay(this.#card, { nights, hookups, party });
    if (!outcome.ok) this.#tellRules(row, outcome.faults);
  }

  #stateOf(row: Row): "requested" | "booked" | null {
    const cell = this.rows.read(row, "state"), state = cell.is === "read" ? (cell.value as StayState) : "booked";
    if (state === "requested" || state === "booked") return cell.is === "faulty" ? null : state;
    this.rows.tell(row, "state", { code: "stay-begins", given: state });
    return null;
  }

  #nightsOf(row: Row, held: HeldStay | null): Nights | null {
    const arrive = this.#dateOf(row, "arrive", held), depart = this.#dateOf(row, "depart", held);
    if (!arrive || !depart) return null;
    const read = readNights(arrive, depart);
    if (read.ok) return read.nights;
    if (read.faults.includes("too-many-nights")) this.rows.tell(row, "depart", { code: "record", need: `must be at most ${mostNights} nights after the arrival` });
    else this.rows.tell(row, "depart", { code: "stay", rule: { code: "no-nights" } });
    return null;
  }

  #dateOf(row: Row, column: "arrive" | "depart", held: HeldStay | null): IsoDate | null {
    if (held && this.rows.says(row, column, held[column])) return held[column];
    const cell = this.rows.read(row, column);
    if (cell.is === "blank" && this.rows.has(column)) this.rows.tell(row, column, { code: "cell-needed" });
    return cell.is === "read" ? (cell.value as IsoDate) : null;
  }

  /** The site's id, null for any that fits, undefined where that cannot be, which is told. */
  #siteOf(row: Row, held: HeldStay | null): string | null | undefined {
    if (held && this.rows.says(row, "site", held.site)) return held.site === "" ? null : held.site;
    const said = this.rows.textOf(row, "site");
    if (said === "") {
      if (held) this.rows.tell(row, "site", { code: "site-left", given: this.#labelOf(held.site) });
      return held ? undefined : null;
    }
    const id = this.around.sites.has(said) ? said : this.#labels.get(said.toLowerCase());
    if (!id) this.rows.tell(row, "site", { code: "no-such-owner", given: shorten(said) });
    return id ?? undefined;
  }

  /** Who comes; null where nobody is named, which is told of a stay that needs somebody. */
  #guestOf(row: Row, held: HeldStay | null): Guest | null {
    const { rows } = this, said = (field: GuestField) => (held && rows.says(row, guestColumns[field], held[guestColumns[field]]) ? held[guestColumns[field]] : rows.textOf(row, guestColumns[field]));
    const texts = Object.fromEntries(guestFields.map((field) => [field, said(field)])) as Record<GuestField, string>;
    const given = guestFields.filter((field) => !held || texts[field] !== held[guestColumns[field]]), asked: Guest = { name: texts.name, email: texts.email || undefined, phone: texts.phone || undefined, plate: texts.plate || undefined };
    if (given.length === 0) return texts.name === "" ? null : asked;
    if (texts.name === "") {
      // A new one is told so by the desk's rules, beside what else they say.
      if (held) rows.tell(row, "guest", { code: "stay", rule: { code: "guest-needed" } });
      return null;
    }
    const read = guestSchema.safeParse(asked);
    for (const { path, message } of read.error?.issues ?? []) if (given.includes(path[0] as GuestField)) rows.tell(row, guestColumns[path[0] as GuestField], { code: "record", need: message });
    return read.success ? { ...asked, ...Object.fromEntries(given.map((field) => [field, read.data[field]])) } : asked;
  }

  #noteOf(row: Row, held: HeldStay | null): string | undefined {
    if (held && this.rows.says(row, "note", held.note)) return held.note;
    const read = stayRequestSchema.shape.note.safeParse(this.rows.textOf(row, "note"));
    for (const { message } of read.error?.issues ?? []) this.rows.tell(row, "note", { code: "record", need: message });
    return read.data;
  }

  /** What has a place of its own where it is changed: a stay's page. */
  #tellFixed(row: Row, held: HeldStay): void {
    const { rows } = this;
    const fixed = { state: held.state, rig: held.rigId, "rig kind": held.rigKind, "rig length": String(held.rigLength ?? ""), adults: String(held.adults ?? ""), children: String(held.children ?? ""), pets: String(held.pets ?? "") };
    for (const column of Object.keys(fixed) as (keyof typeof fixed)[]) {
      const now = fixed[column];
      if (rows.textOf(row, column) === "" || rows.says(row, column, now)) continue;
      const cell = rows.read(row, column);
      if (cell.is !== "read" || String(cell.value) === now || (column === "rig length" && isSameLength(Number(cell.value), held.rigLength))) continue;
      rows.tell(row, column, { code: "stay-fixed", given: shorten(rows.textOf(row, column)), need: column });
    }
  }

  #needColumns(): void {
    const { rows } = this, rig = rows.has("rig") && !rows.has("rig kind") && !rows.has("rig length") ? (["rig"] as const) : (["rig kind", "rig length"] as const);
    for (const column of ["arrive", "depart", "guest", ...rig] as const) if (!rows.has(column)) rows.tellTable("column-needed", column);
  }

  /** What people know a site by. */
  #labelOf(site: string | null): string {
    const label = site === null ? "" : valueAt(this.around.sites.get(site) ?? null, ["label"]);
    return typeof label === "string" && label !== "" ? label : (site ?? "");
  }

  #hookupsOf(site: string): Hookups | null {
    if (!this.#hookups.has(site)) {
      const read = siteSchema.safeParse(this.around.sites.get(site));
      this.#hookups.set(site, read.success ? hookupsOf(read.data) : null);
    }
    return this.#hookups.get(site)!;
  }
}

const changeOf: Readonly<Partial<Record<StayColumn, Change>>> = { arrive: "dates", depart: "dates", site: "site", guest: "guest", email: "guest", phone: "guest", plate: "guest", note: "note" };

function textOfHeld(held: HeldStay, column: StayColumn): string {
  return column === "guest" || column === "email" || column === "phone" || column === "plate" || column === "note" || column === "site" || column === "arrive" || column === "depart" ? held[column] : "";
}

/** The ids of sites by what their posts say, in small letters; null where two posts say the same. */
function labelsOf(sites: ReadonlyMap<string, Json>): Map<string, string | null> {
  const labels = new Map<string, string | null>();
  for (const [id, record] of sites) {
    const label = valueAt(record, ["label"]);
    if (typeof label !== "string") continue;
    const key = label.trim().toLowerCase();
    labels.set(key, labels.has(key) ? null : id);
  }
  return labels;
}
