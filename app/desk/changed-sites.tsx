import { fitOn } from "@/lib/jobs/stay-fit";
import { rigSchema } from "@/lib/rig";
import type { Park } from "@/lib/store/parks";
import type { OpenEffect } from "@/lib/store/site-effects";
import { getSiteOnRecord } from "@/lib/store/sites";
import { catalogueOf, sentence, unbroken } from "@/lib/wording";
import { effectSeen } from "./stays/changed-site-action";
import styles from "./changed-sites.module.css";

const { siteChanges: { desk: words }, stays: stayWords, verdicts, accounts } = catalogueOf();

const lists = [
  { turn: "shut", id: "changed-sites", title: { all: words.title, own: words.onStay } },
  { turn: "read-in", id: "read-in-stays", title: { all: words.titleReadIn, own: words.onStayReadIn } },
  { turn: "opened", id: "opened-stays", title: { all: words.titleOpened, own: words.onStayOpened } },
] as const;

interface ChangedSitesProps {
  readonly effects: readonly OpenEffect[];
  readonly park: Park;
  readonly zone: string;
  /** On the stay's own page there is no need to say whose it is. */
  readonly own?: boolean;
}

/** Of so many the reason is worked out; a park where more stand wrong has the stays' own pages for it. */
const mostReasons = 12;
/** So many are listed, those who come first first; thousands may be read in at once. */
const mostListed = 50;

/** Stays that no longer fit because a site changed, those that were read in and do not, and those that begin to fit, until they are moved or somebody has seen them. Nothing where there are none. */
export function ChangedSites({ effects, own = false, ...rest }: ChangedSitesProps) {
  return lists.map(({ turn, id, title }) => {
    const those = effects.filter((effect) => effect.turn === turn);
    return those.length > 0 && <Effects key={turn} {...rest} own={own} effects={those} id={id} title={own ? title.own : title.all} />;
  });
}

async function Effects({ effects, park, zone, own, id, title }: Required<ChangedSitesProps> & { readonly id: string; readonly title: string }) {
  const reasons = await Promise.all(effects.slice(0, mostReasons).map((effect) => reasonOf(effect, park)));
  return (
    <section className={effects[0]?.turn === "opened" ? `${styles.changed} ${styles.good}` : styles.changed} aria-labelledby={id}>
      <h2 id={id}>{title}{!own && <> <span>{effects.length.toLocaleString("en-US")}</span></>}</h2>
      <ul>
        {effects.slice(0, mostListed).map((effect, i) => (
          <li key={effect.id}>
            {!own && <p className={styles.who}><a href={`/desk/stays/${effect.stay}`}>{effect.guest ?? words.nameless}</a> <span className={styles.reference}>{effect.reference}</span> {stayWords.span(effect.nights)}</p>}
            <p><strong>{lineOf(effect)}</strong>{reasons[i] && <> {unbroken(reasons[i])}</>}</p>
            <p className={styles.by}>{effect.turn === "read-in" ? words.found(accounts.moment(new Date(effect.at), zone)) : words.changed(effect.by, accounts.moment(new Date(effect.at), zone), effect.why)}</p>
            <div className={styles.acts}>
              {effect.turn !== "opened" && <a href={own ? "#move" : `/desk/stays/${effect.stay}#move`}>{effect.verdicts ? words.move : words.give}</a>}
              <form action={effectSeen} className={styles.seen}><input type="hidden" name="effect" value={effect.id} /><button type="submit">{words.seen}<span className="visually-hidden">{words.seenOf(effect.guest ?? effect.reference)}</span></button></form>
            </div>
          </li>
        ))}
      </ul>
      {effects.length > mostListed && <p>{words.more(effects.length - mostListed)}</p>}
    </section>
  );
}

function lineOf({ turn, label, verdicts: of }: OpenEffect): string {
  if (!of) return turn === "opened" ? words.taken(label) : words.shutOut(label);
  return turn === "read-in" ? words.readIn(label, verdicts[of.now].label) : words.line(label, verdicts[of.was].label, verdicts[of.now].label);
}

/** What stands in the way on the stay's own site as it is now; null where nothing does, or it cannot be told. */
async function reasonOf({ site: siteId, rig, turn, verdicts: of }: OpenEffect, park: Park): Promise<string | null> {
  const read = rigSchema.safeParse(rig);
  if (!read.success || !of || turn === "opened") return null;
  const [site, result] = await Promise.all([getSiteOnRecord(park.slug, siteId), fitOn(park, siteId, read.data).catch(() => null)]);
  const reason = result?.reasons[0];
  return site && result && reason ? sentence(reason, site, read.data, park.units, result) : null;
}
