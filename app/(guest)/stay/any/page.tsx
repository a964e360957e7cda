import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { Busy } from "../../../components/rig-form/busy";
import { readParkRecord } from "../../../components/park-map/record";
import type { Params } from "../../../components/rig-form/params";
import type { Rig } from "@/lib/rig";
import { hookupServices, type Nights, type Wanted } from "@/lib/stays";
import { recordUnmet } from "@/lib/store/unmet";
import { catalogueOf } from "@/lib/wording";
import { askedBy, type Asked } from "../../context";
import { QuoteTable } from "../../quote-table";
import { SendForm } from "../../send-form";
import { addressOf, noFilters, pairsOf, type Standpoint } from "../../sites/address";
import { standpointOf } from "../../sites/answer";
import { loopsOf } from "../../sites/loops";
import { RigLine } from "../../sites/rig-line";
import { unmetAsk } from "../../sites/unmet-ask";
import { Terms } from "../../terms";
import { WhenForm } from "../../when-form";
import { contactFields, noteField } from "../contact-fields";
import styles from "../stay.module.css";
import { readAny, readWanted, type AnyOffer } from "./read-any";
import { takeAnyFromForm } from "./take-any";

const { guestStay: words, guestSites, stays } = catalogueOf();

export const metadata: Metadata = { title: words.any.title };

/** For who has no favourite: any site that fits, which the desk chooses. */
export default async function AnySitePage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const params = await searchParams;
  const asked = await askedBy(params);
  if (!asked?.form) redirect("/");
  const { form: { rig, faults, query }, form, when, units } = asked;
  const standpoint = { ...standpointOf(params, asked), filters: noFilters };
  return (
    <main className={styles.main}>
      <p className={styles.back}><a href={addressOf("/sites", standpoint)}>{words.any.back}</a></p>
      <h1>{words.any.title}</h1>
      <p className={styles.lead}>{words.any.line}</p>
      <RigLine form={form} />
      {!rig ? <p role="alert">{guestSites.faults(Object.keys(faults).length)} <a href={`/rig?${query}&units=${units}`}>{guestSites.faultsLink}</a></p> : (
        <>
          <WhenForm when={when} standpoint={standpoint} path="/stay/any" submit={words.any.update} invite={words.any.needDates} />
          {when.nights && <Offer asked={asked} rig={rig} nights={when.nights} wanted={readWanted(params, rig, asked.sites)} standpoint={standpoint} />}
        </>
      )}
    </main>
  );
}

interface OfferProps {
  readonly asked: Asked;
  readonly rig: Rig;
  readonly nights: Nights;
  readonly wanted: Wanted;
  readonly standpoint: Standpoint;
}

async function Offer({ asked, rig, nights, wanted, standpoint }: OfferProps) {
  const { park } = asked;
  const offer = await readAny(park, nights, rig, wanted);
  const { found: { offered, taken, refused, left }, quote } = offer;
  if (offered.length === 0) await recordUnmet({ kind: "guest", link: null }, park.slug, unmetAsk({ nights }, rig, [...taken, ...refused], wanted));
  return (
    <>
      <Choice asked={asked} wanted={wanted} standpoint={standpoint} />
      <p className={styles.free} role="status"><strong>{words.any.free(left)}</strong><br />{words.any.wanted(wanted.loop, wanted.services)}</p>
      {left > 0 && quote && !quote.ok && <div className={styles.faults}>{quote.faults.map((one) => <p key={one.code}>{stays.fault(one)}</p>)}</div>}
      {left > 0 && quote?.ok !== false && <Take asked={asked} wanted={wanted} offer={offer} standpoint={standpoint} />}
    </>
  );
}

/** What the site has to have: a plain form that the same page answers. */
function Choice({ asked: { sites, park }, wanted, standpoint }: Pick<OfferProps, "asked" | "wanted" | "standpoint">) {
  return (
    <form method="get" action="/stay/any" className={styles.choice}>
      <Carried standpoint={standpoint} />
      <input type="hidden" name="chosen" value="1" />
      <fieldset>
        <legend>{words.any.choose}</legend>
        {hookupServices.map((service) => <label key={service} className={styles.tick}><input type="checkbox" name="service" value={service} defaultChecked={wanted.services.includes(service)} /> {words.any.serviceNames[service]}</label>)}
        <label className={styles.loop}>{words.any.loop}
          <select name="loop" defaultValue={wanted.loop ?? ""}>
            <option value="">{words.any.anyLoop}</option>
            {loopsOf(sites, readParkRecord(park.record)).map(({ id, name }) => <option key={id} value={id}>{guestSites.loop(id, name)}</option>)}
          </select>
        </label>
      </fieldset>
      <Busy className={styles.button} label={words.any.update} busy={words.when.busy} />
    </form>
  );
}

function Carried({ standpoint }: { readonly standpoint: Standpoint }) {
  return pairsOf(standpoint).map(([name, value], i) => <input key={`${name} ${i}`} type="hidden" name={name} value={value} />);
}

/** The price, the terms and who is coming. */
function Take({ asked: { stays: { settings, today } }, wanted, offer: { quote }, standpoint }: Pick<OfferProps, "asked" | "wanted" | "standpoint"> & { readonly offer: AnyOffer }) {
  const way = settings.guestsMay === "book" ? "book" : "ask", priced = quote?.ok ? quote.quote : null;
  const query = new URLSearchParams([...pairsOf(standpoint), ["chosen", "1"], ...wanted.services.map((service): [string, string] => ["service", service]), ...(wanted.loop ? [["loop", wanted.loop] as [string, string]] : [])]);
  return (
    <>
      <h2>{words.quote.title}</h2>
      {priced ? <QuoteTable quote={priced} /> : <p>{words.quote.free}</p>}
      {priced && <Terms steps={settings.cancellation} arrive={priced.nights.arrive} currency={priced.currency} today={today} />}
      <h2>{words.hold.formTitle[way]}</h2>
      <p>{words.hold.formLine[way]}</p>
      <SendForm
        action={takeAnyFromForm} fields={[...contactFields, noteField]} busy={words.hold.busy}
        hidden={{ query: query.toString(), units: standpoint.units, total: priced ? String(priced.total) : "", key: crypto.randomUUID() }}
        submit={words.hold.submit[way](priced ? stays.money(priced.total, priced.currency) : null)}
      />
    </>
  );
}
