import { layoutMap, unplaced } from "../../components/park-map/sheet";
import { ParkMap } from "../../components/park-map/park-map";
import type { ParkRecord } from "../../components/park-map/record";
import type { MapLayout } from "../../components/park-map/types";
import { TakenMark, VerdictMark } from "../../components/verdict/mark";
import type { Verdict } from "@/lib/fit";
import { catalogueOf } from "@/lib/wording";
import type { Asked } from "../context";
import { addressOf, siteAddress, type Standpoint } from "./address";
import { passes, type Entry } from "./filters";
import { loopsOf } from "./loops";
import styles from "./map.module.css";

interface MapPanelProps {
  readonly entries: readonly Entry[];
  readonly asked: Asked;
  readonly record: ParkRecord;
  readonly standpoint: Standpoint;
  /** Of the nights asked about: whether a site would do and somebody has it. */
  readonly isTaken?: (entry: Entry) => boolean;
}

const ORDER: readonly Verdict[] = ["fits", "gear", "ask", "unsettled", "no"];

/** The park with every site's verdict: the whole of it, or the loop that is looked at. The list beside it says the same. */
export function MapPanel({ entries, asked: { sites, park, units }, record, standpoint, isTaken }: MapPanelProps) {
  const { guestSites } = catalogueOf(), words = guestSites.map;
  const loops = loopsOf(sites, record), { loop } = standpoint.filters;
  const off = unplaced(sites);
  const byId = new Map(entries.map((entry) => [entry.site.id, entry]));
  const standingOf = ({ id }: { readonly id: string }) => {
    const entry = byId.get(id);
    return { verdict: entry?.result.verdict ?? null, shown: entry !== undefined && passes(entry, standpoint.filters), taken: entry !== undefined && isTaken?.(entry) === true };
  };
  const loopTitle = loop === null ? null : guestSites.loop(loop, loops.find((l) => l.id === loop)?.name);
  const layout = layoutMap({ record, sites, standingOf, units, loop });
  return (
    <section className={styles.panel} id="map" tabIndex={-1} aria-labelledby="map-heading">
      <h2 id="map-heading">{words.heading}</h2>
      {off.length === sites.length ? <p>{words.unmapped}</p> : (
        <>
          {loops.length > 1 && <LoopLinks loops={loops} standpoint={standpoint} />}
          <ParkMap layout={layout} id="park-map" title={words.title(park.name, loopTitle)} hrefOf={(id) => siteAddress(id, standpoint)} />
          <Legend layout={layout} />
        </>
      )}
      {off.length > 0 && off.length < sites.length && (
        <p className={styles.off}>{words.unplaced}: {off.map((s, i) => <span key={s.id}>{i > 0 && ", "}<a href={siteAddress(s.id, standpoint)}>{s.label ?? s.id}</a></span>)}</p>
      )}
      <p className={styles.back}><a href="#sites">{guestSites.toList}</a></p>
    </section>
  );
}

/** Plain links: the choice is in the address, as the filter is, and the page comes back at the map. */
function LoopLinks({ loops, standpoint }: { readonly loops: ReturnType<typeof loopsOf>; readonly standpoint: Standpoint }) {
  const { guestSites } = catalogueOf(), { filters } = standpoint;
  const to = (loop: string | null) => `${addressOf("/sites", { ...standpoint, filters: { ...filters, loop } })}#map`;
  return (
    <nav aria-label={guestSites.map.loops} className={styles.loops}>
      <a href={to(null)} aria-current={filters.loop === null ? "true" : undefined}>{guestSites.map.whole}</a>
      {loops.map(({ id, name }) => <a key={id} href={to(id)} aria-label={guestSites.loop(id, name)} aria-current={filters.loop === id ? "true" : undefined}>{id}</a>)}
    </nav>
  );
}

/** The marks that are on this sheet, and no others. */
function Legend({ layout: { sites } }: { readonly layout: MapLayout }) {
  const verdicts = ORDER.filter((v) => sites.some(({ standing }) => standing.shown && !standing.taken && standing.verdict === v)), filtered = sites.some(({ standing }) => !standing.shown);
  const { guestSites: { map: words }, guestStay: { sites: { mapTaken } }, verdicts: verdictWords } = catalogueOf();
  return (
    <ul className={styles.legend} aria-label={words.legend}>
      {verdicts.map((verdict) => <li key={verdict}><VerdictMark verdict={verdict} /> {verdictWords[verdict].label}</li>)}
      {sites.some(({ standing }) => standing.shown && standing.taken) && <li><TakenMark /> {mapTaken}</li>}
      {filtered && <li><svg className={styles.dot} viewBox="0 0 10 10" aria-hidden="true"><circle cx="5" cy="5" r="4" /></svg> {words.dot}</li>}
    </ul>
  );
}
