import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { overallLength } from "@/lib/rig";
import { dateIn } from "@/lib/stays";
import type { Unmet } from "@/lib/store/unmet";
import { catalogueOf } from "@/lib/wording";
import { formatLength } from "@/lib/wording/lengths";
import { answerFromForm } from "./answer-action";
import type { UnmetChoice } from "./choice";
import { nameOf } from "./counts";
import { sharesOfOne } from "./tally-unmet";
import styles from "./unmet.module.css";

const { manageUnmet: { list: words }, stays: stayWords, things } = catalogueOf();

interface RowProps {
  readonly unmet: Unmet;
  readonly sites: readonly Site[];
  readonly units: Units;
  readonly zone: string;
  readonly choice: UnmetChoice;
}

/** Reasons told of one request. */
const mostReasons = 3;

/** One request: what was looked for, why it was not to be had, and who wants to be told. */
export function UnmetRow({ unmet, sites, units, zone, choice }: RowProps) {
  const { nights, rig, wanted, askedOn, times } = unmet;
  return (
    <li>
      <p className={styles.when}>{stayWords.span(nights)}</p>
      <p>{words.rig(things.rigKinds[rig.kind], formatLength(overallLength(rig), units, "nearest"))}. {(wanted.loop || wanted.services.length > 0) && words.wanted(wanted.loop, wanted.services)} <span className={styles.soft}>{words.asked(stayWords.day(askedOn), times)}.</span></p>
      <p>{whyOf(unmet, sites)}</p>
      <Word unmet={unmet} zone={zone} choice={choice} />
    </li>
  );
}

function whyOf({ reasons }: Unmet, sites: readonly Site[]): string {
  const shares = sharesOfOne(reasons, sites).slice(0, mostReasons).map(({ by, site, sites: many }) => (site ? nameOf(by, site) : words.by(nameOf(by, site), many)));
  if (reasons.taken === 0 && shares.length === 0) return words.unknown;
  return [reasons.taken > 0 ? words.taken(reasons.taken) : words.noneFit, ...(shares.length > 0 ? [words.why(shares)] : [])].join(" ");
}

function Word({ unmet: { id, guest, note, answeredAt, answeredBy }, zone, choice }: Pick<RowProps, "unmet" | "zone" | "choice">) {
  if (!guest) return <p className={styles.soft}>{words.nobody}</p>;
  return (
    <div className={styles.word}>
      <p className={styles.ways}>
        <span>{words.leftWord} <strong>{guest.name}</strong></span>
        {guest.phone && <a href={`tel:${guest.phone.replace(/[^\d+]/g, "")}`}>{guest.phone}</a>}
        {guest.email && <a href={`mailto:${guest.email}`}>{guest.email}</a>}
        <a href={`/manage/guests/${id}`} aria-label={words.dataOf(guest.name)}>{words.data}</a>
      </p>
      {note && <p className={styles.note}>{note}</p>}
      {answeredAt !== null ? <p className={styles.soft}>{words.answered(stayWords.day(dateIn(zone, answeredAt)), answeredBy ?? "")}</p> : (
        <form action={answerFromForm}>
          <input type="hidden" name="id" value={id} /><input type="hidden" name="days" value={choice.days} /><input type="hidden" name="which" value={choice.which} /><input type="hidden" name="most" value={choice.most} />
          <button type="submit" className={styles.answer} aria-label={words.answerFor(guest.name)}>{words.answer}</button>
        </form>
      )}
    </div>
  );
}
