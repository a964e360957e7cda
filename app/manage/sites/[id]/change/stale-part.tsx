import { compareSites, mergeSites, type MergeConflict, type Site, type SiteDifference } from "@/lib/park";
import type { Units } from "@/lib/measure";
import { catalogueOf, changeRows, nameOfDifference } from "@/lib/wording";
import { Saving } from "../history/saving";
import { giveUpChange, putTogether } from "./actions";
import { bothChanges, readSite, revisionsSince, type BothChanges, type ChangeContext } from "./context";
import styles from "./change.module.css";

const { siteChanges: { stale: words, change, how } } = catalogueOf();

interface StaleProps {
  readonly context: ChangeContext;
  readonly units: Units;
  /** Something was left unchosen. */
  readonly unchosen: boolean;
}

/** Somebody saved the site after this change began: what they changed, and for each thing that both changed which to keep. Nothing is lost either way. */
export async function StalePart({ context, units, unchosen }: StaleProps) {
  const { actor, draft, site, stays } = context;
  const [since, both] = [await revisionsSince(actor, draft), await bothChanges(context)];
  const merge = both && mergeSites(both.base, both.mine, both.theirs);
  return (
    <section className={styles.stale} id="found" aria-labelledby="stale">
      <h2 id="stale">{words.title}</h2>
      <p>{words.line}</p>
      <ol className={styles.log}>{since.map((revision, i) => (revision.number === draft.base ? null : <li key={revision.number}><Saving revision={revision} before={since[i + 1] ?? null} units={units} zone={stays.settings.zone} /></li>))}</ol>
      <form action={putTogether}>
        <input type="hidden" name="site" value={draft.siteId} /><input type="hidden" name="draft" value={draft.id} /><input type="hidden" name="shown" value={draft.digest} />
        {site?.retired && draft.record !== null && <p>{words.retired}</p>}
        {draft.record !== null && !site?.retired && !both && <p>{words.unreadable}</p>}
        {merge && both && (
          <>
            {unchosen && <p role="alert"><strong>{words.chooseFirst}</strong></p>}
            <p><strong>{merge.conflicts.length > 0 ? words.both(merge.conflicts.length) : merge.mine.length > 0 ? words.apart : words.alike}</strong></p>
            {merge.conflicts.map((conflict) => <Choice key={conflict.key} conflict={conflict} both={both} units={units} />)}
            {merge.mine.length > 0 && <Mine keys={merge.mine} both={both} />}
          </>
        )}
        <p className={styles.buttons}>
          {(both || draft.record === null || site?.retired) && <button type="submit" className={styles.main}>{both ? words.merge : words.goOn}</button>}
          <button type="submit" formAction={giveUpChange} formNoValidate>{change.drop}</button>
        </p>
      </form>
    </section>
  );
}

/** One thing that both changed: as I have it, or as they have. */
function Choice({ conflict, both: { base, mine, theirs }, units }: { readonly conflict: MergeConflict; readonly both: BothChanges; readonly units: Units }) {
  const [was, my, their] = [base, mine, theirs].map(readSite) as [Site | null, Site | null, Site | null];
  const name = nameOfDifference(conflict, my, their);
  const sides = [["mine", words.mine, mine, my], ["theirs", words.theirs, theirs, their]] as const;
  return (
    <fieldset className={styles.choice}>
      <legend>{name}</legend>
      {sides.map(([value, word, record, read]) => (
        <label key={value}>
          <input type="radio" name={`keep.${conflict.key}`} value={value} required />
          <span><strong>{word}</strong>{linesOf(compareSites(base, record).filter(({ key }) => key === conflict.key || conflict.measured.includes(key)), was, read, units).map((line) => <span key={line}>{line}</span>)}</span>
        </label>
      ))}
    </fieldset>
  );
}

/** "Limbs begin at: 12 ft 9 in, was 11 ft." */
function linesOf(differences: readonly SiteDifference[], was: Site | null, is: Site | null, units: Units): string[] {
  return changeRows(differences, was, is, units).map(({ field, before, after, note }) => `${field ? `${field}: ` : ""}${after}. ${words.was}: ${before}. ${note}`.replaceAll("..", ".").trim());
}

function Mine({ keys, both: { base, mine } }: { readonly keys: readonly string[]; readonly both: BothChanges }) {
  const kept = compareSites(base, mine).filter(({ key }) => keys.includes(key));
  return <><p>{words.yours}</p><ul>{kept.map((difference) => <li key={difference.key}>{nameOfDifference(difference, readSite(base), readSite(mine))} ({how[difference.how]})</li>)}</ul></>;
}
