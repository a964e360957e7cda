"use server";

import { redirect } from "next/navigation";
import { guestStay } from "@/lib/wording/en/guest-stay";
import { stayRequestSchema } from "@/lib/stays";
import { StayRefused } from "@/lib/store/errors";
import { bookStay, requestStay } from "@/lib/store/stays";
import { catalogueOf } from "@/lib/wording";
import { withoutNights } from "../../../components/rig-form/query";
import { askedBy } from "../../context";
import type { Sent } from "../../send-form";
import { failed, paramsIn, readGuest, textOf } from "../read-form";
import { readAny, readWanted } from "./read-any";

/** Books, or asks for, a stay on any site that fits, at the total that was shown. What is free is looked at again. */
export async function takeAnyFromForm(_before: Sent, form: FormData): Promise<Sent> {
  const { guest, faults } = readGuest(form);
  if (!guest) return failed(form, null, faults);
  const params = paramsIn(form), asked = await askedBy(params);
  const rig = asked?.form?.rig, nights = asked?.when.nights;
  if (!asked?.form || !rig || !nights) return failed(form, guestStay.here.refusedNow);
  const wanted = readWanted(params, rig, asked.sites);
  const read = stayRequestSchema.safeParse({ ...nights, rig, wanted, guest, note: textOf(form, "note") });
  if (!read.success) return failed(form, guestStay.here.refusedNow);
  const { found: { left }, quote } = await readAny(asked.park, nights, rig, wanted);
  if (left === 0) return failed(form, guestStay.any.free(0));
  const open = asked.stays.settings.guestsMay === "book" ? bookStay : requestStay;
  let link: string | null;
  try {
    const opening = { request: read.data, key: textOf(form, "key"), rigQuery: withoutNights(asked.form.query), ...(quote?.ok ? { accepts: Number(textOf(form, "total")) } : {}) };
    ({ link } = await open({ kind: "guest", link: null }, asked.park.slug, opening));
  } catch (error) {
    if (error instanceof StayRefused) return failed(form, error.faults.map(catalogueOf().stays.fault).join(" "));
    throw error;
  }
  redirect(`/stay/${link}`);
}
