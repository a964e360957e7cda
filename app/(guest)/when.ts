import { addDays, judgeNights, readDate, readNights, type Nights } from "@/lib/stays";
import type { StayContext } from "@/lib/store/park-settings";
import { catalogueOf } from "@/lib/wording";
import { typed, type Params } from "../components/rig-form/params";

/** The two dates of an address. */
export interface When {
  readonly texts: { readonly arrive: string; readonly depart: string };
  readonly faults: { readonly arrive?: string; readonly depart?: string };
  /** Null where none were asked about, or where something is wrong with them. */
  readonly nights: Nights | null;
  /** The first and the last day a guest may arrive, in the park. */
  readonly earliest: string;
  readonly latest: string;
}

/** Reads the nights of an address; all that is wrong with them, each beside its date. Neither date given is no fault. */
export function readWhen(params: Params, { settings, today }: StayContext): When {
  const texts = { arrive: typed(params.arrive) ?? "", depart: typed(params.depart) ?? "" };
  const rest = { texts, earliest: today, latest: addDays(today, settings.daysAhead) };
  const { when: words } = catalogueOf().guestStay;
  if (texts.arrive === "" && texts.depart === "") return { ...rest, faults: {}, nights: null };
  const faultOf = (name: "arrive" | "depart") => (texts[name] === "" ? words.missing[name] : readDate(texts[name]) ? undefined : words.dateFaults[`${name}-not-a-date`]);
  const [arrive, depart] = [faultOf("arrive"), faultOf("depart")];
  if (arrive || depart) return { ...rest, nights: null, faults: { ...(arrive ? { arrive } : {}), ...(depart ? { depart } : {}) } };
  const read = readNights(texts.arrive, texts.depart);
  if (!read.ok) return { ...rest, nights: null, faults: { depart: words.dateFaults[read.faults[0]!] } };
  const limits = judgeNights(read.nights, "guest", today, settings);
  const limitAt = (name: "arrive" | "depart") => limits.find(({ code }) => (code === "longer-than-allowed") === (name === "depart"));
  const [early, long] = [limitAt("arrive"), limitAt("depart")], { fault } = catalogueOf().stays;
  return { ...rest, nights: limits.length === 0 ? read.nights : null, faults: { ...(early ? { arrive: fault(early) } : {}), ...(long ? { depart: fault(long) } : {}) } };
}
