import { catalogueOf } from "@/lib/wording";
import type { When } from "./when";
import styles from "./when.module.css";

/** The two dates, each with what is wrong with it. */
export function WhenFields({ when }: { readonly when: When }) {
  return (
    <div className={styles.fields}>
      <DateField name="arrive" when={when} />
      <DateField name="depart" when={when} />
    </div>
  );
}

function DateField({ name, when: { texts, faults, earliest, latest } }: { readonly name: "arrive" | "depart"; readonly when: When }) {
  const { when: words } = catalogueOf().guestStay;
  const fault = faults[name], id = `field-${name}`;
  return (
    <div className={fault ? styles.faulty : styles.field}>
      <label htmlFor={id}>{words[name]}</label>
      <input id={id} type="date" name={name} defaultValue={texts[name]} min={earliest} max={name === "arrive" ? latest : undefined} aria-invalid={fault ? true : undefined} aria-describedby={fault ? `${id}-fault` : undefined} />
      {fault && <p id={`${id}-fault`} className={styles.fault}>{fault}</p>}
    </div>
  );
}
