import { staffActorOf } from "@/app/staff-session";
import { faultsOf } from "@/lib/fit/request";
import { fitOn, guestMayHave, judgeFit } from "@/lib/jobs/stay-fit";
import { stayPatchSchema, type FitOverride, type StayFault, type StayPatch } from "@/lib/stays";
import { StayRefused } from "@/lib/store/errors";
import { getPark, type Park } from "@/lib/store/parks";
import { getSite } from "@/lib/store/sites";
import type { Stay } from "@/lib/store/stays";
import type { Actor } from "@/lib/store/stays-actor";
import { advanceStay } from "@/lib/store/stays-advance";
import { changeNights, editStay, getStay, moveStay } from "@/lib/store/stays-change";
import { findByLink } from "@/lib/store/stays-links";
import { getAccount, quoteFor } from "@/lib/store/stays-money";
import { answering } from "../../answering";
import { failed, faulty, json, readJson } from "../../answers";
import { isSameOrigin } from "../../origin";
import { stayRecord } from "../record";
import { noSuchSite, refusing } from "../refusals";

interface Context {
  readonly params: Promise<{ id: string }>;
}

/** The stay, for the guest whose it is and for staff of its park. For anybody else there is none. */
export const GET = answering(async (request, { params }: Context) => {
  const { id } = await params;
  const asker = await askerOf(request, id);
  if (!asker) return noStay();
  return refusing(async () => answerStay(asker, await getStay(asker.actor, asker.park, id)), () => null);
});

/** Changes one thing of a stay, by the same rules as the pages. */
export const PATCH = answering(async (request, { params }: Context) => {
  const { id } = await params;
  const body = await readJson(request, MAX_PATCH_BYTES);
  if (!body.ok) return body.answer;
  const asker = await askerOf(request, id);
  if (!asker) return noStay();
  if (asker.byCookie && !isSameOrigin(request)) return failed(403, "A change with a cookie has to come from this site.");
  const read = stayPatchSchema.safeParse(body.value);
  if (!read.success) return faulty(faultsOf(read.error));
  const park = await getPark(asker.park);
  if (!park) return noStay();
  if (read.data.site !== undefined && !(await getSite(park.slug, read.data.site))) return faulty([noSuchSite(read.data.site)]);
  let rig = read.data.rig ?? null;
  return refusing(async () => {
    const before = await getStay(asker.actor, park.slug, id);
    rig ??= before.rig;
    return answerStay(asker, await apply(asker.actor, park, before, read.data));
  }, () => ({ park, rig }));
});

const MAX_PATCH_BYTES = 200_000;

interface Asker {
  readonly actor: Actor;
  readonly park: string;
  readonly byCookie: boolean;
}

/** A guest shows the token of their link, staff their session. A link of another stay is no link at all. */
async function askerOf(request: Request, stayId: string): Promise<Asker | null> {
  const token = /^Bearer ([\w-]{20,100})$/.exec(request.headers.get("authorization") ?? "")?.[1];
  if (token !== undefined) {
    const found = await findByLink(token);
    return found && found.stay === stayId ? { actor: { kind: "guest", link: token }, park: found.park, byCookie: false } : null;
  }
  const staff = await staffActorOf(request);
  return staff && { actor: staff, park: staff.park, byCookie: true };
}

async function apply(actor: Actor, park: Park, stay: Stay, patch: StayPatch): Promise<Stay> {
  const editing = { ...(patch.version === undefined ? {} : { version: patch.version }), ...(patch.reason === undefined ? {} : { reason: patch.reason }) };
  const accepts = patch.accepts === undefined ? {} : { accepts: patch.accepts };
  if (patch.state !== undefined) {
    const guest = patch.guest ? { guest: patch.guest } : {};
    return (await advanceStay(actor, park.slug, stay.id, patch.state, { ...editing, ...guest, ...(await agreed(park, stay, patch)) })).stay;
  }
  if (patch.site !== undefined) {
    const override = await requireFit(actor, park, { ...stay, site: patch.site }, patch.override);
    return moveStay(actor, park.slug, stay.id, patch.site, { ...editing, ...override });
  }
  if (patch.arrive !== undefined || patch.depart !== undefined) {
    const nights = { arrive: patch.arrive ?? stay.nights.arrive, depart: patch.depart ?? stay.nights.depart };
    if (nights.depart <= nights.arrive) throw new StayRefused([{ code: "no-nights" }]);
    return changeNights(actor, park.slug, stay.id, nights, { ...editing, ...accepts });
  }
  const override = patch.rig ? await requireFit(actor, park, { ...stay, rig: patch.rig }, patch.override) : {};
  const change = { ...(patch.rig ? { rig: patch.rig } : {}), ...(patch.guest ? { guest: patch.guest } : {}), ...(patch.note === undefined ? {} : { note: patch.note }) };
  return editStay(actor, park.slug, stay.id, change, { ...editing, ...override });
}

/** Refuses what does not fit; staff may say why they take it all the same. */
async function requireFit(actor: Actor, park: Park, { site, nights, rig, wanted }: Pick<Stay, "site" | "nights" | "rig" | "wanted">, why: string | undefined): Promise<{ override?: FitOverride }> {
  const result = why !== undefined && actor.kind !== "guest" && site !== null ? await fitOn(park, site, rig) : null;
  const override = result && !guestMayHave(result.verdict) ? { verdict: result.verdict, codes: result.reasons.map(({ code }) => code), why: why! } : undefined;
  const faults: StayFault[] = await judgeFit(park, { site: site ?? undefined, nights, rig, wanted, kept: true }, override);
  if (faults.length > 0) throw new StayRefused(faults);
  return override ? { override } : {};
}

/** What a guest agrees to who says nothing of the price, where one is due: the one in force. */
async function agreed(park: Park, stay: Stay, { accepts, state }: StayPatch): Promise<{ accepts?: number }> {
  if (accepts !== undefined) return { accepts };
  const due = stay.state === "held" && (state === "booked" || state === "requested");
  const price = due ? await quoteFor(park.slug, stay, stay.nights, stay.rig) : null;
  return price?.ok ? { accepts: price.quote.total } : {};
}

async function answerStay({ actor, park }: Asker, stay: Stay): Promise<Response> {
  return json({ stay: stayRecord(park, stay, await getAccount(actor, park, stay.id)) });
}

function noStay(): Response {
  return failed(404, "There is no such stay.");
}
