import type { StaffPerson } from "@/lib/store/accounts/people";
import { catalogueOf } from "@/lib/wording";
import { resetLinkAction, roleAction, switchAction } from "./actions";
import { LinkForm } from "./link-form";
import styles from "./accounts.module.css";

const { accounts: { manage: words, roleNames } } = catalogueOf();

interface PeopleProps {
  readonly people: readonly StaffPerson[];
  /** The e-mail of the one who looks. */
  readonly me: string;
  readonly when: (date: Date) => string;
}

/** Everybody with an account, and what can be done with it. */
export function People({ people, me, when }: PeopleProps) {
  return (
    <ul className={styles.rows} aria-label={words.table}>
      {people.map((person) => (
        <li key={person.id}>
          <div className={styles.who}>
            <p><strong>{person.name}</strong>{person.email === me && ` (${words.you})`}</p>
            <p className={styles.email}>{person.email}</p>
            <p><span className={styles.role}>{roleNames[person.role]}</span> {person.switchedOff ? <strong className={styles.off}>{words.off}</strong> : person.lastSeen ? words.seen(when(person.lastSeen)) : words.neverSeen}</p>
          </div>
          <Changes person={person} />
        </li>
      ))}
    </ul>
  );
}

function Changes({ person: { id, name, role, switchedOff } }: { readonly person: StaffPerson }) {
  const { linkTitle, linkOnce, linkLabel, copy, copied } = words;
  const other = role === "manager" ? "desk" : "manager";
  const toOther = other === "manager" ? words.makeManager : words.makeDesk, toSwitch = switchedOff ? words.switchOn : words.switchOff;
  return (
    <div className={styles.changes}>
      {!switchedOff && (
        <LinkForm action={resetLinkAction} words={{ linkTitle, linkOnce, linkLabel, copy, copied }}>
          <input type="hidden" name="id" value={id} />
          <input type="hidden" name="name" value={name} />
          <button type="submit" className={styles.quiet} aria-label={words.actionFor(words.reset, name)}>{words.reset}</button>
        </LinkForm>
      )}
      {!switchedOff && (
        <form action={roleAction}>
          <input type="hidden" name="id" value={id} />
          <button type="submit" name="role" value={other} className={styles.quiet} aria-label={words.actionFor(toOther, name)}>{toOther}</button>
        </form>
      )}
      <form action={switchAction}>
        <input type="hidden" name="id" value={id} />
        <button type="submit" name="on" value={switchedOff ? "yes" : "no"} className={styles.quiet} aria-label={words.actionFor(toSwitch, name)}>{toSwitch}</button>
      </form>
    </div>
  );
}
