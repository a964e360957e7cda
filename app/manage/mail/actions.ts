"use server";

import { revalidatePath } from "next/cache";
import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { composeMail } from "@/lib/jobs/compose-mail";
import { keepText, markSent, takeMail, tryAgain } from "@/lib/store/mail-outbox";
import { catalogueOf } from "@/lib/wording";
import { linkBase } from "../../link-base";
import { requireDesk } from "../../staff-session";
import type { TextState } from "./text-form";

/** The text of mail with a new link, in the answer to this one request and nowhere else. */
export async function showAction(_: TextState, form: FormData): Promise<TextState> {
  const { actor } = await requireDesk();
  const id = idOf(form);
  const matter = await takeMail(actor, actor.park, id);
  if (!matter) {
    revalidatePath("/manage/mail");
    return { refusal: catalogueOf().manageMail.gone };
  }
  const { to, subject, body, kept } = composeMail(matter, linkBase(await headers()));
  await keepText(actor, actor.park, id, kept);
  return { text: { to, subject, body } };
}

export async function markAction(form: FormData): Promise<void> {
  const { actor } = await requireDesk();
  redirect(`/manage/mail?said=${(await markSent(actor, actor.park, idOf(form))) ? "marked" : "gone"}`);
}

export async function againAction(form: FormData): Promise<void> {
  const { actor } = await requireDesk();
  redirect(`/manage/mail?said=${(await tryAgain(actor, actor.park, idOf(form))) ? "queued" : "gone"}`);
}

/** What is no id finds nothing. */
function idOf(form: FormData): string {
  const id = form.get("id");
  return typeof id === "string" ? id : "";
}
