import { motorizedKinds, trailerKinds } from "@/lib/rig";
import { stayStates } from "@/lib/stays";
import { length, text, word } from "./cells";
import { date } from "./dates";
import { column, type Table } from "./tables";

/** The columns in which a stay of the park may be another than the table says, and those of a stay that is new. */
export const stayColumns = ["reference", "state", "arrive", "depart", "site", "guest", "email", "phone", "plate", "rig", "rig kind", "rig length", "note"] as const;
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
    column("note", ["note"], text, "notes"),
  ],
};

/** Whether a file may be a table of stays. Told by its text alone, so that the stays of a park are read only for uploads that speak of them; one that is none is found out later. */
export function mayHoldStays(file: string, table: string): boolean {
  return /(^|[^a-z])stays([^a-z]|$)/i.test(file) || (/arriv|check[\s_.:-]*in/i.test(table) && /depart|check[\s_.:-]*out/i.test(table));
}
