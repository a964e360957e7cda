import { guard, writeCsv } from "./csv-text";
import type { StayLine } from "./stays-book";

const HEADER = ["reference", "state", "arrive", "depart", "site", "guest", "email", "phone", "plate", "rig kind", "rig length (mm)", "note"];

/** Stays as a table, with a byte order mark. Read in again it changes nothing. */
export function writeStays(stays: readonly StayLine[]): string {
  const rows = stays.map(({ reference, state, arrive, depart, site, guest, email, phone, plate, rigKind, rigLength, note }) => [
    ...[reference, state, arrive, depart, site, guest, email, phone, plate, rigKind].map(guard), rigLength === null ? "" : String(rigLength), guard(note),
  ]);
  return `\uFEFF${writeCsv(HEADER, rows)}`;
}
