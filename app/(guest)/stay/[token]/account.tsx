import { QuoteTable } from "../../quote-table";
import { catalogueOf } from "@/lib/wording";
import styles from "../stay.module.css";
import type { GuestStay } from "./read-stay";

/** What was agreed to, what was paid, and what is left. */
export function Account({ data: { account: { quotes, total, paid, depositDue }, currency } }: { readonly data: GuestStay }) {
  const { guestStay: { stay: words, quote: quoteWords }, stays } = catalogueOf();
  const money = (amount: number) => stays.money(amount, currency);
  return (
    <>
      <h2>{words.price}</h2>
      {quotes.length === 0 && <p>{words.noQuote}</p>}
      {quotes.map((quote, i) => <div key={i} className={styles.agreed}><QuoteTable quote={quote} agreed /><p className={styles.small}>{quoteWords.agreed(quote.acceptedOn)}</p></div>)}
      {quotes.length > 0 && (
        <dl className={styles.sums}>
          {quotes.length > 1 && <div><dt>{words.all}</dt><dd>{money(total)}</dd></div>}
          <div><dt>{words.paid}</dt><dd>{money(paid)}</dd></div>
          {depositDue > 0 && <div><dt>{words.due}</dt><dd>{money(depositDue)}</dd></div>}
          {total > paid && <div><dt>{words.left}</dt><dd>{money(total - paid)}</dd></div>}
        </dl>
      )}
    </>
  );
}
