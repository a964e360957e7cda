"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { StoreError } from "@/lib/store/errors";
import { saveParkSettings } from "@/lib/store/park-settings";
import { paramsOf, one } from "../../../components/rig-form/params";
import { policyContext, readAddress } from "./context";
import { policyFields } from "./fields";

const longestReason = 300;

/** Saves what the address holds, as it was shown; back to it where it cannot be read, or somebody else saved first. */
export async function savePolicyAction(form: FormData): Promise<void> {
  const context = await policyContext();
  if (!context) redirect("/manage/settings");
  const params = paramsOf(new URLSearchParams(fieldsOf(form)));
  const { form: { policy, changed } } = readAddress(params, context);
  const back = `/manage/settings/fit?${new URLSearchParams([...fieldsOf(form), ["checked", "yes"]])}#found`;
  const based = Number(one(params.based));
  if (!policy || changed.length === 0 || !Number.isInteger(based)) redirect(back);
  try {
    const reason = String(form.get("reason") ?? "").trim().slice(0, longestReason);
    await saveParkSettings(context.actor, context.park.slug, { policy }, based, reason || undefined);
  } catch (error) {
    if (error instanceof StoreError && error.kind === "stale") redirect(back);
    throw error;
  }
  revalidatePath("/", "layout");
  redirect("/manage/settings?saved=yes");
}

/** What of the form belongs in the address. */
function fieldsOf(form: FormData): [string, string][] {
  const known = new Set<string>([...policyFields.map(({ name }) => name), "units", "based"]);
  return [...form].flatMap(([name, value]): [string, string][] => (known.has(name) && typeof value === "string" ? [[name, value.slice(0, 80)]] : []));
}
