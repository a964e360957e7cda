"use server";

import { redirect } from "next/navigation";
import { StoreError } from "@/lib/store/errors";
import { answerUnmet } from "@/lib/store/unmet";
import { requireManager } from "../../staff-session";
import { addressOf, readChoice } from "./choice";

/** Notes that whoever left word was answered, and goes back to the same list. */
export async function answerFromForm(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  const textOf = (name: string) => { const value = form.get(name); return typeof value === "string" ? value : ""; };
  const choice = readChoice({ days: textOf("days"), which: textOf("which"), most: textOf("most") });
  let said = "answered";
  try {
    await answerUnmet(actor, actor.park, textOf("id"));
  } catch (error) {
    if (!(error instanceof StoreError) || error.kind !== "missing") throw error;
    said = "gone";
  }
  redirect(addressOf(choice, { said }));
}
