import type { Quote } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import styles from "./quote.module.css";

interface QuoteTableProps {
  readonly quote: Quote;
  /** It was agreed to: how it is paid is told beside what was paid. */
  readonly agreed?: boolean;
}

/** The price, line by line; the lines add up to the total. */
export function QuoteTable({ quote, agreed = false }: QuoteTableProps) {
  const { guestStay: { quote: words }, stays } = catalogueOf();
  const money = (amount: number) => stays.money(amount, quote.currency);
  return (
    <>
      <table className={styles.quote}>
        <thead className="visually-hidden"><tr><th scope="col">{words.item}</th><th scope="col">{words.amount}</th></tr></thead>
        <tbody>{quote.lines.map((line, i) => <tr key={i}><th scope="row">{stays.line(line, quote.currency)}</th><td>{money(line.amount)}</td></tr>)}</tbody>
        <tfoot>
          <tr className={styles.total}><th scope="row">{words.total}</th><td>{money(quote.total)}</td></tr>
          {quote.deposit > 0 && <tr><th scope="row">{words.deposit}</th><td>{money(quote.deposit)}</td></tr>}
        </tfoot>
      </table>
      <p className={styles.small}>{stays.rounding}{!agreed && ` ${quote.deposit > 0 ? words.depositLine : words.payLine}`}</p>
    </>
  );
}
