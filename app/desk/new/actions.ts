"use server";

import { redirect } from "next/navigation";
import { acting, refused, textOf } from "../stays/acting";
import type { Acted } from "../stays/act-form";
import { askedFields, readAsked, type AskedField } from "./read-asked";
import { fitOn, guestMayHave } from "@/lib/jobs/stay-fit";
import { guestSchema, type FitOverride, type StayRequest } from "@/lib/stays";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { getSiteLabel } from "@/lib/store/sites";
import { bookStay, holdStay, requestStay, walkIn } from "@/lib/store/stays";
import { catalogueOf } from "@/lib/wording";

const { deskNew: words, deskStays: { stay: stayWords, faults: told }, verdicts } = catalogueOf();

const verbs = { booked: bookStay, arrived: walkIn, requested: requestStay, held: holdStay } as const;

/** Takes a stay down for somebody on the phone or at the window. The same form sent twice makes one stay. */
export async function bookFromForm(_before: Acted, form: FormData): Promise<Acted> {
  let made: string | null = null;
  const acted = await acting(form, async (actor) => {
    const [park, context] = [await getPark(actor.park), await getStayContext(actor.park)];
    if (!park || !context) return refused([]);
    const asked = readAsked((field: AskedField) => textOf(form, field), park, context.today);
    const guest = guestSchema.safeParse(Object.fromEntries(["name", "email", "phone", "plate"].map((name) => [name, textOf(form, name) || undefined])));
    const as = (Object.keys(verbs) as (keyof typeof verbs)[]).find((kind) => kind === textOf(form, "as")) ?? "booked";
    const site = textOf(form, "site");
    const faults = [
      ...askedFields.flatMap((field) => asked.faults[field] ?? []),
      ...(guest.success ? [] : guest.error.issues.map(({ path, message }) => `${path[0] === "name" ? stayWords.name : path[0] === "email" ? stayWords.email : path[0] === "phone" ? stayWords.phone : stayWords.plate}: ${message}.`)),
      ...(((as === "held" || as === "arrived") && !site) || !form.has("site") ? [words.needsSite] : []),
    ];
    if (!asked.ready || !guest.success || faults.length > 0) return refused(faults);
    const { rig, nights, loop } = asked.ready;
    const why = textOf(form, "reason");
    const result = site ? await fitOn(park, site, rig) : null;
    const poor = result && !guestMayHave(result.verdict) ? result : null;
    if (poor && !why) return refused([told.poor(await getSiteLabel(actor.park, poor.site), verdicts[poor.verdict].label)]);
    const override: { override?: FitOverride } = poor ? { override: { verdict: poor.verdict, codes: poor.reasons.map(({ code }) => code), why } } : {};
    const request: StayRequest = { ...nights, ...(site ? { site } : {}), wanted: { loop, services: [] }, rig, guest: guest.data, note: textOf(form, "note").slice(0, 2000) } as StayRequest;
    const key = textOf(form, "key");
    const { stay } = await verbs[as](actor, actor.park, { request, ...override, ...(key ? { key } : {}), ...(why ? { reason: why } : {}) });
    made = stay.id;
    return refused([]);
  });
  if (made) redirect(`/desk/stays/${made}`);
  return acted;
}
