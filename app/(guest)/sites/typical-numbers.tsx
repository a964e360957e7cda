import type { RigForm } from "../../components/rig-form/read";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { typicalLength } from "../../components/rig-form/fields";
import styles from "./sites.module.css";

/** Which numbers of the rig nobody measured, with what was taken for each, and the way to put in one's own. */
export function TypicalNumbers({ form }: { readonly form: RigForm }) {
  const { guestSites: { taken }, pages } = catalogueOf();
  const { assumed, start, base, units, query } = form;
  if (!start.kind) return null;
  if (assumed.length === 0) return <p className={styles.quiet}>{taken.none}</p>;
  const n = numbersFor(units);
  return (
    <details className={styles.taken}>
      <summary>{taken.title(assumed.length)}</summary>
      <p>{taken.line(start.name)} <a href={`/rig?${query}&units=${units}`}>{taken.link}</a></p>
      <dl className={styles.numbers}>
        {assumed.map((field) => <div key={field}><dt>{pages.fields[field]}</dt><dd>{unbroken(n.measured(typicalLength(base, field)))}</dd></div>)}
      </dl>
    </details>
  );
}
