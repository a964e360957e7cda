import Link from "next/link";
import type { ReactNode } from "react";
import { TakenMark, VerdictMark } from "../../../components/verdict/mark";
import { findNearestNights, guestMayHave } from "@/lib/jobs/stay-fit";
import type { FitResult } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { CancellationStep, IsoDate, Quote } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import type { Asked } from "../../context";
import { offersFor, type Offers } from "../../offers";
import { QuoteTable } from "../../quote-table";
import { SendForm } from "../../send-form";
import { holdFromForm } from "../../stay/hold-site";
import { findOwnHold } from "../../stay/own-hold";
import { Terms } from "../../terms";
import { WhenForm } from "../../when-form";
import { siteAddress, withNights, type Standpoint } from "../address";
import type { Entry } from "../filters";
import { priceInWords, splitFor } from "../for-dates";
import styles from "../nights.module.css";

interface ForNightsProps {
  readonly asked: Asked;
  readonly site: Site;
  readonly rig: Rig | null;
  /** The answer with the numbers as they are taken to be, by which the site may be held or not. */
  readonly result: FitResult | null;
  /** Every site with its answer, best first. */
  readonly entries: readonly Entry[];
  readonly standpoint: Standpoint;
  /** Somebody was faster than this guest a moment ago. */
  readonly missed: boolean;
}

/** Whether this site can be had for the nights asked about, what it costs, and the button that holds it. */
export async function ForNights(props: ForNightsProps) {
  const { asked, site, rig, standpoint } = props;
  const { here: words, when } = catalogueOf().guestStay;
  const offers = await offersFor(asked);
  return (
    <section className={styles.here} id="nights" aria-label={words.title}>
      <WhenForm when={asked.when} standpoint={standpoint} path={`/sites/${encodeURIComponent(site.id)}`} submit={when.showSite} invite={words.invite} />
      {offers && rig && (offers.isFree(site.id) ? <Free {...props} rig={rig} offers={offers} /> : <Taken {...props} rig={rig} offers={offers} />)}
    </section>
  );
}

type DatedProps = Omit<ForNightsProps, "rig"> & { readonly rig: Rig; readonly offers: Offers };

function Free({ asked: { stays: { settings, today } }, site, rig, result, standpoint, offers }: DatedProps) {
  const { guestStay: { here: words, quote: quoteWords }, stays: { fault } } = catalogueOf();
  const outcome = offers.quoteOn(site, rig);
  const mayHold = result !== null && guestMayHave(result.verdict) && outcome?.ok !== false;
  return (
    <>
      <Standing>{words.free}</Standing>
      {outcome && !outcome.ok && <div className={styles.faults}>{outcome.faults.map((one) => <p key={one.code}>{fault(one)}</p>)}</div>}
      {outcome?.ok && <Price quote={outcome.quote} steps={settings.cancellation} today={today} />}
      {outcome === null && <p>{quoteWords.free}</p>}
      {result && !guestMayHave(result.verdict) && <p className={styles.faults}>{result.verdict === "no" ? words.doesNotFit : words.measureFirst}</p>}
      {mayHold && (
        <div className={styles.hold}>
          <SendForm action={holdFromForm} fields={[]} hidden={{ site: site.id, query: standpoint.query, units: standpoint.units }} submit={words.hold(settings.holdMinutes)} busy={words.holdBusy} line={words.holdLine} />
        </div>
      )}
    </>
  );
}

/** The price line by line, and what the park keeps of it by when one cancels. */
function Price({ quote, steps, today }: { readonly quote: Quote; readonly steps: readonly CancellationStep[]; readonly today: IsoDate }) {
  const { quote: words } = catalogueOf().guestStay;
  return (
    <>
      <h3>{words.title}</h3>
      <QuoteTable quote={quote} />
      <Terms steps={steps} arrive={quote.nights.arrive} currency={quote.currency} today={today} />
    </>
  );
}

async function Taken({ asked, site, rig, entries, standpoint, offers, missed }: DatedProps) {
  const { guestStay: { here: words }, verdicts } = catalogueOf();
  const [own, [near]] = await Promise.all([findOwnHold(site.id, offers.nights), findNearestNights(asked.park, offers.nights, [site.id], asked.stays.today)]);
  if (own) return <><Standing>{words.mine}</Standing><p><a href={`/stay/${own}`}>{words.mineLink}</a></p></>;
  const others = splitFor(entries, offers).offered.slice(0, mostOthers);
  return (
    <>
      {missed && <p className={styles.faults} role="alert">{words.missed}</p>}
      <Standing><TakenMark /> {words.taken}</Standing>
      {near && <p>{words.takenNext(near.nights)} <Link href={siteAddress(site.id, withNights(standpoint, near.nights))} prefetch={false}>{words.takenLink}</Link></p>}
      {others.length === 0 ? <p>{words.noOthers}</p> : (
        <>
          <h3>{words.others}</h3>
          <ul className={styles.rows}>
            {others.map(({ site: other, result }) => (
              <li key={other.id}>
                <Link href={siteAddress(other.id, standpoint)} prefetch={false} className={styles.label}>{other.label ?? other.id}</Link>
                <span className={styles.marked}><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</span>
                <span className={styles.price}>{priceInWords(offers, other, rig)}</span>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

/** Told of a site that is taken. */
const mostOthers = 4;

function Standing({ children }: { readonly children: ReactNode }) {
  return <p className={styles.standing} role="status">{children}</p>;
}
