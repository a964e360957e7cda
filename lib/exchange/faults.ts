import type { Nights, StayFault } from "@/lib/stays";
import { bounds } from "./bounds";
import type { Occupant } from "./stays-book";

/** What can be wrong with a file, or with a place in it. `wording` makes the sentence. */
export type FaultCode =
  // A whole file.
  | "empty" | "too-large" | "too-many-files" | "encoding" | "nul" | "packed" | "unknown-file" | "unknown-table" | "no-header" | "too-many-rows" | "too-many-columns"
  | "quotes" | "quote-open" | "cell-too-long" | "not-json" | "too-deep" | "too-many-values" | "not-geojson" | "foreign-crs" | "no-origin" | "twice-table"
  // A header or a row.
  | "no-key-column" | "column-twice" | "no-unit" | "unknown-unit" | "extra-cells" | "no-id" | "twice" | "no-such-owner"
  // A cell, or a field.
  | "number" | "ambiguous" | "length" | "unit-mixed" | "negative" | "yes-no" | "one-of" | "list-item" | "points" | "day" | "record"
  // A cell of a table of stays.
  | "date-order" | "short-year" | "no-such-day" | "no-stay" | "stay-fixed" | "stay-begins" | "site-left" | "column-needed" | "cell-needed" | "rig-length" | "rig-differs" | "stay" | "nights-taken"
  // A feature of a map.
  | "no-thing" | "geometry" | "holes" | "coordinates" | "far-away" | "no-place" | "many-parts";

export interface Fault {
  readonly file: string;
  readonly code: FaultCode;
  /** As a spreadsheet counts them: the header is row 1. Of a map, its features from 1. */
  readonly row?: number;
  /** The header over the cell, as it stands in the file. */
  readonly column?: string;
  /** Of a JSON file: the path of the field. Of a record: what it is the id of. */
  readonly at?: string;
  /** What stood there, shortened. */
  readonly given?: string;
  /** What should stand there, or the record's own complaint, as its schema words it. */
  readonly need?: string;
  readonly count?: number;
  /** Of a stay: the desk's rule that it breaks. */
  readonly rule?: StayFault;
  /** Of nights that somebody has: who, and which. */
  readonly by?: Occupant;
  readonly nights?: Nights;
}

/** Collects every fault of an upload, up to a bound, and counts the rest. */
export class Faults {
  readonly list: Fault[] = [];
  count = 0;

  add(fault: Fault): void {
    this.count++;
    if (this.list.length < bounds.faults) this.list.push(fault);
  }

  /** Takes over what another collected, in the order of its rows: what can be told only when all rows are read stands where it belongs. */
  addByRow({ list, count }: Faults): void {
    for (const fault of [...list].sort((a, b) => (a.row ?? 0) - (b.row ?? 0))) this.add(fault);
    this.count += count - list.length;
  }

  get none(): boolean {
    return this.count === 0;
  }
}

/** So much of a value as fits into a sentence. */
export function shorten(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}
