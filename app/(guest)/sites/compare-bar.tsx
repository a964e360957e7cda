import { catalogueOf } from "@/lib/wording";
import type { Standpoint } from "./address";
import { ANSWER_FORM } from "./filter-form";
import styles from "./compare.module.css";

/** Sends the ticked sites to be compared: the same form as the filters, to another page. */
export function CompareBar({ standpoint, hidden }: { readonly standpoint: Standpoint; readonly hidden: readonly string[] }) {
  const { guestSites: { compare } } = catalogueOf();
  return (
    <div className={standpoint.picked.length > 0 ? styles.barPicked : styles.bar}>
      {hidden.map((id) => <input key={id} type="hidden" name="site" value={id} form={ANSWER_FORM} />)}
      <button type="submit" form={ANSWER_FORM} formAction="/compare" className={styles.go}>{compare.go}</button>
      <p>{compare.help}</p>
    </div>
  );
}

export function CompareTick({ id, label, ticked }: { readonly id: string; readonly label: string; readonly ticked: boolean }) {
  const { guestSites: { compare } } = catalogueOf();
  return (
    <label className={styles.tick}>
      <input type="checkbox" name="site" value={id} form={ANSWER_FORM} defaultChecked={ticked} aria-label={compare.pickOf(label)} />
      <span aria-hidden="true">{compare.pick}</span>
    </label>
  );
}
