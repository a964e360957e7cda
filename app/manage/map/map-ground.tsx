import { centroid, type Point } from "@/lib/plane";
import type { Units } from "@/lib/measure";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import { mapScaleBar } from "../../components/park-map/frame";
import { Creek, pathOf, Roads } from "../../components/park-map/marks";
import type { ParkRecord } from "../../components/park-map/record";
import type { Ribbon, SheetPoint } from "../../components/park-map/types";
import type { MapSize } from "./map-view";
import sheet from "../../components/park-map/park-map.module.css";
import styles from "./map.module.css";

interface GroundProps {
  readonly record: ParkRecord;
  readonly toSheet: (p: Point) => SheetPoint;
  readonly scale: number;
}

/** The park beside its sites, in the ink of its map: woods and grass, creek, paths, roads, buildings. */
export function MapGround({ record: { map }, toSheet, scale }: GroundProps) {
  const ribbon = (thinnest: number) => ({ points, width, surface }: { readonly points: readonly Point[]; readonly width: number; readonly surface?: string | undefined }): Ribbon =>
    ({ points: points.map(toSheet), width: Math.max(width * scale, thinnest), loose: /gravel|dirt|grass|sand/i.test(surface ?? "") });
  const ring = (outline: readonly Point[]) => outline.map(toSheet).map(([x, y]) => `${Math.round(x * 10) / 10},${Math.round(y * 10) / 10}`).join(" ");
  return (
    <g aria-hidden="true">
      {map.areas.map((area, i) => <polygon key={i} className={area.kind === "woods" ? styles.woods : styles.open} points={ring(area.outline)} />)}
      <Creek creek={map.creek.map(ribbon(2.2))} />
      {map.paths.map(ribbon(1)).map((path, i) => <path key={i} className={sheet.path} d={pathOf(path.points)} strokeWidth={Math.min(path.width, 2)} />)}
      <Roads roads={map.roads.map(ribbon(3.4))} />
      {map.buildings.map((building, i) => <polygon key={i} className={sheet.building} points={ring(building.outline)} />)}
      {scale > 0.0016 && map.buildings.map((building, i) => { const [x, y] = toSheet(centroid(building.outline)); return building.name && <text key={i} x={x} y={y + 14} fontSize="10.5" textAnchor="middle">{building.name}</text>; })}
    </g>
  );
}

/** How long things are, and that north is up, in the corners. */
export function MapFurniture({ scale, size: { w, h }, units }: { readonly scale: number; readonly size: MapSize; readonly units: Units }) {
  const bar = mapScaleBar(scale, units), half = Math.round(5 * bar.mm * scale) / 10;
  return (
    <g aria-hidden="true">
      <rect className={styles.barFull} x="14" y={h - 16} width={half} height="5" />
      <rect className={styles.barOpen} x={14 + half} y={h - 16} width={half} height="5" />
      <text x="14" y={h - 21} fontSize="11">0</text>
      <text x={14 + 2 * half} y={h - 21} fontSize="11" textAnchor="middle">{bar.text}</text>
      <g transform={`translate(${w - 20} ${h - 22})`}><path className={styles.barFull} d="M0 -13L5 10L0 6Z" /><path className={styles.barOpen} d="M0 -13L-5 10L0 6Z" /></g>
      <text x={w - 20} y={h - 40} fontSize="12" textAnchor="middle">{words.northLetter}</text>
    </g>
  );
}
