"use server";

import { headers } from "next/headers";
import { readCall } from "../check/read-call";
import { rigOf } from "../check/facts";
import { fitOn, findSites, guestMayHave } from "@/lib/jobs/stay-fit";
import { guestSchema, outcomes, paymentSchema, readDate, stayStates, type FitOverride, type Outcome, type StayState } from "@/lib/stays";
import { lend, takeBack } from "@/lib/store/loans";
import { getPark } from "@/lib/store/parks";
import { getSiteLabel } from "@/lib/store/sites";
import { addNote } from "@/lib/store/stay-notes";
import { StoreError } from "@/lib/store/errors";
import { advanceStay } from "@/lib/store/stays-advance";
import { changeNights, editStay, getStay, joinStays, moveStay, partStay, priceMoreNights } from "@/lib/store/stays-change";
import { issueLink, revokeLinks } from "@/lib/store/stays-links";
import { notePayment } from "@/lib/store/stays-money";
import { findStays } from "@/lib/store/stays-today";
import { getStayContext } from "@/lib/store/park-settings";
import { getRates } from "@/lib/store/rates";
import { catalogueOf } from "@/lib/wording";
import { placesOf, readMoney } from "@/lib/wording/money";
import type { Acted } from "./act-form";
import { acting, done, refused, textOf, versionOf } from "./acting";

const { deskStays: { stay: words, done: marked, faults: told }, verdicts, nights: board, stays } = catalogueOf();

/** Moves a stay on: here, left (with how it went), canceled and so on, as the button says. */
export async function advanceFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const to = stayStates.find((state) => state === textOf(form, "to"));
    if (!to) return refused([]);
    const how = outcomes.find((one) => one === textOf(form, "outcome"));
    const outcome: { outcome?: { how: Outcome; note: string } } = to === "departed" && how ? { outcome: { how, note: textOf(form, "outcome-note") } } : {};
    const reason = textOf(form, "reason");
    await advanceStay(actor, actor.park, textOf(form, "stay"), to satisfies StayState, { ...versionOf(form), ...outcome, ...(reason ? { reason } : {}) });
    return done(marked[to]);
  });
}

/** Gives a stay a site, or another one. A poor fit, and leaving a site that the guest chose, takes a reason. */
export async function moveFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const [stayId, siteId, why] = [textOf(form, "stay"), textOf(form, "site"), textOf(form, "reason")];
    const [park, stay] = [await getPark(actor.park), await getStay(actor, actor.park, stayId)];
    const result = park && (await fitOn(park, siteId, stay.rig));
    if (!result) return refused([board.noSuchSite]);
    const poor = !guestMayHave(result.verdict);
    if (poor && !why) return refused([told.poor(await getSiteLabel(actor.park, siteId), verdicts[result.verdict].label)]);
    const override: { override?: FitOverride } = poor ? { override: { verdict: result.verdict, codes: result.reasons.map(({ code }) => code), why } } : {};
    await moveStay(actor, actor.park, stayId, siteId, { ...versionOf(form), ...(why ? { reason: why } : {}), ...override });
    return done(words.moved(await getSiteLabel(actor.park, siteId)));
  });
}

/** Other nights. What those that are added cost is told first; it is done when the desk agrees to that price for those nights. */
export async function nightsFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const [agreedArrive, agreedDepart, agreedTotal] = textOf(form, "agreed").split(" ");
    const [arrive, depart] = [readDate(agreedArrive || textOf(form, "arrive")), readDate(agreedDepart ?? textOf(form, "depart"))];
    if (!arrive || !depart || depart <= arrive) return refused([told.dates]);
    const [stay, nights] = [textOf(form, "stay"), { arrive, depart }];
    const more = agreedTotal === undefined ? await priceMoreNights(actor, actor.park, stay, nights) : null;
    if (more) return { ...refused([]), confirm: { sentence: words.addedPrice(stays.span(nights), stays.money(more.total, more.currency)), button: words.agree, value: `${arrive} ${depart} ${more.total}` } };
    await changeNights(actor, actor.park, stay, nights, { ...versionOf(form), ...(agreedTotal === undefined ? {} : { accepts: Number(agreedTotal) }) });
    return done(words.saved);
  });
}

/** The rig at the gate is not the rig that was booked: judged on the site it has, and where it does not fit, which free ones it does. */
export async function rigFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const [park, stay] = [await getPark(actor.park), await getStay(actor, actor.park, textOf(form, "stay"))];
    const read = readCall(textOf(form, "call"), park?.units ?? "ft-in");
    if (!park || !read.ok) return refused([words.rigCannot]);
    const rig = { ...rigOf(read.call, {}), party: stay.rig.party };
    const why = textOf(form, "reason");
    const result = stay.site === null ? null : await fitOn(park, stay.site, rig);
    const poor = result && !guestMayHave(result.verdict) ? result : null;
    if (poor && !why) {
      const { offered } = await findSites(park, stay.nights, rig, stay.wanted);
      return refused([words.rigPoor(await getSiteLabel(actor.park, poor.site), verdicts[poor.verdict].label.toLowerCase(), offered.slice(0, 5).map(({ site }) => site.label ?? site.id))]);
    }
    const override: { override?: FitOverride } = poor ? { override: { verdict: poor.verdict, codes: poor.reasons.map(({ code }) => code), why } } : {};
    await editStay(actor, actor.park, stay.id, { rig }, { ...versionOf(form), ...(why ? { reason: why } : {}), ...override });
    return done(words.saved);
  });
}

export async function guestFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const read = guestSchema.safeParse(Object.fromEntries(["name", "email", "phone", "plate"].map((name) => [name, textOf(form, name) || undefined])));
    if (!read.success) return refused(read.error.issues.map(({ path, message }) => `${path[0] === "name" ? words.name : path[0] === "email" ? words.email : path[0] === "phone" ? words.phone : words.plate}: ${message}.`));
    await editStay(actor, actor.park, textOf(form, "stay"), { guest: read.data }, versionOf(form));
    return done(words.saved);
  });
}

export async function noteFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const text = textOf(form, "text").slice(0, 2000);
    if (text) await addNote(actor, actor.park, textOf(form, "stay"), text);
    return done(text ? words.saved : "");
  });
}

export async function lendFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    try {
      await lend(actor, actor.park, textOf(form, "stay"), textOf(form, "item"));
      return done(words.saved);
    } catch (error) {
      if (error instanceof StoreError && error.constraint === "loan_none_left") return refused([words.noneLeft]);
      throw error;
    }
  });
}

export async function returnFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    await takeBack(actor, actor.park, textOf(form, "loan"));
    return done(words.saved);
  });
}

/** Notes money that changed hands elsewhere: in the park's currency, never a card's number. */
export async function payFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const currency = (await getRates(actor.park))?.card.currency ?? "USD";
    const amount = readMoney(textOf(form, "amount"), placesOf(currency));
    const read = paymentSchema.safeParse({ amount: amount ?? 0, currency, purpose: textOf(form, "purpose"), means: textOf(form, "means") });
    if (!read.success) return refused([...(amount ? [] : [words.badAmount]), ...(textOf(form, "means") ? [] : [words.needsMeans])]);
    await notePayment(actor, actor.park, textOf(form, "stay"), read.data);
    return done(words.saved);
  });
}

export async function linkFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const stay = textOf(form, "stay");
    if (textOf(form, "end")) return done(words.linkEnded(await revokeLinks(actor, actor.park, stay)));
    const from = await headers();
    const token = await issueLink(actor, actor.park, stay);
    return done(words.linkOnce, `${from.get("x-forwarded-proto") ?? "http"}://${from.get("host") ?? "localhost"}/stay/${token}`);
  });
}

export async function togetherFromForm(_before: Acted, form: FormData): Promise<Acted> {
  return acting(form, async (actor) => {
    const stay = textOf(form, "stay");
    if (textOf(form, "part")) {
      await partStay(actor, actor.park, stay);
      return done(words.saved);
    }
    const reference = textOf(form, "reference").toUpperCase();
    const today = (await getStayContext(actor.park))?.today;
    const other = today && (await findStays(actor, actor.park, reference, today)).find((found) => found.reference === reference && found.id !== stay);
    if (!other) return refused([words.noSuchStay]);
    await joinStays(actor, actor.park, [stay, other.id]);
    return done(words.saved);
  });
}
