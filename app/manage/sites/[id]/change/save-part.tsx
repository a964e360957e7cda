import { getSiteUse } from "@/lib/store/site-changes";
import { catalogueOf } from "@/lib/wording";
import { giveUpChange, saveChange } from "./actions";
import type { ChangeContext } from "./context";
import styles from "./change.module.css";

const { siteChanges: { change: words } } = catalogueOf();

interface SavePartProps {
  readonly context: ChangeContext;
  /** Whether what it means for stays is shown above. */
  readonly seen: boolean;
  /** There is nothing to save. */
  readonly nothing?: boolean;
}

/** Saves the change with why, or gives it up. */
export function SavePart({ context: { draft, site }, seen, nothing = false }: SavePartProps) {
  const name = !seen && draft.record !== null ? words.saveUnseen : draft.record === null ? words.retire : site ? words.save : words.saveNew;
  return (
    <form className={styles.save} action={saveChange}>
      <input type="hidden" name="site" value={draft.siteId} /><input type="hidden" name="draft" value={draft.id} /><input type="hidden" name="shown" value={draft.digest} />
      {!nothing && (
        <>
          <p>{seen ? words.seen : words.unseen} {draft.record !== null && words.careful}</p>
          <label className={styles.why}>{words.why}<textarea name="why" maxLength={1000} aria-describedby="why-hint" /><small id="why-hint">{words.whyHint}</small></label>
        </>
      )}
      <p className={styles.buttons}>
        {!nothing && <button type="submit" className={seen ? styles.main : undefined}>{name}</button>}
        <button type="submit" formAction={giveUpChange}>{words.drop}</button>
      </p>
    </form>
  );
}

/** Who is still on a site that is to be taken out of use. */
export async function InUse({ context: { actor, draft } }: { readonly context: ChangeContext }) {
  const use = await getSiteUse(actor, draft.siteId);
  if (!use) return null;
  return (
    <section className={styles.stale} role="alert" aria-labelledby="in-use">
      <h2 id="in-use">{words.inUse.title}</h2>
      <p>{words.inUse.line(use.stays.length, use.closures)}</p>
      <ul>{use.stays.map(({ id, reference }) => <li key={id}><a href={`/desk/stays/${id}`}>{reference}</a></li>)}</ul>
    </section>
  );
}
