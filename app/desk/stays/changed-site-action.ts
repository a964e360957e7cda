"use server";

import { revalidatePath } from "next/cache";
import { StoreError } from "@/lib/store/errors";
import { settleEffect } from "@/lib/store/site-effects";
import { requireDesk } from "../../staff-session";

/** Takes a stay off the desk's list of those that changed sites turned: whoever pressed it has seen it. One that is off already stays so. */
export async function effectSeen(form: FormData): Promise<void> {
  const { actor } = await requireDesk();
  const id = form.get("effect");
  if (typeof id === "string" && /^[0-9a-f-]{36}$/.test(id)) await settleEffect(actor, actor.park, id).catch(passOverMissing);
  revalidatePath("/desk", "layout");
}

function passOverMissing(error: unknown): void {
  if (!(error instanceof StoreError) || error.kind !== "missing") throw error;
}
