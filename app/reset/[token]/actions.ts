"use server";

import { cookies } from "next/headers";
import { redirect } from "next/navigation";
import { sessionCookie } from "@/lib/store/accounts/auth";
import { linkHours, readLink } from "@/lib/store/accounts/links";
import { resetByLink } from "@/lib/store/accounts/people";
import { StoreError } from "@/lib/store/errors";
import { catalogueOf } from "@/lib/wording";
import type { FormState } from "../../account/account-form";
import { readFields } from "../../account/read-fields";

export async function resetAction(_: FormState, form: FormData): Promise<FormState> {
  const token = String(form.get("token") ?? "");
  const { join: words } = catalogueOf().accounts;
  const read = readFields("password", form);
  if (!read.ok) return { faults: read.faults };
  const link = await readLink(token, "reset");
  if (!link) return { refusal: `${words.goneTitle}. ${words.gone(linkHours)}` };
  try {
    await resetByLink(token, link.park, read.value.password);
  } catch (error) {
    if (error instanceof StoreError && error.kind === "missing") return { refusal: `${words.goneTitle}. ${words.gone(linkHours)}` };
    throw error;
  }
  // Whoever else was signed in on this device is not whom the new password is for.
  (await cookies()).delete(sessionCookie);
  redirect("/sign-in?set");
}
