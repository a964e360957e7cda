"use server";

import { redirect } from "next/navigation";
import { StoreError } from "@/lib/store/errors";
import { linkHours, readLink } from "@/lib/store/accounts/links";
import { joinByLink } from "@/lib/store/accounts/people";
import { catalogueOf } from "@/lib/wording";
import type { FormState } from "../../account/account-form";
import { signInHere } from "../../account/cookie";
import { keptOf, readFields } from "../../account/read-fields";

export async function joinAction(_: FormState, form: FormData): Promise<FormState> {
  const token = String(form.get("token") ?? "");
  const { faults, join: words } = catalogueOf().accounts;
  const read = readFields("person", form);
  const kept = keptOf(form);
  if (!read.ok) return { faults: read.faults, kept };
  const link = await readLink(token, "join");
  if (!link) return { refusal: `${words.goneTitle}. ${words.gone(linkHours)}`, kept };
  try {
    await joinByLink(token, link.park, read.value);
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    if (error.kind === "taken") return { faults: { email: faults.emailTaken }, kept };
    if (error.kind === "missing") return { refusal: `${words.goneTitle}. ${words.gone(linkHours)}`, kept };
    throw error;
  }
  const { state } = await signInHere(read.value.email, read.value.password);
  redirect(state !== "in" ? "/sign-in" : link.role === "manager" ? "/manage" : "/desk");
}
