import Link from "next/link";
import { guestMayHave, findNearestNights } from "@/lib/jobs/stay-fit";
import type { FitResult } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import type { Asked } from "../../context";
import { offersFor } from "../../offers";
import { QuoteTable } from "../../quote-table";
import { SendForm } from "../../send-form";
import { holdFromForm } from "../../stay/actions";
import { WhenForm } from "../../when-form";
import { siteAddress, withNights, type Standpoint } from "../address";
import type { Entry } from "../filters";
import styles from "../nights.module.css";

interface ForNightsProps {
  readonly asked: Asked;
  readonly site: Site;
  readonly rig: Rig | null;
  readonly result: FitResult | null;
  readonly entries: readonly Entry[];
  readonly standpoint: Standpoint;
}

/** Whether this site can be had for the nights, what it costs, and the button that holds it. */
export async function ForNights({ asked, site, rig, result, entries, standpoint }: ForNightsProps) {
  const { here: words, when, quote: quoteWords, terms } = catalogueOf().guestStay;
  const { stays: { fault } } = catalogueOf();
  const offers = await offersFor(asked);
  const { settings, today } = asked.stays;
  const free = offers?.isFree(site.id) ?? false;
  const quote = offers && rig ? offers.quoteOn(site, rig) : null;
  const mayHold = offers && free && rig && result && guestMayHave(result.verdict) && (quote === null || quote.ok);
  const label = (entry: Entry) => entry.site.label ?? entry.site.id;
  return (
    <section className={styles.here} aria-label={words.title}>
      <WhenForm when={asked.when} standpoint={standpoint} path={`/sites/${encodeURIComponent(site.id)}`} submit={when.showSite} invite={words.invite} />
      {offers && <p className={styles.free} role="status"><strong>{free ? words.free : words.taken}</strong></p>}
      {offers && !free && rig && <Near asked={asked} site={site} standpoint={standpoint} today={today} />}
      {offers && !free && (
        <>
          <h3>{words.others}</h3>
          <ul>{entries.filter((entry) => entry.site.id !== site.id && guestMayHave(entry.result.verdict) && offers.isFree(entry.site.id)).slice(0, 6).map((entry) => <li key={entry.site.id}><Link href={siteAddress(entry.site.id, standpoint)} prefetch={false}>{label(entry)}</Link></li>)}</ul>
        </>
      )}
      {offers && free && rig && result && !guestMayHave(result.verdict) && <p>{words.doesNotFit}</p>}
      {quote && free && (quote.ok ? (
        <>
          <h3>{quoteWords.title}</h3>
          <QuoteTable quote={quote.quote} />
          <h3>{quoteWords.terms}</h3>
          <ul>{terms(settings.cancellation, quote.quote.nights.arrive, quote.quote.currency).map((line) => <li key={line}>{line}</li>)}</ul>
        </>
      ) : <ul className={styles.faults}>{quote.faults.map((one) => <li key={one.code}>{fault(one)}</li>)}</ul>)}
      {mayHold && <SendForm action={holdFromForm} fields={[]} hidden={{ site: site.id, query: standpoint.query, units: standpoint.units }} submit={words.hold(settings.holdMinutes)} busy={words.holdBusy} line={words.holdLine} />}
    </section>
  );
}

async function Near({ asked, site, standpoint, today }: { readonly asked: Asked; readonly site: Site; readonly standpoint: Standpoint; readonly today: Parameters<typeof findNearestNights>[3] }) {
  const { here: words } = catalogueOf().guestStay;
  const [near] = await findNearestNights(asked.park, asked.when.nights!, [site.id], today);
  return near ? <p>{words.takenNext(near.nights)} <Link href={siteAddress(site.id, withNights(standpoint, near.nights))} prefetch={false}>{words.takenLink}</Link></p> : null;
}
