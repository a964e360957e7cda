"use server";

import { revalidatePath } from "next/cache";
import { cookies } from "next/headers";
import { redirect } from "next/navigation";
import { z } from "zod";
import { sessionCookie } from "@/lib/store/accounts/auth";
import { changePassword, renameSelf } from "@/lib/store/accounts/people";
import { endOtherSessions, endSession } from "@/lib/store/accounts/sessions";
import { catalogueOf } from "@/lib/wording";
import { requireDesk, staffSession } from "../staff-session";
import type { FormState } from "./account-form";
import { keptOf, readFields } from "./read-fields";
import { waitUntil } from "./waiting";

export async function renameAction(_: FormState, form: FormData): Promise<FormState> {
  const { signedIn } = await requireDesk();
  const read = readFields("name", form);
  if (!read.ok) return { faults: read.faults, kept: keptOf(form) };
  await renameSelf(signedIn, read.value.name);
  revalidatePath("/account");
  return { done: catalogueOf().accounts.own.nameSaved, kept: read.value };
}

export async function changePasswordAction(_: FormState, form: FormData): Promise<FormState> {
  const { signedIn } = await requireDesk();
  const read = readFields("change", form);
  if (!read.ok) return { faults: read.faults };
  const { own, faults } = catalogueOf().accounts;
  const outcome = await changePassword(signedIn, read.value.present, read.value.password);
  if (outcome.state === "wrong") return { faults: { present: faults.presentWrong } };
  if (outcome.state === "limited") return { refusal: own.limited(...(await waitUntil(outcome.until, signedIn.park))) };
  revalidatePath("/account");
  return { done: own.passwordChanged };
}

export async function endSessionAction(form: FormData): Promise<void> {
  const { signedIn } = await requireDesk();
  const id = z.uuid().safeParse(form.get("session"));
  if (id.success) await endSession(signedIn, id.data);
  toSessions();
}

export async function endOthersAction(): Promise<void> {
  await endOtherSessions((await requireDesk()).signedIn);
  toSessions();
}

/** Ends the session itself, not only the browser's memory of it. */
export async function signOutAction(): Promise<void> {
  const session = await staffSession();
  if (session) await endSession(session.signedIn, session.signedIn.session);
  (await cookies()).delete(sessionCookie);
  redirect("/sign-in?out");
}

function toSessions(): never {
  revalidatePath("/account");
  redirect("/account#sessions");
}
