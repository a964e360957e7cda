import { layoutMap } from "../../../components/park-map/sheet";
import { ParkMap } from "../../../components/park-map/park-map";
import type { ParkRecord } from "../../../components/park-map/record";
import type { Verdict } from "@/lib/fit";
import type { Site } from "@/lib/park";
import { catalogueOf } from "@/lib/wording";
import type { Asked } from "../../context";
import { addressOf, type Standpoint } from "../address";
import styles from "./site.module.css";

interface LocatorProps {
  readonly asked: Asked;
  readonly site: Site;
  readonly record: ParkRecord;
  readonly verdict: Verdict | null;
  readonly standpoint: Standpoint;
}

/** Where in the park the site lies: one ringed mark among the others' dots. */
export function Locator({ asked: { sites, units, form }, site, record, verdict, standpoint }: LocatorProps) {
  const { site: words } = catalogueOf().guestSites;
  if (!site.place) return null;
  const standingOf = ({ id }: Site) => ({ verdict: id === site.id ? verdict : null, shown: id === site.id });
  return (
    <section aria-labelledby="where" className={styles.where}>
      <h2 id="where" className={styles.small}>{words.where}</h2>
      <ParkMap layout={layoutMap({ record, sites, standingOf, units, loop: null, selected: site.id })} id="locator" title={words.mapOf(site.label ?? site.id)} />
      {form && <p><a href={`${addressOf("/sites", { ...standpoint, filters: { ...standpoint.filters, loop: site.loop ?? null } })}#map`}>{words.toLoop}</a></p>}
    </section>
  );
}
