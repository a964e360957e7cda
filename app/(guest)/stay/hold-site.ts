"use server";

import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { judgeFit } from "@/lib/jobs/stay-fit";
import { stayRequestSchema } from "@/lib/stays";
import { takeTry } from "@/lib/store/accounts/limits";
import { NightsTaken, StayRefused } from "@/lib/store/errors";
import { holdStay } from "@/lib/store/stays";
import { catalogueOf } from "@/lib/wording";
import { paramsOf, type Params } from "../../components/rig-form/params";
import { withoutNights } from "../../components/rig-form/query";
import { askedBy } from "../context";
import type { Sent } from "../send-form";
import { siteAddress } from "../sites/address";
import { standpointOf } from "../sites/answer";
import { findOwnHold, rememberHold } from "./own-hold";

/** Holds from one address of the network: a family tries a few sites, a program would take the whole park. */
const perAddress = { max: 40, window: 15 * 60 };

/** Holds the site of a guest's page while they fill in who is coming, and leads to the stay's own page. The fit is judged here again: the form's word counts for nothing. */
export async function holdFromForm(_before: Sent, form: FormData): Promise<Sent> {
  const { guestStay: { here: words }, stays } = catalogueOf();
  const text = (name: string) => String(form.get(name) ?? "");
  const params: Params = { ...paramsOf(new URLSearchParams(text("query"))), units: text("units") };
  const asked = await askedBy(params), site = text("site"), nights = asked?.when.nights;
  const read = asked?.form?.rig && nights ? stayRequestSchema.safeParse({ ...nights, site, rig: asked.form.rig }) : null;
  if (!asked?.form || !nights || !read?.success) return refused(words.refusedNow);
  const { data: request } = read;
  if ((await judgeFit(asked.park, { site, nights, rig: request.rig, wanted: request.wanted, kept: false }, undefined)).length > 0) return refused(words.doesNotFit);
  if (!(await mayHold())) return refused(words.tooMany);
  let token: string;
  try {
    const { link } = await holdStay({ kind: "guest", link: null }, asked.park.slug, { request, rigQuery: withoutNights(asked.form.query) });
    token = link!;
  } catch (error) {
    if (error instanceof StayRefused) return refused(error.faults.map(stays.fault).join(" "));
    if (!(error instanceof NightsTaken)) throw error;
    const own = await findOwnHold(site, nights);
    redirect(own ? `/stay/${own}` : `${siteAddress(site, standpointOf(params, asked))}&missed=1#nights`);
  }
  await rememberHold(token, asked.stays.settings.holdMinutes);
  redirect(`/stay/${token}`);
}

async function mayHold(): Promise<boolean> {
  const address = (await headers()).get("x-padwright-client");
  return address === null || (await takeTry(`hold ${address}`, perAddress)).allowed;
}

function refused(said: string): Sent {
  return { values: {}, faults: {}, said, done: false };
}
