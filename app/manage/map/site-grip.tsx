import type { Units } from "@/lib/measure";
import type { Place } from "@/lib/park/edit/place";
import type { Point } from "@/lib/plane";
import { numbersIn } from "@/lib/wording/format";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import { onMap } from "../../components/park-map/frame";
import type { MapSite } from "./map-state";
import { arrowEnd, toSheet, type MapSize, type MapView } from "./map-view";
import editor from "../editing/editor.module.css";
import styles from "./map.module.css";

interface GripProps {
  readonly site: MapSite;
  readonly place: Place;
  readonly view: MapView;
  readonly size: MapSize;
  readonly units: Units;
  readonly chosen: boolean;
  /** The one site that the Tab key leads to. */
  readonly stop: boolean;
}

/** A site on the map, to be laid hold of. */
export function SiteGrip({ site, place, view, size, units, chosen, stop }: GripProps) {
  const at = (p: Point) => toSheet(view, size, onMap(place, p));
  const pad = site.pad.map(at), [ox, oy] = at([0, 0]);
  const x = pad.reduce((sum, p) => sum + p[0], 0) / pad.length, y = pad.reduce((sum, p) => sum + p[1], 0) / pad.length;
  const named = chosen || view.scale > 0.0032;
  return (
    <g role="button" tabIndex={stop ? 0 : -1} aria-pressed={chosen} aria-label={words.spoken(site.label, place.east, place.north, place.bearing, numbersIn(units, ","))} className={`${editor.grip} ${styles.site} ${chosen ? styles.chosen : ""}`} data-site={site.id}>
      <title>{words.site(site.label)}</title>
      <circle className={editor.placeTarget} cx={r(x)} cy={r(y)} r={chosen ? 22 : 11} />
      <polygon className={styles.pad} points={pad.map(([px, py]) => `${r(px)},${r(py)}`).join(" ")} />
      <circle className={styles.origin} cx={r(ox)} cy={r(oy)} r="2" />
      <text className={named ? styles.name : `${styles.name} ${styles.unnamed}`} x={r(x)} y={r(y)} fontSize="12" textAnchor="middle" dominantBaseline="central" aria-hidden="true">{site.label}</text>
    </g>
  );
}

/** The arrow of the chosen site, which a mouse or a thumb turns it by; keys turn the site itself. */
export function TurnGrip({ site, place, view, size }: Pick<GripProps, "site" | "place" | "view" | "size">) {
  const [ox, oy] = toSheet(view, size, onMap(place, [0, 0])), [tx, ty] = toSheet(view, size, onMap(place, arrowEnd(site)));
  return (
    <g aria-hidden="true" className={editor.point} data-site={site.id} data-turn="">
      <line className={styles.arrow} x1={r(ox)} y1={r(oy)} x2={r(tx)} y2={r(ty)} />
      <circle className={editor.placeTarget} cx={r(tx)} cy={r(ty)} r="22" />
      <circle className={editor.knob} cx={r(tx)} cy={r(ty)} r="6.5" />
    </g>
  );
}

function r(value: number): number {
  return Math.round(value * 10) / 10;
}
