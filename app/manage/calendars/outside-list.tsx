import type { OutsideCalendar } from "@/lib/store/outside-calendars";
import { accounts } from "@/lib/wording/en/accounts";
import { manageCalendars } from "@/lib/wording/en/manage-calendars";
import { readNowAction, removeAction } from "./actions";
import styles from "./calendars.module.css";

const { outside: words } = manageCalendars;

interface OutsideListProps {
  readonly calendars: readonly OutsideCalendar[];
  readonly labels: ReadonlyMap<string, string>;
  readonly zone: string;
  /** How long after a try the next one is due, milliseconds. */
  readonly between: number;
}

/** Every outside calendar with what came of reading it. */
export function OutsideList({ calendars, labels, zone, between }: OutsideListProps) {
  if (calendars.length === 0) return <p className={styles.none}>{words.none}</p>;
  return (
    <ul className={styles.rows} aria-label={words.list}>
      {calendars.map((calendar) => (
        <li key={calendar.id}>
          <div className={styles.what}>
            <p><strong>{calendar.name}</strong></p>
            <p className={styles.soft}>{words.from(labels.get(calendar.site) ?? calendar.site, new URL(calendar.url).host)}</p>
            <State calendar={calendar} when={(at) => accounts.moment(new Date(at), zone)} between={between} />
            <Conflicts conflicts={calendar.conflicts} />
          </div>
          <div className={styles.changes}>
            <form action={readNowAction}>
              <input type="hidden" name="id" value={calendar.id} />
              <button type="submit" className={styles.quiet} aria-label={words.actionFor(words.readNow, calendar.name)}>{words.readNow}</button>
            </form>
            <form action={removeAction}>
              <input type="hidden" name="id" value={calendar.id} />
              <button type="submit" className={styles.quiet} aria-label={words.actionFor(words.remove, calendar.name)}>{words.remove}</button>
            </form>
          </div>
        </li>
      ))}
    </ul>
  );
}

function State({ calendar: { readAt, nextReadAt, fault, closed }, when, between }: { readonly calendar: OutsideCalendar; readonly when: (at: number) => string; readonly between: number }) {
  return (
    <>
      {fault !== null && (
        <p className={styles.failed}>
          {words.fault(words.reason(fault), when(nextReadAt - between))} {words.next(when(nextReadAt))}
          {readAt !== null && ` ${words.keeps}`}
        </p>
      )}
      {readAt !== null ? <p>{words.read(when(readAt), closed)}</p> : fault === null && <p>{words.never}</p>}
    </>
  );
}

function Conflicts({ conflicts }: { readonly conflicts: OutsideCalendar["conflicts"] }) {
  if (conflicts.length === 0) return null;
  return (
    <div className={styles.conflicts}>
      <p><strong>{words.conflicts(conflicts.length)}</strong> {words.conflictLead}</p>
      <ul>
        {conflicts.map(({ nights, stays }, i) => (
          <li key={i}>
            {words.conflict(nights)} {stays.map(({ id, reference }, j) => <span key={id}>{j > 0 && ", "}<a href={`/desk/stays/${id}`}>{words.stay(reference)}</a></span>)}
          </li>
        ))}
      </ul>
    </div>
  );
}
