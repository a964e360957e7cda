import { motorizedKinds, trailerKinds } from "@/lib/rig";
import { stayStates } from "@/lib/stays";
import { length, number, text, word } from "./cells";
import { date } from "./dates";
import { decodeText, type ExchangeFile } from "./decode";
import { column, type Table } from "./tables";

/** What a row may say of a stay. `rig` names one of the park's list. */
export const stayColumns = ["reference", "state", "arrive", "depart", "site", "guest", "email", "phone", "plate", "rig", "rig kind", "rig length", "adults", "children", "pets", "note"] as const;
export type StayColumn = (typeof stayColumns)[number];

const reference = column("reference", ["reference"], text, "stay");

/** Stays as a table: a row is a stay, told by its reference, or a new one where it has none. */
export const staysTable: Table = {
  name: "stays", of: "stay", list: null, owner: reference, id: null,
  columns: [
    reference,
    column("state", ["state"], word(stayStates), "status"),
    column("arrive", ["arrive"], date, "arrival", "arrives", "arrival date", "check in", "checkin"),
    column("depart", ["depart"], date, "departure", "departs", "departure date", "check out", "checkout"),
    column("site", ["site"], text, "site id"),
    column("guest", ["guest"], text, "name", "guest name"),
    column("email", ["email"], text, "e mail", "mail"),
    column("phone", ["phone"], text, "telephone", "phone number"),
    column("plate", ["plate"], text, "license plate", "licence plate"),
    column("rig", ["rig"], text, "rig id"),
    column("rig kind", ["rig kind"], word([...trailerKinds, ...motorizedKinds]), "rig type", "kind"),
    column("rig length", ["rig length"], length, "overall length", "length"),
    column("adults", ["adults"], number), column("children", ["children"], number, "kids"), column("pets", ["pets"], number, "dogs"),
    column("note", ["note"], text, "notes"),
  ],
};

/**
 * Whether some of the files may be a table of stays. Told by names and text alone, so that the stays of a park are read only for uploads that
 * may speak of them; a file that turns out to be none does no harm.
 */
export function mayHoldStays(files: readonly ExchangeFile[]): boolean {
  return files.some(({ name, bytes }) => {
    if (/\.(geo)?json$/i.test(name)) return false;
    const decoded = decodeText(bytes);
    return decoded.ok && (/(^|[^a-z])stays([^a-z]|$)/i.test(name) || (/arriv|check[\s_.:-]*in/i.test(decoded.text) && /depart|check[\s_.:-]*out/i.test(decoded.text)));
  });
}
