"use server";

import { redirect } from "next/navigation";
import { catalogueOf } from "@/lib/wording";
import type { FormState } from "../account/account-form";
import { signInHere } from "../account/cookie";
import { keptOf, readFields } from "../account/read-fields";
import { waitUntil } from "../account/waiting";
import { nextPath } from "./next-path";

export async function signInAction(_: FormState, form: FormData): Promise<FormState> {
  const read = readFields("signIn", form);
  const kept = keptOf(form);
  if (!read.ok) return { faults: read.faults, kept };
  const outcome = await signInHere(read.value.email, read.value.password);
  const { signIn: words } = catalogueOf().accounts;
  if (outcome.state === "refused") return { refusal: words.refused, kept };
  if (outcome.state === "limited") return { refusal: words.limited(...(await waitUntil(outcome.until))), kept };
  redirect(nextPath(String(form.get("next") ?? "")));
}
