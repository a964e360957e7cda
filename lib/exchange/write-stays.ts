import { guard, writeCsv } from "./csv-text";

/** A stay as it is handed out: texts as they are written into the table. */
export interface StayLine {
  readonly reference: string;
  readonly state: string;
  readonly arrive: string;
  readonly depart: string;
  /** The site's own id; empty for any that fits. */
  readonly site: string;
  readonly guest: string;
  readonly email: string;
  readonly phone: string;
  readonly plate: string;
  readonly rigKind: string;
  /** Body and hitch, mm; null where the record of the rig cannot be read. */
  readonly rigLength: number | null;
  readonly note: string;
}

const HEADER = ["reference", "state", "arrive", "depart", "site", "guest", "email", "phone", "plate", "rig kind", "rig length (mm)", "note"];

/** Stays as a table, with a byte order mark. Read in again it changes nothing. */
export function writeStays(stays: readonly StayLine[]): string {
  const rows = stays.map(({ reference, state, arrive, depart, site, guest, email, phone, plate, rigKind, rigLength, note }) => [
    ...[reference, state, arrive, depart, site, guest, email, phone, plate, rigKind].map(guard), rigLength === null ? "" : String(rigLength), guard(note),
  ]);
  return `\uFEFF${writeCsv(HEADER, rows)}`;
}
