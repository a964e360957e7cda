import type { RigForm } from "../../components/rig-form/read";
import { hrefOfField } from "../../components/rig-form/step-links";
import { catalogueOf, numbersFor, unbroken, whatToMeasure } from "@/lib/wording";
import styles from "./sites.module.css";

/** Which numbers of the rig nobody measured, with what was taken for each; each leads to where one's own is put in. */
export function TypicalNumbers({ form }: { readonly form: RigForm }) {
  const words = catalogueOf(), { taken } = words.guestSites;
  const { assumed, start, rig, units } = form;
  if (!start.kind || !rig) return null;
  if (assumed.length === 0) return <p className={styles.quiet}>{taken.none}</p>;
  const n = numbersFor(units);
  return (
    <details className={styles.taken}>
      <summary>{taken.title(assumed.length)}</summary>
      <p>{taken.line(start.name)}</p>
      <ul className={styles.numbers}>
        {assumed.map(({ field, input, typical }) => (
          <li key={input}><a href={hrefOfField(form, input)}>{taken.what(whatToMeasure(field, null, rig, words))}</a> <span>{unbroken(n.measured(typical))}</span></li>
        ))}
      </ul>
    </details>
  );
}
