import { rigSchema, typicalLengths, typicalRig, type Rig, type RigKind } from "@/lib/rig";
import type { Json } from "./cells";
import { shorten } from "./faults";
import { valueAt } from "./paths";
import type { StayRows } from "./read-stays";
import type { Row } from "./read-table";

/** So far may two ways to write the length of one rig lie apart: half an inch, as people round it. Millimetres. */
const SAME_LENGTH = 13;

/** Whether a length that a cell says is that of the stay's rig, written in another unit. */
export function isSameLength(said: number, held: number | null): boolean {
  return held !== null && Math.abs(said - held) <= SAME_LENGTH;
}

/** Who comes along, and the most of each that a row may say, as at the desk. */
export const counted = ["adults", "children", "pets"] as const;
type Counts = Record<(typeof counted)[number], number>;
const MOST_OF_EACH = 30;

/** Who comes along, as far as a row says it; null where it says what cannot be, which is told. */
function partyIn(rows: StayRows, row: Row): Partial<Counts> | null {
  const party: Partial<Counts> = {};
  let sound = true;
  for (const column of counted) {
    const cell = rows.read(row, column), many = cell.is === "read" ? Number(cell.value) : 0;
    if (cell.is === "faulty") sound = false;
    else if (!Number.isInteger(many) || many < 0 || many > MOST_OF_EACH) {
      rows.tell(row, column, { code: "record", need: `must be a whole number from 0 to ${MOST_OF_EACH}` });
      sound = false;
    } else if (cell.is === "read") party[column] = many;
  }
  return sound ? party : null;
}

/** Body and hitch, as a stay's table says it. Millimetres. */
export function overallOf({ body, hitch }: Rig): number {
  return body.length + (hitch?.length ?? 0);
}

/** The rigs of new stays: one of the park's list, or the typical one of a kind and length. The same rig is made once. */
export class StayRigs {
  readonly #listed = new Map<string, Rig | null>();
  readonly #typical = new Map<string, Rig>();
  readonly #withParty = new Map<Rig, Map<string, Rig>>();

  /** `rigs` by their ids, as the upload would have them. */
  constructor(readonly rigs: ReadonlyMap<string, Json>) {}

  /** The rig of a row; null where it does not say one, which is told. */
  of(rows: StayRows, row: Row): Rig | null {
    const id = rows.textOf(row, "rig"), party = partyIn(rows, row), rig = id === "" ? this.#typicalOf(rows, row) : this.#listedOf(rows, row, id);
    return rig && party ? this.#comingWith(rig, party) : null;
  }

  #comingWith(rig: Rig, party: Partial<Counts>): Rig {
    const known = this.#withParty.get(rig) ?? new Map<string, Rig>(), key = JSON.stringify(party);
    if (key === "{}") return rig;
    const made = known.get(key) ?? { ...rig, party: { ...rig.party, ...party } };
    this.#withParty.set(rig, known.set(key, made));
    return made;
  }

  #listedOf(rows: StayRows, row: Row, id: string): Rig | null {
    if (!this.#listed.has(id)) this.#listed.set(id, rigSchema.safeParse(valueAt(this.rigs.get(id) ?? null, ["rig"])).data ?? null);
    const rig = this.#listed.get(id)!, kind = rows.read(row, "rig kind"), length = rows.read(row, "rig length");
    if (!rig) {
      rows.tell(row, "rig", { code: "no-such-owner", given: shorten(id) });
      return null;
    }
    if (kind.is === "read" && kind.value !== rig.kind) rows.tell(row, "rig kind", { code: "rig-differs", given: String(kind.value), need: id });
    if (length.is === "read" && !isSameLength(Number(length.value), overallOf(rig))) rows.tell(row, "rig length", { code: "rig-differs", given: rows.textOf(row, "rig length"), need: id });
    return rig;
  }

  #typicalOf(rows: StayRows, row: Row): Rig | null {
    const kind = rows.read(row, "rig kind"), length = rows.read(row, "rig length");
    for (const [column, cell] of [["rig kind", kind], ["rig length", length]] as const) if (cell.is === "blank" && rows.has(column)) rows.tell(row, column, { code: "cell-needed" });
    if (rows.has("rig") && !rows.has("rig kind") && !rows.has("rig length")) rows.tell(row, "rig", { code: "cell-needed" });
    if (kind.is !== "read" || length.is !== "read") return null;
    const overall = Number(length.value), { shortest, longest } = typicalLengths, key = `${kind.value} ${overall}`;
    if (overall < shortest || overall > longest) {
      rows.tell(row, "rig length", { code: "rig-length", given: rows.textOf(row, "rig length") });
      return null;
    }
    const rig = this.#typical.get(key) ?? typicalRig(kind.value as RigKind, overall);
    this.#typical.set(key, rig);
    return rig;
  }
}
