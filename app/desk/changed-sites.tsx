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
/** So many are listed, those who come first first; thousands may be read in at once. */
const mostListed = 50;

/** Stays that no longer fit because their site changed, and those that were read in and do not, until they are moved or somebody has seen them. Nothing where there are none. */
export function ChangedSites({ effects, own = false, ...rest }: ChangedSitesProps) {
  const [changed, readIn] = [effects.filter((effect) => !effect.readIn), effects.filter((effect) => effect.readIn)];
  return (
    <>
      {changed.length > 0 && <Effects {...rest} own={own} effects={changed} id="changed-sites" title={own ? words.onStay : words.title} />}
      {readIn.length > 0 && <Effects {...rest} own={own} effects={readIn} id="read-in-stays" title={own ? words.onStayReadIn : words.titleReadIn} />}
    </>
  );
}

async function Effects({ effects, park, zone, own, id, title }: Required<ChangedSitesProps> & { readonly id: string; readonly title: string }) {
  const reasons = await Promise.all(effects.slice(0, mostReasons).map((effect) => reasonOf(effect, park)));
  return (
    <section className={styles.changed} aria-labelledby={id}>
      <h2 id={id}>{title}{!own && <> <span>{effects.length.toLocaleString("en-US")}</span></>}</h2>
      <ul>
        {effects.slice(0, mostListed).map((effect, i) => (
          <li key={effect.id}>
            {!own && <p className={styles.who}><a href={`/desk/stays/${effect.stay}`}>{effect.guest ?? words.nameless}</a> <span className={styles.reference}>{effect.reference}</span> {stayWords.span(effect.nights)}</p>}
            <p><strong>{effect.readIn ? words.readIn(effect.label, verdicts[effect.now].label) : words.line(effect.label, verdicts[effect.was].label, verdicts[effect.now].label)}</strong>{reasons[i] && <> {unbroken(reasons[i])}</>}</p>
            <p className={styles.by}>{effect.readIn ? words.found(accounts.moment(new Date(effect.at), zone)) : words.changed(effect.by, accounts.moment(new Date(effect.at), zone), effect.why)}</p>
            <div className={styles.acts}>
              <a href={own ? "#move" : `/desk/stays/${effect.stay}#move`}>{words.move}</a>
              <form action={effectSeen} className={styles.seen}><input type="hidden" name="effect" value={effect.id} /><button type="submit">{words.seen}<span className="visually-hidden">{words.seenOf(effect.guest ?? effect.reference)}</span></button></form>
            </div>
          </li>
        ))}
      </ul>
      {effects.length > mostListed && <p>{words.more(effects.length - mostListed)}</p>}
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
