"use server";

import { redirect } from "next/navigation";
import { createHash } from "node:crypto";
import { StoreError } from "@/lib/store/errors";
import { getStayContext } from "@/lib/store/park-settings";
import { getRates, saveRates } from "@/lib/store/rates";
import { listSites } from "@/lib/store/sites";
import type { RateCard } from "@/lib/stays";
import { manageRates } from "@/lib/wording/en/manage-rates";
import { requireManager } from "../../staff-session";
import { review } from "./compare";
import { changeRows, readDraft } from "./draft";
import type { Editing } from "./editing";
import { readCard } from "./read-card";
import { reviewInWords } from "./review-words";

const { form: words } = manageRates;

/** What a button of the form asks for: a row more or less, a look at what would change, or to save what was looked at. */
export async function editRatesAction(_before: Editing, form: FormData): Promise<Editing> {
  const { actor } = await requireManager();
  const asked = String(form.get("do") ?? ""), basedOn = Number(form.get("basedOn"));
  const draft = readDraft(form);
  if (asked.startsWith("add ") || asked.startsWith("remove ")) {
    const changed = changeRows(draft, asked);
    return { draft: changed, basedOn, faults: {}, said: JSON.stringify(changed) === JSON.stringify(draft) ? words.full : words.rows, review: null };
  }
  const read = readCard(draft);
  if (!read.ok) return { draft, basedOn, faults: read.faults, said: words.faults(Object.keys(read.faults).length), review: null };
  const looked = digest(read.card);
  if (asked !== "save" || form.get("looked") !== looked) return look(actor.park, { draft, card: read.card, basedOn, said: asked === "save" ? words.outdated : null });
  try {
    await saveRates(actor, actor.park, read.card, basedOn);
  } catch (error) {
    if (!(error instanceof StoreError) || error.kind !== "stale") throw error;
    return look(actor.park, { draft, card: read.card, basedOn, said: null });
  }
  redirect("/manage/rates");
}

interface Looking extends Pick<Editing, "draft" | "basedOn" | "said"> {
  readonly card: RateCard;
}

/** What the card would change of the one in force now, which is the one it is then saved over; told where that is not the one it was begun from. */
async function look(parkSlug: string, { draft, card, basedOn, said }: Looking): Promise<Editing> {
  const [present, sites, context] = await Promise.all([getRates(parkSlug), listSites(parkSlug), getStayContext(parkSlug)]);
  const inForce = present?.number ?? 0;
  const found = review(present?.card ?? null, card, sites, context!.today);
  return { draft, basedOn: inForce, faults: {}, said: inForce === basedOn ? said : words.stale, review: { ...reviewInWords(found), looked: digest(card) } };
}

function digest(card: RateCard): string {
  return createHash("sha256").update(JSON.stringify(card)).digest("hex").slice(0, 32);
}
