import { useMemo } from "react";
import type { Site, SiteInput } from "@/lib/park";
import type { Units } from "@/lib/measure";
import { ellipseOf, placesOf, type ErrorEllipse } from "@/lib/survey";
import type { Point } from "@/lib/plane";
import { PlanGround } from "../../editing/plan-ground";
import { PlanLabels } from "../../editing/plan-labels";
import { toPage, viewOf, type PageSize } from "../../editing/view";
import { fixed } from "../../../components/plan/paths";
import { cornersOf } from "./start-form";
import styles from "./walk.module.css";

/** On the glass, px. */
const SIZE: PageSize = { w: 440, h: 480 };
/** What is known closer than this is drawn as a point, mm. */
const LEAST = 60;

interface SurveyPlanProps {
  readonly record: SiteInput;
  readonly site: Site;
  readonly units: Units;
  readonly label: string;
  /** What is being measured now: where it would stand, and what the tapes are held to. */
  readonly now: { readonly at: Point | null; readonly from: readonly Point[]; readonly ellipse: ErrorEllipse | null };
}

/** Radius of the disc that a corner's letter stands in. */
const LETTER = 11;

/** The site as measured so far, with the letters of its corners and how well each place is known: twice the standard error, enlarged no more than the plan. */
export function SurveyPlan({ record, site, units, label, now }: SurveyPlanProps) {
  const view = useMemo(() => viewOf(record, SIZE, "site"), [record]);
  const page = (p: Point) => toPage(view, SIZE, p), corners = cornersOf(site);
  const places = [...placesOf(site).known.values()].map(({ name, at, spread }) => ({ name, at, ellipse: ellipseOf(spread) }));
  const ring = ({ major, minor, bearing }: ErrorEllipse, at: Point, className: string | undefined, key: string) => {
    const [x, y] = page(at), turn = -90 - (bearing * 180) / Math.PI;
    return <ellipse key={key} className={className} cx={fixed(x)} cy={fixed(y)} rx={fixed(2 * major * view.scale)} ry={fixed(2 * minor * view.scale)} transform={`rotate(${fixed(turn)} ${fixed(x)} ${fixed(y)})`} />;
  };
  return (
    <svg className={styles.plan} viewBox={`0 0 ${SIZE.w} ${SIZE.h}`} role="img" aria-label={label}>
      <PlanGround draft={record} view={view} size={SIZE} units={units} />
      {places.filter(({ ellipse }) => ellipse.major > LEAST).map(({ name, at, ellipse }) => ring(ellipse, at, styles.known, name))}
      {now.at && now.from.map((from, i) => { const [x1, y1] = page(from), [x2, y2] = page(now.at!); return <line key={i} className={styles.tape} x1={fixed(x1)} y1={fixed(y1)} x2={fixed(x2)} y2={fixed(y2)} />; })}
      {now.at && now.ellipse && ring(now.ellipse, now.at, styles.unsure, "now")}
      {now.at && <circle className={styles.now} cx={fixed(page(now.at)[0])} cy={fixed(page(now.at)[1])} r="7" />}
      <PlanLabels draft={record} view={view} size={SIZE} marks={{ at: corners.map(({ at }) => page(at)), radius: LETTER + 1 }} />
      {corners.map(({ letter, at }) => { const [x, y] = page(at); return <g key={letter}><circle className={styles.corner} cx={fixed(x)} cy={fixed(y)} r={LETTER} /><text className={styles.letter} x={fixed(x)} y={fixed(y)} textAnchor="middle" dominantBaseline="central">{letter}</text></g>; })}
    </svg>
  );
}
