"use server";

import { redirect } from "next/navigation";
import { revalidatePath } from "next/cache";
import { askedBy } from "../context";
import { offersFor } from "../offers";
import { answerFor } from "../sites/answer";
import { unmetAsk } from "../sites/unmet-ask";
import type { Sent } from "../send-form";
import { failed, paramsIn, readGuest, textOf } from "./read-form";
import { NightsTaken, StayRefused, StoreError } from "@/lib/store/errors";
import { advanceStay } from "@/lib/store/stays-advance";
import { editStay, getStay } from "@/lib/store/stays-change";
import { findByLink } from "@/lib/store/stays-links";
import { getCancellationCost, quoteFor } from "@/lib/store/stays-money";
import { leaveWord } from "@/lib/store/unmet";
import { getStayContext } from "@/lib/store/park-settings";
import { catalogueOf } from "@/lib/wording";

const { guestStay: words, stays: stayWords } = catalogueOf();
const anybody = { kind: "guest", link: null } as const;

/** Makes a stay of a hold: booked or asked for, as the park lets guests, at the total that was shown. */
export async function bookFromForm(_before: Sent, form: FormData): Promise<Sent> {
  const token = textOf(form, "token");
  const found = await findByLink(token);
  if (!found) return failed(form, words.missing.line);
  const { guest, faults } = readGuest(form);
  if (!guest) return failed(form, null, faults);
  const actor = { kind: "guest", link: token } as const;
  const settings = (await getStayContext(found.park))?.settings;
  const stay = await getStay(actor, found.park, found.stay);
  const price = await quoteFor(found.park, stay, stay.nights, stay.rig);
  const accepts = Number(textOf(form, "total"));
  try {
    const note = textOf(form, "note").slice(0, 2000);
    if (note && note !== stay.note) await editStay(actor, found.park, stay.id, { note });
    await advanceStay(actor, found.park, stay.id, settings?.guestsMay === "book" ? "booked" : "requested", { guest, ...(price?.ok ? { accepts } : {}) });
  } catch (error) {
    if (error instanceof NightsTaken) return failed(form, words.hold.taken);
    if (error instanceof StayRefused) {
      // Somebody else may have wanted the nights of a hold that had run out: the page then says what is still free.
      if ((await getStay(actor, found.park, stay.id)).state === "cancelled") redirect(`/stay/${token}`);
      return failed(form, error.faults.map(stayWords.fault).join(" "));
    }
    if (error instanceof StoreError && error.kind === "stale") return failed(form, words.hold.stale);
    throw error;
  }
  redirect(`/stay/${token}`);
}

/** Saves who is coming and how to reach them. */
export async function guestFromForm(_before: Sent, form: FormData): Promise<Sent> {
  const token = textOf(form, "token");
  const found = await findByLink(token);
  if (!found) return failed(form, words.missing.line);
  const { guest, faults } = readGuest(form);
  if (!guest) return failed(form, null, faults);
  try {
    await editStay({ kind: "guest", link: token }, found.park, found.stay, { guest });
  } catch (error) {
    if (error instanceof StayRefused) return failed(form, error.faults.map(stayWords.fault).join(" "));
    throw error;
  }
  revalidatePath(`/stay/${token}`);
  return { ...failed(form, words.stay.saved), done: true };
}

/** Gives a site that is held back before anybody was named. */
export async function giveBackFromForm(_before: Sent, form: FormData): Promise<Sent> {
  return cancel(form, null);
}

/** Cancels under the park's terms: for what the guest was told that it costs, no other sum. */
export async function cancelFromForm(_before: Sent, form: FormData): Promise<Sent> {
  return cancel(form, Number(textOf(form, "kept")));
}

async function cancel(form: FormData, told: number | null): Promise<Sent> {
  const token = textOf(form, "token"), actor = { kind: "guest", link: token } as const;
  const found = await findByLink(token);
  if (!found) return failed(form, words.missing.line);
  if (told !== null && (await getCancellationCost(actor, found.park, found.stay)).kept !== told) return failed(form, words.cancelling.changed);
  try {
    await advanceStay(actor, found.park, found.stay, "cancelled");
  } catch (error) {
    if (error instanceof StayRefused) return failed(form, error.faults.map(stayWords.fault).join(" "));
    throw error;
  }
  redirect(`/stay/${token}`);
}

/** Keeps how to reach a guest who found nothing. The search is made again here: nothing of it is taken from the form's word. */
export async function leaveWordFromForm(_before: Sent, form: FormData): Promise<Sent> {
  const { guest, faults } = readGuest(form);
  if (!guest) return failed(form, null, faults);
  const asked = await askedBy(paramsIn(form));
  const offers = asked && (await offersFor(asked));
  const answer = asked?.form?.rig ? await answerFor(asked, asked.form.rig) : null;
  if (!asked?.form?.rig || !offers || !answer || "stopped" in answer) return failed(form, words.nothing.word.stale);
  try {
    await leaveWord(anybody, asked.park.slug, unmetAsk(offers, asked.form.rig, answer.entries.map(({ result }) => result)), guest, textOf(form, "note").slice(0, 500));
  } catch (error) {
    if (error instanceof StoreError && error.kind === "busy") return failed(form, words.nothing.word.full);
    throw error;
  }
  return { ...failed(form, words.nothing.word.done), done: true };
}
