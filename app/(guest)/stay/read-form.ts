import { guestSchema, type Guest } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import { paramsOf, type Params } from "../../components/rig-form/params";
import type { Sent } from "../send-form";

/** A field of a form as text without blanks around it; empty where it is not there. */
export function textOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value.trim() : "";
}

/** The guest's address that a form carries along: the rig, the nights, the units. */
export function paramsIn(form: FormData): Params {
  return { ...paramsOf(new URLSearchParams(textOf(form, "query"))), units: textOf(form, "units") };
}

/** The form again with what was typed, what is wrong with each field, and what is said of the whole. */
export function failed(form: FormData, said: string | null, faults: Readonly<Record<string, string>> = {}): Sent {
  return { values: Object.fromEntries(["name", "email", "phone", "plate", "note"].map((name) => [name, textOf(form, name)])), faults, said, done: false };
}

/** Name and one way to be reached; every fault beside its field. */
export function readGuest(form: FormData): { readonly guest: Guest | null; readonly faults: Readonly<Record<string, string>> } {
  const texts = Object.fromEntries(["name", "email", "phone", "plate"].map((name) => [name, textOf(form, name) || undefined]));
  const read = guestSchema.safeParse(texts);
  const { faults: told } = catalogueOf().guestStay.hold;
  const faults: Record<string, string> = {};
  for (const { path } of read.success ? [] : read.error.issues) {
    const name = String(path[0]);
    faults[name] = name === "name" ? (texts["name"] ? told.nameLong : told.name) : name === "email" ? told.email : name === "phone" ? told.phone : told.plate;
  }
  if (!texts["email"] && !texts["phone"]) faults["email"] = told.contact;
  return read.success && Object.keys(faults).length === 0 ? { guest: read.data, faults } : { guest: null, faults };
}
