import type { OutboxMail } from "@/lib/store/mail-outbox";
import { catalogueOf } from "@/lib/wording";
import { againAction, markAction, showAction } from "./actions";
import { TextForm } from "./text-form";
import styles from "./mail.module.css";

const { manageMail: words } = catalogueOf();

interface RowsProps {
  readonly mail: readonly OutboxMail[];
  readonly label: string;
  readonly when: (instant: number) => string;
  /** Whether it is sent by hand from here, whether there is a server that may try again. */
  readonly byHand?: boolean;
  readonly server: boolean;
}

/** Mail that is not sent yet: whose it is, how far it got, and what can be done. */
export function OpenRows({ mail, label, when, byHand = false, server }: RowsProps) {
  return (
    <ul className={styles.rows} aria-label={label}>
      {mail.map((one) => (
        <li key={one.id}>
          <About one={one}>
            <p>{words.since(when(one.createdAt))}{server && one.state === "queued" && `. ${words.next(when(one.nextTryAt))}`}</p>
            {one.error && <p className={styles.error}>{words.tries(one.attempts)}. {words.reason(one.error)}</p>}
          </About>
          <div className={styles.doing}>
            {server && one.error && <Act action={againAction} id={one.id} name={words.again} whom={whom(one)} />}
            {byHand && <TextForm action={showAction} words={textWords} whom={whom(one)}><input type="hidden" name="id" value={one.id} /></TextForm>}
            {byHand && <Act action={markAction} id={one.id} name={words.mark} whom={whom(one)} />}
          </div>
        </li>
      ))}
    </ul>
  );
}

/** Mail that went, or is not to go any more, with its text as it is kept. */
export function SettledRows({ mail, label, when }: Pick<RowsProps, "mail" | "label" | "when">) {
  return (
    <ul className={styles.rows} aria-label={label}>
      {mail.map((one) => (
        <li key={one.id}>
          <About one={one}>
            <p>{one.state === "overtaken" ? words.overtaken : one.state === "by-hand" ? words.byHand(when(one.sentAt ?? one.createdAt), one.sentBy) : words.sentAt(when(one.sentAt ?? one.createdAt))}</p>
          </About>
          {one.text && one.state !== "overtaken" && (
            <details className={styles.kept}>
              <summary aria-label={words.actionFor(words.text, whom(one))}>{words.text}</summary>
              <p><strong>{one.text.subject}</strong></p>
              <pre>{one.text.body}</pre>
            </details>
          )}
        </li>
      ))}
    </ul>
  );
}

function About({ one: { kind, to, stay }, children }: { readonly one: OutboxMail; readonly children: React.ReactNode }) {
  return (
    <div className={styles.about}>
      <p><strong>{words.kinds[kind]}</strong> <a href={`/desk/stays/${stay.id}`}>{words.stay(stay.reference, stay.guest)}</a></p>
      <p className={styles.address}>{words.to(to)}</p>
      {children}
    </div>
  );
}

function Act({ action, id, name, whom: of }: { readonly action: (form: FormData) => Promise<void>; readonly id: string; readonly name: string; readonly whom: string }) {
  return (
    <form action={action}>
      <input type="hidden" name="id" value={id} />
      <button type="submit" aria-label={words.actionFor(name, of)}>{name}</button>
    </form>
  );
}

function whom({ kind, stay }: OutboxMail): string {
  return `${words.kinds[kind]}, ${words.stay(stay.reference, stay.guest)}`;
}

const { show, showAgain, once, linkTo, subject, body, copy, copied, copyFailed, open } = words;
const textWords = { show, showAgain, once, linkTo, subject, body, copy, copied, copyFailed, open };
