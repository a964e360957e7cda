"use server";

import { redirect } from "next/navigation";
import { StoreError } from "@/lib/store/errors";
import { eraseGuest } from "@/lib/store/guests-data";
import { catalogueOf } from "@/lib/wording";
import type { FormState } from "../../account/account-form";
import { requireManager } from "../../staff-session";
import { fileOf } from "./[id]/read-file";
import { chosenInForm, chosenOf, recordsOf, referenceOf } from "./chosen";

/** Erases what was shown, where the name or reference was typed as it stands there. */
export async function eraseFromForm(_before: FormState, form: FormData): Promise<FormState> {
  const { actor } = await requireManager();
  const { manageGuests: { erase: words } } = catalogueOf();
  const typed = textOf(form, "typed");
  const asked = chosenInForm(form);
  const file = await fileOf(actor, textOf(form, "of"));
  const { over } = file ? recordsOf(file, asked) : { over: [] };
  // What was shown is what is erased, or nothing: something may have been put back meanwhile.
  if (!file || over.length === 0 || over.length < asked.stays.length + asked.unmet.length) return { refusal: words.gone, kept: { typed } };
  const reference = referenceOf(over);
  if (![file.seed.name, reference].some((word) => word !== null && plain(word) === plain(typed))) return { faults: { typed: words.mistyped(file.seed.name, reference) }, kept: { typed } };
  const chosen = chosenOf(over);
  try {
    await eraseGuest(actor, actor.park, chosen);
  } catch (error) {
    if (error instanceof StoreError && (error.kind === "missing" || error.kind === "refused")) return { refusal: words.gone, kept: { typed } };
    throw error;
  }
  redirect(`/manage/guests?erased=${chosen.stays.length}&requests=${chosen.unmet.length}`);
}

/** As people type: capitals and blanks do not count. */
function plain(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/g, " ");
}

function textOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value : "";
}
