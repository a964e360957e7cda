"use server";

import { redirect } from "next/navigation";
import { saveOrigin } from "@/lib/store/inventory";
import { dropUpload } from "@/lib/store/inventory-uploads";
import { requireManager } from "../../staff-session";
import { readIn } from "./read-in";
import { readOriginForm } from "./read-origin-form";

/** Saves where the park's map lies; what cannot be read goes back into the form, with what is wrong with it. */
export async function saveOriginAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  const { texts, origin } = readOriginForm(Object.fromEntries(["latitude", "longitude", "bearing"].map((name) => [name, String(form.get(name) ?? "").slice(0, 40)])));
  if (!origin) redirect(`/manage/inventory?${new URLSearchParams({ where: "typed", ...texts })}#where`);
  await saveOrigin(actor, origin);
  redirect("/manage/inventory?where=saved#where");
}

/** Reads an upload in, if it still does what was looked at: for those without script, who get the answer when it is done. */
export async function readInAction(id: string, form: FormData): Promise<void> {
  const { actor } = await requireManager();
  redirect(await readIn(actor, { id, seen: String(form.get("seen") ?? ""), why: String(form.get("why") ?? "") }));
}

/** Forgets the files. */
export async function dropUploadAction(id: string): Promise<void> {
  const { actor } = await requireManager();
  await dropUpload(actor, id);
  redirect("/manage/inventory#in");
}
