import { catalogueOf } from "@/lib/wording";
import { pairsOf, type Standpoint } from "../sites/address";
import type { Entry } from "../sites/filters";
import styles from "./compare-page.module.css";

/** One more site to the others, best first. */
export function AddSite({ entries, standpoint }: { readonly entries: readonly Entry[]; readonly standpoint: Standpoint }) {
  const { guestSites: { compare: words }, verdicts } = catalogueOf();
  const rest = entries.filter(({ site }) => !standpoint.picked.includes(site.id));
  if (rest.length === 0) return null;
  return (
    <form action="/compare" method="get" className={styles.add}>
      {pairsOf(standpoint).map(([name, value], i) => <input key={`${name} ${i}`} type="hidden" name={name} value={value} />)}
      <label htmlFor="add-site">{words.add}</label>
      <select id="add-site" name="site">
        {rest.map(({ site, result }) => <option key={site.id} value={site.id}>{words.option(site.label ?? site.id, verdicts[result.verdict].label)}</option>)}
      </select>
      <button type="submit">{words.addButton}</button>
    </form>
  );
}
