import { manageRates } from "@/lib/wording/en/manage-rates";
import type { ReviewShown } from "./editing";
import styles from "./rates.module.css";

const { review: words, unpricedTitle, unpricedNote } = manageRates;

/** What saving would change, before anything is saved. */
export function ReviewPart({ review: { lines, note, samples, unpriced } }: { readonly review: ReviewShown }) {
  return (
    <section className={styles.review} aria-labelledby="review">
      <h2 id="review" tabIndex={-1} data-review="">{words.title}</h2>
      {lines.length === 0 ? <p>{words.nothing}</p> : (
        <>
          <h3>{words.lines}</h3>
          <ul>{lines.map((line) => <li key={line}>{line}</li>)}</ul>
          <h3>{words.samples}</h3>
          <p>{note}</p>
          {samples.length > 0 && (
            <div className={styles.scroll} tabIndex={0} role="region" aria-label={words.samples}>
              <table className={styles.samples}>
                <thead><tr><th scope="col">{words.hookups}</th><th scope="col">{words.when}</th><th scope="col">{words.twoNights}</th><th scope="col">{words.sevenNights}</th></tr></thead>
                <tbody>{samples.map(({ key, hookups, when, prices }) => <tr key={key}><th scope="row">{hookups}</th><td>{when}</td>{prices.map(({ before, after }, i) => <td key={i} className={styles.money}><span className={styles.length} aria-hidden="true">{i === 0 ? words.twoNights : words.sevenNights}</span><strong>{after}</strong><span>{before === after ? words.same : words.was(before)}</span></td>)}</tr>)}</tbody>
              </table>
            </div>
          )}
        </>
      )}
      {unpriced.length > 0 && <div className={styles.warning}><h3>{unpricedTitle}</h3><ul>{unpriced.map((line) => <li key={line}>{line}</li>)}</ul><p>{unpricedNote}</p></div>}
    </section>
  );
}
