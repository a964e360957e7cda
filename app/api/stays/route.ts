import { faultsOf, type Fault } from "@/lib/fit/request";
import { judgeFit } from "@/lib/jobs/stay-fit";
import { judgeOpening, stayCallSchema, type StayCall, type StayFault, type StayState } from "@/lib/stays";
import { getStayContext, type StayContext } from "@/lib/store/park-settings";
import { getPark, type Park } from "@/lib/store/parks";
import { getSite } from "@/lib/store/sites";
import { bookStay, holdStay, requestStay } from "@/lib/store/stays";
import type { Actor } from "@/lib/store/stays-actor";
import { getAccount, quoteFor } from "@/lib/store/stays-money";
import { findOpened, type Opened, type Opening } from "@/lib/store/stays-open";
import { answering } from "../answering";
import { failed, faulty, json, readJson } from "../answers";
import { linkBase } from "../../link-base";
import { stayRecord } from "./record";
import { noSuchSite, refusing, tellFaults } from "./refusals";

/** A guest without a link: they can open a stay, and reach none. */
const anybody: Actor = { kind: "guest", link: null };
const verbs = { hold: holdStay, request: requestStay, book: bookStay } as const;
const becomes: Readonly<Record<keyof typeof verbs, Extract<StayState, "held" | "requested" | "booked">>> = { hold: "held", request: "requested", book: "booked" };

/** Opens a stay: held, asked for or booked, with its nights, price and private link, or nothing of it. */
export const POST = answering(async (request) => {
  const body = await readJson(request, MAX_STAY_BYTES);
  if (!body.ok) return body.answer;
  const read = stayCallSchema.safeParse(body.value);
  const key = request.headers.get("idempotency-key");
  const keyFaults = key !== null && (key.length === 0 || key.length > 200) ? [{ path: "Idempotency-Key", message: "must have 1 to 200 letters" }] : [];
  if (!read.success || keyFaults.length > 0) return faulty([...keyFaults, ...(read.success ? [] : faultsOf(read.error))]);
  const call = read.data;
  const [park, context] = await Promise.all([getPark(call.park), getStayContext(call.park)]);
  if (!park || !context) return failed(404, `There is no park "${call.park}".`);
  return refusing(async () => {
    const earlier = key === null ? null : await findOpened(anybody, park.slug, key, call);
    return earlier ? answerOpened(request, park.slug, earlier) : open(request, park, context, call, key);
  }, () => ({ park, rig: call.rig }));
});

/** A rig with a hundred parts takes some ten kilobytes. */
const MAX_STAY_BYTES = 200_000;

async function open(request: Request, park: Park, context: StayContext, call: StayCall, key: string | null): Promise<Response> {
  const as = call.as ?? (context.settings.guestsMay === "book" ? "book" : "request");
  const { faults, accepts } = await judge(park, context, call, becomes[as]);
  if (faults.length > 0) return faulty(faults);
  const { park: _park, as: _as, accepts: _accepts, ...stayRequest } = call;
  const opening: Opening = { request: stayRequest, ...(accepts === undefined ? {} : { accepts }), ...(key === null ? {} : { key, sent: call }) };
  return answerOpened(request, park.slug, await verbs[as](anybody, park.slug, opening));
}

/** Everything that stands against the stay that can be known before the nights are asked for, and the total to agree to. */
async function judge(park: Park, context: StayContext, call: StayCall, to: "held" | "requested" | "booked"): Promise<{ faults: Fault[]; accepts: number | undefined }> {
  const nights = { arrive: call.arrive, depart: call.depart };
  const [fit, price, known] = await Promise.all([
    judgeFit(park, { site: call.site, nights, rig: call.rig, wanted: call.wanted, kept: false }, undefined),
    to === "held" ? null : quoteFor(park.slug, call, nights, call.rig),
    call.site === undefined || getSite(park.slug, call.site),
  ]);
  const opening = judgeOpening({ by: anybody.kind, settings: context.settings, today: context.today }, to, { nights, guest: call.guest ?? null, onSite: call.site !== undefined });
  const accepts = call.accepts ?? (price?.ok ? price.quote.total : undefined);
  const priceFaults: StayFault[] = !price ? [] : !price.ok ? [...price.faults] : accepts === price.quote.total ? [] : [{ code: "price", quote: price.quote }];
  const told = await tellFaults([...opening, ...fit, ...priceFaults], { park, rig: call.rig });
  return { faults: [...told, ...(known ? [] : [noSuchSite(call.site!)])], accepts };
}

async function answerOpened(request: Request, park: string, { stay, link, repeated }: Opened): Promise<Response> {
  const account = await getAccount({ kind: "guest", link }, park, stay.id);
  return json(
    { stay: stayRecord(park, stay, account), link: link === null ? null : { token: link, url: `${linkBase(request.headers)}/stay/${link}` } },
    repeated ? 200 : 201,
    { Location: `/api/stays/${stay.id}` },
  );
}
