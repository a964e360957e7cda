import { VerdictMark } from "../../../components/verdict/mark";
import { priceInWords } from "../../sites/for-dates";
import { offersOn } from "../../offers";
import { findSites } from "@/lib/jobs/stay-fit";
import { catalogueOf } from "@/lib/wording";
import styles from "../stay.module.css";
import type { GuestStay } from "./read-stay";

/** Sites told of that are still free. */
const mostOthers = 5;

/** A hold that was given back or ran out before anybody was named: nothing is owed, and what is still free is a tap away. */
export async function Gone({ data: { stay, park } }: { readonly data: GuestStay }) {
  const { guestStay: { hold: words, missing }, verdicts } = catalogueOf();
  const [{ offered }, offers] = await Promise.all([findSites(park, stay.nights, stay.rig, stay.wanted), offersOn(park.slug, stay.nights)]);
  const query = stay.rigQuery && new URLSearchParams([...new URLSearchParams(stay.rigQuery), ["arrive", stay.nights.arrive], ["depart", stay.nights.depart]]).toString();
  const again = query && offered.some(({ site }) => site.id === stay.site);
  return (
    <>
      <p>{words.gone}</p>
      {again && <p className={styles.way}><a className={styles.button} href={`/sites/${encodeURIComponent(stay.site!)}?${query}`}>{words.again}</a></p>}
      <h2>{offered.length > 0 ? words.goneOthers : words.goneNone}</h2>
      <ul className={styles.rows}>
        {offered.slice(0, mostOthers).map(({ site, result }) => (
          <li key={site.id}>
            {query ? <a className={styles.label} href={`/sites/${encodeURIComponent(site.id)}?${query}`}>{site.label ?? site.id}</a> : <b className={styles.label}>{site.label ?? site.id}</b>}
            <span><VerdictMark verdict={result.verdict} /> {verdicts[result.verdict].label}</span>
            <span className={styles.price}>{priceInWords(offers, site, stay.rig)}</span>
          </li>
        ))}
      </ul>
      <p className={styles.way}><a className={styles.button} href={query ? `/sites?${query}` : "/"}>{query ? words.search : missing.home}</a></p>
    </>
  );
}
