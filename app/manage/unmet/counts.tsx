import type { Hindrance } from "@/lib/insight";
import type { Site } from "@/lib/park";
import { catalogueOf, siteThing } from "@/lib/wording";
import type { UnmetShare, UnmetTally } from "./tally-unmet";
import styles from "./unmet.module.css";

const { manageUnmet: { counts: words }, insight } = catalogueOf();

/** Shown at once; the rest is folded away. */
const first = 8;

/** What stood in the way, by how many requests. */
export function Counts({ tally: { shares, requests } }: { readonly tally: UnmetTally }) {
  return (
    <section className={styles.part} aria-labelledby="counts">
      <h2 id="counts">{words.title}</h2>
      <p>{words.caption}</p>
      <Table shares={shares.slice(0, first)} all={requests} />
      {shares.length > first && <details className={styles.fold}><summary>{words.more(shares.length - first)}</summary><Table shares={shares.slice(first)} all={requests} /></details>}
    </section>
  );
}

function Table({ shares, all }: { readonly shares: readonly UnmetShare[]; readonly all: number }) {
  return (
    <table className={styles.counts} aria-label={words.title}>
      <thead><tr><th scope="col">{words.what}</th><th scope="col">{words.requests}</th><th scope="col">{words.unfit}</th><th scope="col">{words.sites}</th></tr></thead>
      <tbody>{shares.map(({ by, site, requests, unfit, sites }) => <tr key={by}><th scope="row">{capital(nameOf(by, site))}</th><td>{words.ofAll(requests, all)}</td><td>{unfit}</td><td>{words.sitesMost(sites)}</td></tr>)}</tbody>
    </table>
  );
}

/** "the oak at B-05" where one site has it, "trees" where several do; a thing that no site has by now says so. */
export function nameOf(by: Hindrance, site: Site | null): string {
  if (!by.startsWith("thing:")) return insight.hindrance(by, null);
  const thing = site && siteThing(by.slice("thing:".length), site);
  return thing && site ? words.at(insight.hindrance(by, thing), site.label ?? site.id) : words.gone;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
