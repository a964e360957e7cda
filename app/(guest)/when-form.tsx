import { Busy } from "../components/rig-form/busy";
import { nightInputs } from "../components/rig-form/fields";
import { catalogueOf } from "@/lib/wording";
import { addressOf, pairsOf, withoutWhen, type Standpoint } from "./sites/address";
import type { When } from "./when";
import { WhenFields } from "./when-fields";
import styles from "./when.module.css";

interface WhenFormProps {
  readonly when: When;
  readonly standpoint: Standpoint;
  /** The page that asks, which also answers. */
  readonly path: string;
  readonly submit: string;
  readonly invite: string;
}

/** For which nights: asked for in a plain form, and said in words once they are known. */
export function WhenForm({ when, standpoint, path, submit, invite }: WhenFormProps) {
  const { when: words } = catalogueOf().guestStay;
  const { nights } = when, faulty = Object.keys(when.faults).length > 0;
  if (!nights) {
    return (
      <section className={styles.when} aria-labelledby="when" role={faulty ? "alert" : undefined}>
        <h2 id="when" className={styles.title}>{words.title}</h2>
        {!faulty && <p className={styles.invite}>{invite}</p>}
        <Asking when={when} standpoint={standpoint} path={path} submit={submit} />
      </section>
    );
  }
  return (
    <section className={styles.when} aria-labelledby="when">
      <h2 id="when" className={styles.nights}>{words.nights(nights)}</h2>
      <details className={styles.change}>
        <summary>{words.change}</summary>
        <Asking when={when} standpoint={standpoint} path={path} submit={submit} />
        <p className={styles.drop}><a href={addressOf(path, withoutWhen(standpoint))}>{words.drop}</a></p>
      </details>
    </section>
  );
}

function Asking({ when, standpoint, path, submit }: Omit<WhenFormProps, "invite">) {
  const { when: words } = catalogueOf().guestStay;
  const kept = pairsOf(standpoint).filter(([name]) => !(nightInputs as readonly string[]).includes(name));
  return (
    <form method="get" action={path} className={styles.form} noValidate>
      {kept.map(([name, value], i) => <input key={`${name} ${i}`} type="hidden" name={name} value={value} />)}
      <WhenFields when={when} />
      <Busy className={styles.submit} label={submit} busy={words.busy} />
    </form>
  );
}
