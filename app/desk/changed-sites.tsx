import { fitOn } from "@/lib/jobs/stay-fit";
import { rigSchema } from "@/lib/rig";
import type { Park } from "@/lib/store/parks";
import type { OpenEffect } from "@/lib/store/site-effects";
import { getSiteOnRecord } from "@/lib/store/sites";
import { catalogueOf, sentence, unbroken } from "@/lib/wording";
import { effectSeen } from "./stays/changed-site-action";
import styles from "./changed-sites.module.css";

const { siteChanges: { desk: words }, stays: stayWords, verdicts, accounts } = catalogueOf();

interface ChangedSitesProps {
  readonly effects: readonly OpenEffect[];
  readonly park: Park;
  readonly zone: string;
  /** On the stay's own page there is no need to say whose it is. */
  readonly own?: boolean;
}

/** Of so many the reason is worked out; a park where more stand wrong has the stays' own pages for it. */
const mostReasons = 12;

/** Stays that no longer fit because their site changed, until they are moved or somebody has seen them. Nothing where there are none. */
export async function ChangedSites({ effects, park, zone, own = false }: ChangedSitesProps) {
  if (effects.length === 0) return null;
  const reasons = await Promise.all(effects.slice(0, mostReasons).map((effect) => reasonOf(effect, park)));
  return (
    <section className={styles.changed} aria-labelledby="changed-sites">
      <h2 id="changed-sites">{effects.some(({ readIn }) => readIn) ? (own ? words.onStayReadIn : words.titleBoth) : own ? words.onStay : words.title}{!own && <> <span>{effects.length}</span></>}</h2>
      <ul>
        {effects.map((effect, i) => (
          <li key={effect.id}>
            {!own && <p className={styles.who}><a href={`/desk/stays/${effect.stay}`}>{effect.guest ?? words.nameless}</a> <span className={styles.reference}>{effect.reference}</span> {stayWords.span(effect.nights)}</p>}
            <p><strong>{effect.readIn ? words.readIn(effect.label, verdicts[effect.now].label) : words.line(effect.label, verdicts[effect.was].label, verdicts[effect.now].label)}</strong>{reasons[i] && <> {unbroken(reasons[i])}</>}</p>
            <p className={styles.by}>{(effect.readIn ? words.found : words.changed)(effect.by, accounts.moment(new Date(effect.at), zone), effect.why)}</p>
            <div className={styles.acts}>
              <a href={own ? "#move" : `/desk/stays/${effect.stay}#move`}>{words.move}</a>
              <form action={effectSeen} className={styles.seen}><input type="hidden" name="effect" value={effect.id} /><button type="submit">{words.seen}<span className="visually-hidden">{words.seenOf(effect.guest ?? effect.reference)}</span></button></form>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What stands in the way on the site as it is now; null where it cannot be told. */
async function reasonOf({ site: siteId, rig }: OpenEffect, park: Park): Promise<string | null> {
  const read = rigSchema.safeParse(rig);
  if (!read.success) return null;
  const [site, result] = await Promise.all([getSiteOnRecord(park.slug, siteId), fitOn(park, siteId, read.data).catch(() => null)]);
  const reason = result?.reasons[0];
  return site && result && reason ? sentence(reason, site, read.data, park.units, result) : null;
}
