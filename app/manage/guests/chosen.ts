import { z } from "zod";
import type { Chosen, GuestFile, GuestRecord } from "@/lib/store/guests-data";
import { isOver } from "@/lib/store/guests-data";
import type { Params } from "../../components/rig-form/params";

const ids = z.array(z.uuid()).max(500);

/** The records ticked, as a form's address has them. What is no id is passed over. */
export function chosenIn({ stay, unmet }: Params): Chosen {
  return { stays: idsIn(stay), unmet: idsIn(unmet) };
}

/** The same from fields of a form that carry them along. */
export function chosenInForm(form: FormData): Chosen {
  const textOf = (name: string) => { const value = form.get(name); return typeof value === "string" ? value.split(",") : []; };
  return { stays: idsIn(textOf("stays")), unmet: idsIn(textOf("unmet")) };
}

/** Of what was ticked, what the guest's file has: no other record is reached from here. */
export function recordsOf({ theirs, perhaps }: GuestFile, { stays, unmet }: Chosen): { readonly over: readonly GuestRecord[]; readonly open: readonly GuestRecord[] } {
  const ticked = [...theirs, ...perhaps].filter(({ kind, id }) => (kind === "stay" ? stays : unmet).includes(id));
  return { over: ticked.filter(isOver), open: ticked.filter((record) => !isOver(record)) };
}

export function chosenOf(records: readonly GuestRecord[]): Chosen {
  const of = (kind: GuestRecord["kind"]) => records.filter((record) => record.kind === kind).map(({ id }) => id);
  return { stays: of("stay"), unmet: of("unmet") };
}

export function countOf({ stays, unmet }: Chosen): { readonly stays: number; readonly unmet: number } {
  return { stays: stays.length, unmet: unmet.length };
}

/** The reference that may be typed in the name's place: of the first stay chosen. */
export function referenceOf(records: readonly GuestRecord[]): string | null {
  return records.find(({ reference }) => reference !== null)?.reference ?? null;
}

function idsIn(value: string | string[] | undefined): string[] {
  const given = value === undefined ? [] : Array.isArray(value) ? value : [value];
  return ids.parse(given.filter((id) => z.uuid().safeParse(id).success).slice(0, 500));
}
