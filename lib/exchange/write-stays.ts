import { guard, writeCsv } from "./csv-text";
import type { StayLine } from "./stays-book";

const HEADER = ["reference", "state", "arrive", "depart", "site", "guest", "email", "phone", "plate", "rig kind", "rig length (mm)", "note", "adults", "children", "pets"];

/** Stays as a table, with a byte order mark. Read in again it changes nothing. */
export function writeStays(stays: readonly StayLine[]): string {
  const rows = stays.map(({ reference, state, arrive, depart, site, guest, email, phone, plate, rigKind, rigLength, note, adults, children, pets }) => [
    ...[reference, state, arrive, depart, site, guest, email, phone, plate, rigKind].map(guard), numberCell(rigLength), guard(note), numberCell(adults), numberCell(children), numberCell(pets),
  ]);
  return `\uFEFF${writeCsv(HEADER, rows)}`;
}

function numberCell(held: number | null): string {
  return held === null ? "" : String(held);
}
