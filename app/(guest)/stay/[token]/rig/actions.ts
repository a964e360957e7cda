"use server";

import { redirect } from "next/navigation";
import type { Sent } from "../../../send-form";
import { paramsOf } from "../../../../components/rig-form/params";
import { judgeFit } from "@/lib/jobs/stay-fit";
import { StayRefused, StoreError } from "@/lib/store/errors";
import { editStay } from "@/lib/store/stays-change";
import { catalogueOf } from "@/lib/wording";
import { readChange } from "./read-change";

const { guestStay: words, stays: { fault } } = catalogueOf();

/** Takes another rig or party into a stay, once it is judged again that it fits: what the page showed may be old. */
export async function changeRigFromForm(_before: Sent, form: FormData): Promise<Sent> {
  const text = (name: string) => String(form.get(name) ?? "");
  const token = text("token");
  const change = await readChange(token, paramsOf(new URLSearchParams(text("query"))));
  if (!change) return failed(words.missing.line);
  const { data: { stay, park }, form: { rig }, rigQuery } = change;
  if (!rig) return failed(words.change.faults);
  const faults = await judgeFit(park, { site: stay.site ?? undefined, nights: stay.nights, rig, wanted: stay.wanted, kept: true }, undefined);
  if (faults.length > 0) return failed(faults.map(fault).join(" "));
  try {
    await editStay({ kind: "guest", link: token }, park.slug, stay.id, { rig, ...(rigQuery === null ? {} : { rigQuery }) }, { version: Number(text("version")) });
  } catch (error) {
    if (error instanceof StayRefused) return failed(error.faults.map(fault).join(" "));
    if (error instanceof StoreError && error.kind === "stale") return failed(words.hold.stale);
    throw error;
  }
  redirect(`/stay/${token}?changed=rig`);
}

function failed(said: string): Sent {
  return { values: {}, faults: {}, said, done: false };
}
