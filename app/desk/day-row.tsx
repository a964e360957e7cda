import { outcomes, judgeMove, daysBetween, type DayList, type IsoDate, type StayState } from "@/lib/stays";
import type { Units } from "@/lib/measure";
import type { TodayStay } from "@/lib/store/stays-today";
import { catalogueOf } from "@/lib/wording";
import { formatLength } from "@/lib/wording/lengths";
import { ActForm } from "./stays/act-form";
import { advanceFromForm } from "./stays/actions";
import styles from "./today.module.css";

const { deskStays: { today: words, moves, movesBack, outcome }, stays: stayWords, things } = catalogueOf();

/** What is done with one tap in each list; the rest is on the stay's own page. */
const firstMove: Readonly<Record<DayList, StayState | null>> = { late: "arrived", arriving: "arrived", leaving: "departed", staying: "departed", left: "arrived", unassigned: null, requests: "booked", holds: null };

interface DayRowProps {
  readonly stay: TodayStay;
  readonly list: DayList;
  readonly day: IsoDate;
  readonly today: IsoDate;
  readonly label: string | null;
  readonly units: Units;
}

/** One stay in a day's list: who, on what, where, and the one thing that is mostly done next. */
export function DayRow({ stay, list, day, today, label, units }: DayRowProps) {
  const to = firstMove[list];
  const facts = { guestsMay: "book", daysToArrival: daysBetween(today, stay.nights.arrive), runOut: false } as const;
  const may = (target: StayState) => judgeMove(stay.state, target, "desk", facts).allowed;
  const name = stay.guest ?? words.nameless;
  const marks = [
    stay.state === "held" || stay.state === "requested" ? stayWords.states[stay.state] : "", stay.overridden ? words.overridden : "", stay.together ? words.together : "",
    stay.siteChosen ? words.chosen : "", stay.lent.length > 0 ? words.lent(stay.lent) : "",
    stay.depositDue > 0 && stay.currency && list !== "left" ? words.depositDue(stayWords.money(stay.depositDue, stay.currency)) : "", stay.note,
  ].filter(Boolean);
  return (
    <li className={styles.row}>
      <div className={styles.who}><a href={`/desk/stays/${stay.id}`}>{name}</a> <span className={styles.reference}>{stay.reference}</span>{stay.plate && <span className={styles.plate}>{stay.plate}</span>}</div>
      <div className={styles.where}>{label ? <strong>{label}</strong> : <a href={`/desk/stays/${stay.id}#move`}>{words.assign}</a>}</div>
      <div className={styles.what}>{things.rigKinds[stay.rigKind as keyof typeof things.rigKinds] ?? stay.rigKind} {formatLength(stay.rigLength, units, "nearest")}</div>
      <div className={styles.when}>{stay.nights.arrive < day ? <>{words.since(stayWords.day(stay.nights.arrive, year(day)))}, </> : stay.nights.arrive > day ? <>{stayWords.day(stay.nights.arrive, year(day))}, </> : ""}{words.until(stayWords.day(stay.nights.depart, year(day)))}</div>
      <div className={styles.marks}>{marks.join(" · ")}</div>
      <div className={styles.do}>
        {to && may(to) && (stay.site !== null || to !== "arrived") && (to === "departed"
          ? (
            <details className={styles.leave}>
              <summary>{moves.departed}<span className={styles.hidden}> {name}</span></summary>
              <ActForm action={advanceFromForm} className={styles.leaveForm} label={`${moves.departed}: ${name}`}>
                <Carried stay={stay} to="departed" />
                <label>{outcome.label}<select name="outcome" defaultValue="as-planned">{outcomes.map((how) => <option key={how} value={how}>{stayWords.outcomes[how]}</option>)}</select></label>
                <label>{outcome.note}<input name="outcome-note" maxLength={500} /></label>
                <button type="submit">{moves.departed}</button>
              </ActForm>
            </details>
          )
          : <ActForm action={advanceFromForm} className={styles.one}><Carried stay={stay} to={to} /><button type="submit">{list === "left" ? movesBack.arrived : moves[to]}<span className={styles.hidden}>: {name}</span></button></ActForm>)}
        {(list === "late" || list === "arriving") && may("no-show") && <ActForm action={advanceFromForm} className={styles.one}><Carried stay={stay} to="no-show" /><button type="submit" className={styles.second}>{moves["no-show"]}<span className={styles.hidden}>: {name}</span></button></ActForm>}
        {stay.state === "arrived" && stay.nights.arrive === today && <ActForm action={advanceFromForm} className={styles.one}><Carried stay={stay} to="booked" /><button type="submit" className={styles.second}>{movesBack.booked}<span className={styles.hidden}>: {name}</span></button></ActForm>}
      </div>
    </li>
  );
}

function Carried({ stay, to }: { readonly stay: Pick<TodayStay, "id" | "version">; readonly to: StayState }) {
  return <><input type="hidden" name="stay" value={stay.id} /><input type="hidden" name="version" value={stay.version} /><input type="hidden" name="to" value={to} /></>;
}

function year(date: IsoDate): number {
  return Number(date.slice(0, 4));
}
