"use server";

import { revalidatePath } from "next/cache";
import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { z } from "zod";
import { inviteToJoin, issueReset, revokeLink } from "@/lib/store/accounts/links";
import { changeRole, keepsAManager, switchAccount } from "@/lib/store/accounts/people";
import { roles } from "@/lib/store/accounts/sessions";
import { StoreError } from "@/lib/store/errors";
import { catalogueOf } from "@/lib/wording";
import { linkBase } from "../../link-base";
import { requireManager } from "../../staff-session";
import type { LinkState } from "./link-form";

/** A link to hand over, in the answer to this one request and nowhere else. */
export async function inviteAction(_: LinkState, form: FormData): Promise<LinkState> {
  const { actor } = await requireManager();
  const role = z.enum(roles).parse(form.get("role"));
  const token = await inviteToJoin(actor, actor.park, role);
  revalidatePath("/manage/accounts");
  return { link: `${linkBase(await headers())}/join/${token}`, about: catalogueOf().accounts.manage.linkFor[role] };
}

export async function resetLinkAction(_: LinkState, form: FormData): Promise<LinkState> {
  const { actor } = await requireManager();
  const { manage: words } = catalogueOf().accounts;
  try {
    const token = await issueReset(actor, actor.park, idOf(form));
    revalidatePath("/manage/accounts");
    return { link: `${linkBase(await headers())}/reset/${token}`, about: words.linkFor.reset(String(form.get("name") ?? "").slice(0, 80)) };
  } catch (error) {
    if (error instanceof StoreError && error.kind === "missing") return { refusal: words.gone };
    throw error;
  }
}

export async function switchAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  await tryTo(() => switchAccount(actor, actor.park, idOf(form), form.get("on") === "yes"));
}

export async function roleAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  await tryTo(() => changeRole(actor, actor.park, idOf(form), z.enum(roles).parse(form.get("role"))));
}

export async function revokeAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  await tryTo(() => revokeLink(actor, actor.park, idOf(form)));
}

/** Back to the list, with a word on why nothing came of it. */
async function tryTo(work: () => Promise<void>): Promise<never> {
  let refused = "";
  try {
    await work();
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    if (error.constraint === keepsAManager) refused = "?refused=last";
    else if (error.kind === "missing") refused = "?refused=gone";
    else throw error;
  }
  redirect(`/manage/accounts${refused}`);
}

function idOf(form: FormData): string {
  return z.uuid().parse(form.get("id"));
}
