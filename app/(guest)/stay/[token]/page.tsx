import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { Plan } from "../../../components/plan/plan";
import { VerdictMark } from "../../../components/verdict/mark";
import { one, type Params } from "../../../components/rig-form/params";
import { QuoteTable } from "../../quote-table";
import { SendForm, type SendField } from "../../send-form";
import { bookFromForm, cancelFromForm, guestFromForm } from "../actions";
import { readStayOf, type GuestStay } from "./read-stay";
import { Countdown } from "./countdown";
import { overallLength } from "@/lib/rig";
import { bringSentence, catalogueOf, formatLength, unbroken } from "@/lib/wording";
import styles from "../stay.module.css";

const { guestStay: words, stays: stayWords, verdicts } = catalogueOf();

// The address is the secret: no other host learns it as where somebody came from. Ours must, or forms are refused without script.
export const metadata: Metadata = { title: words.stay.title(""), robots: { index: false, follow: false }, referrer: "same-origin" };

interface PageProps {
  readonly params: Promise<{ token: string }>;
  readonly searchParams: Promise<Params>;
}

/** A guest's own stay, behind their private link. */
export default async function GuestStayPage({ params, searchParams }: PageProps) {
  const [{ token }, query] = await Promise.all([params, searchParams]);
  const data = await readStayOf(token);
  if (!data) notFound();
  const { stay, park, label } = data;
  const canceling = one(query.cancel) !== undefined && data.mayCancel;
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park.name}</p>
      <h1>{words.stay.stateTitles[stay.state]}</h1>
      <p className={styles.lead}>{words.stay.stateLines[stay.state]}</p>
      <p className={styles.facts}><strong>{label ? words.stay.siteOf(label) : words.stay.anySite}</strong><br />{words.stay.nights(stay.nights)}<br />{words.stay.reference}: <strong className={styles.reference}>{stay.reference}</strong></p>
      {one(query.changed) !== undefined && <p className={styles.keep} role="status">{words.change.done}</p>}
      {canceling ? <Canceling data={data} token={token} /> : <>
        {stay.state === "held" && <Held data={data} token={token} />}
        {stay.state !== "held" && <Kept data={data} token={token} />}
      </>}
    </main>
  );
}

interface PartProps {
  readonly data: GuestStay;
  readonly token: string;
}

const contact: readonly SendField[] = [
  { name: "name", label: words.hold.fields.name, type: "text", complete: "name", most: 80 },
  { name: "email", label: words.hold.fields.email, type: "email", complete: "email", most: 200, hint: words.hold.hints.contact },
  { name: "phone", label: words.hold.fields.phone, type: "tel", complete: "tel", most: 40 },
  { name: "plate", label: words.hold.fields.plate, type: "text", complete: "off", most: 20, hint: words.hold.hints.plate },
];
const note: SendField = { name: "note", label: words.hold.fields.note, type: "text", complete: "off", most: 500 };

/** While the site is held: who is coming, the price once more, and the button that makes it theirs. */
function Held({ data, token }: PartProps) {
  const { stay, context, price } = data;
  const way = context.settings.guestsMay === "book" ? "book" : "ask";
  const total = price?.ok ? stayWords.money(price.quote.total, price.quote.currency) : null;
  return (
    <>
      <p className={styles.until}>{stay.until !== null && (stay.until > context.now ? words.hold.until(words.clock(stay.until, context.settings.zone)) : words.hold.over)} {stay.until !== null && stay.until > context.now && <Countdown seconds={Math.floor((stay.until - context.now) / 1000)} />}</p>
      {price && (price.ok ? <><h2>{words.quote.title}</h2><QuoteTable quote={price.quote} /><Terms steps={context.settings.cancellation} arrive={stay.nights.arrive} currency={price.quote.currency} /></> : <ul className={styles.faults}>{price.faults.map((one) => <li key={one.code}>{stayWords.fault(one)}</li>)}</ul>)}
      <Brought data={data} token={token} />
      <h2>{words.hold.formTitle[way]}</h2>
      <p>{words.hold.formLine[way]}</p>
      <SendForm action={bookFromForm} fields={[...contact, note]} hidden={{ token, total: price?.ok ? String(price.quote.total) : "" }} submit={words.hold.submit[way](total)} busy={words.hold.busy} />
      <SendForm action={cancelFromForm} fields={[]} hidden={{ token }} submit={words.hold.giveBack} busy={words.hold.busy} className={styles.plain} />
    </>
  );
}

/** What is on record of the rig and who comes, with the way to change it. */
function Brought({ data: { stay, park, mayEdit }, token }: PartProps) {
  const { rig: { kind, party: { adults, children, pets } } } = stay;
  return (
    <>
      <h2>{words.stay.rig}</h2>
      <p>{unbroken(catalogueOf().guestRig.kindLine(catalogueOf().things.rigKinds[kind], formatLength(overallLength(stay.rig), park.units, "nearest")))}<br />{words.hold.partyLine(adults, children, pets)}</p>
      {mayEdit && <p><a className={styles.button} href={`/stay/${token}/rig`}>{words.stay.rigChange}</a> <span className={styles.small}>{words.stay.rigNote}</span></p>}
    </>
  );
}

function Terms({ steps, arrive, currency }: { readonly steps: Parameters<typeof words.terms>[0]; readonly arrive: Parameters<typeof words.terms>[1]; readonly currency: string }) {
  return <><h3>{words.quote.terms}</h3><ul>{words.terms(steps, arrive, currency).map((line) => <li key={line}>{line}</li>)}</ul></>;
}

/** A stay that is more than held: all that a guest needs before and while they are here. */
function Kept({ data, token }: PartProps) {
  const { stay, park, context, site, result, account, currency, mayCancel, mayEdit } = data;
  const { houseRules, checkIn, checkOut, lends } = context.settings;
  const money = (amount: number) => stayWords.money(amount, currency);
  const bring = result ? [...new Set(result.bring.map((item) => bringSentence(item, stay.rig, park.units)))] : [];
  const over = stay.state === "cancelled" || stay.state === "departed" || stay.state === "no-show";
  return (
    <>
      {!over && <p>{words.stay.times(checkIn, checkOut)}</p>}
      {!over && <p className={styles.keep}><strong>{words.stay.keepTitle}.</strong> {words.stay.keep}</p>}
      {!over && <p><a className={styles.button} href={`/stay/${token}/calendar.ics`} download>{words.stay.calendar}</a> <span className={styles.small}>{words.stay.calendarLine}</span></p>}
      {!over && site && result && (
        <>
          <h2>{words.stay.plan}</h2>
          <p><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}{result.verdict === "no" && <>. {words.stay.noFit}</>}</p>
          <Plan site={site} rig={stay.rig} result={result} units={park.units} />
          <h2>{words.stay.bring}</h2>
          {bring.length === 0 ? <p>{words.stay.bringNothing}</p> : <><ul>{bring.map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>{lends.length > 0 && <p>{words.stay.lends} {lends.map(({ name }) => name).join("; ")}.</p>}</>}
        </>
      )}
      {!over && (
        <>
          <h2>{words.stay.rules}</h2>
          <ul>
            {houseRules.quietHours && <li>{words.stay.quiet(houseRules.quietHours.from, houseRules.quietHours.to)}</li>}
            {houseRules.generatorHours && <li>{words.stay.generators(houseRules.generatorHours.from, houseRules.generatorHours.to)}</li>}
            <li>{words.stay.fires[houseRules.campfires]}</li>
            {houseRules.more.map((line) => <li key={line}>{line}</li>)}
          </ul>
        </>
      )}
      {!over && <Brought data={data} token={token} />}
      <h2>{words.stay.price}</h2>
      {account.quotes.length === 0 ? <p>{words.stay.noQuote}</p> : <>{account.quotes.map((quote, i) => <div key={i}><QuoteTable quote={quote} /><p className={styles.small}>{words.quote.agreed(quote.acceptedOn)}</p></div>)}<p>{words.stay.paid}: <strong>{money(account.paid)}</strong>{account.depositDue > 0 && <>. {words.stay.due}: <strong>{money(account.depositDue)}</strong></>}</p></>}
      {mayEdit && (
        <details className={styles.fold}>
          <summary>{words.stay.edit}</summary>
          <SendForm action={guestFromForm} fields={contact} hidden={{ token }} start={{ name: stay.guest?.name ?? "", email: stay.guest?.email ?? "", phone: stay.guest?.phone ?? "", plate: stay.guest?.plate ?? "" }} submit={words.stay.editSubmit} busy={words.hold.busy} />
        </details>
      )}
      <h2>{words.stay.desk}</h2>
      <p>{words.stay.deskLine(park.name)}</p>
      {mayCancel && <p><a className={styles.button} href={`/stay/${token}?cancel=1`}>{words.stay.cancel}</a></p>}
    </>
  );
}

/** Says what it costs first; the second press does it. */
function Canceling({ data: { stay, context, account, cost, currency }, token }: PartProps) {
  const money = (amount: number) => stayWords.money(amount, currency);
  return (
    <>
      <h2>{words.cancelling.title}</h2>
      <p>{cost.kept === 0 ? words.cancelling.keepsNothing : words.cancelling.keeps(money(cost.kept))} {cost.back > 0 ? words.cancelling.back(money(cost.back)) : cost.owed > 0 ? words.cancelling.owed(money(cost.owed)) : words.cancelling.nothingBack}</p>
      {account.quotes.length > 0 && <><p>{words.cancelling.why}</p><Terms steps={context.settings.cancellation} arrive={stay.nights.arrive} currency={currency} /></>}
      <SendForm action={cancelFromForm} fields={[]} hidden={{ token }} submit={words.cancelling.yes} busy={words.hold.busy} />
      <p><a className={styles.button} href={`/stay/${token}`}>{words.cancelling.no}</a></p>
    </>
  );
}
