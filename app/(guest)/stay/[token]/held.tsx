import { QuoteTable } from "../../quote-table";
import { SendForm } from "../../send-form";
import { catalogueOf } from "@/lib/wording";
import { bookFromForm, giveBackFromForm } from "../actions";
import { contactFields, noteField } from "../contact-fields";
import styles from "../stay.module.css";
import { Brought } from "./brought";
import { Countdown } from "./countdown";
import type { GuestStay } from "./read-stay";
import { Terms } from "../../terms";

const { guestStay: words, stays } = catalogueOf();

/** While the site is held: how long still, the price once more, who is coming, and the button that makes it theirs. */
export function Held({ data, token }: { readonly data: GuestStay; readonly token: string }) {
  const { context: { settings, today }, price } = data;
  const way = settings.guestsMay === "book" ? "book" : "ask", quote = price?.ok ? price.quote : null;
  return (
    <>
      <TimeLeft data={data} />
      {price && !price.ok && <ul className={styles.faults}>{price.faults.map((one) => <li key={one.code}>{stays.fault(one)}</li>)}</ul>}
      <Brought data={data} token={token} />
      {quote && (
        <>
          <h2>{words.quote.title}</h2>
          <QuoteTable quote={quote} />
          <Terms steps={settings.cancellation} arrive={quote.nights.arrive} currency={quote.currency} today={today} />
        </>
      )}
      <h2>{words.hold.formTitle[way]}</h2>
      <p>{words.hold.formLine[way]}</p>
      <SendForm action={bookFromForm} fields={[...contactFields, noteField]} hidden={{ token, total: quote ? String(quote.total) : "" }} submit={words.hold.submit[way](quote ? stays.money(quote.total, quote.currency) : null)} busy={words.hold.busy} />
      <SendForm action={giveBackFromForm} fields={[]} hidden={{ token }} submit={words.hold.giveBack} busy={words.hold.busy} className={styles.plain} />
    </>
  );
}

/** Until when, for who has no script; counted down for who has. */
function TimeLeft({ data: { stay: { until }, context: { now, settings } } }: { readonly data: GuestStay }) {
  if (until === null) return null;
  if (until <= now) return <p className={styles.until} role="status">{words.hold.over}</p>;
  return <p className={styles.until}>{words.hold.until(words.clock(until, settings.zone))} <Countdown seconds={Math.floor((until - now) / 1000)} /></p>;
}
