import { LabelMark } from "../plan/drawing";
import { Gap, NorthArrow, ObstacleMark, ScaleBar, scallop } from "../plan/marks";
import { pathOf, pointsOf } from "../plan/paths";
import plan from "../plan/plan.module.css";
import { wayIn as words } from "@/lib/wording/en/way-in";
import type { WaySheet } from "./way-sheet";
import styles from "./way-player.module.css";

interface MarksProps {
  readonly sheet: WaySheet;
  readonly id: string;
}

/** Ground and what stands on it, below the rig: all ground that wheels may roll on is one, with its edges in ink. */
export function GroundMarks({ sheet: { lot, roads, driveable, pad, obstacles, posts, barred }, id }: MarksProps) {
  return (
    <>
      {lot && <polygon className={plan.lot} points={pointsOf(lot)} />}
      {roads.map(({ line, width }) => <path key={`edge ${width} ${pathOf(line.slice(0, 1))}`} className={styles.roadEdge} d={pathOf(line)} strokeWidth={width + 2.4} />)}
      {[...driveable, pad].map((ring) => <polygon key={`edge ${pointsOf(ring)}`} className={styles.groundEdge} points={pointsOf(ring)} />)}
      {driveable.map((ring) => <polygon key={pointsOf(ring)} className={styles.driveable} points={pointsOf(ring)} />)}
      <polygon className={styles.pad} points={pointsOf(pad)} />
      {roads.map(({ line, width }) => <path key={`road ${width} ${pathOf(line.slice(0, 1))}`} className={styles.road} d={pathOf(line)} strokeWidth={width} />)}
      {roads.map(({ text }) => text && <text key={pointsOf([text])} className={styles.roadText} x={text[0]} y={text[1]} textAnchor="middle" dominantBaseline="central">{words.road}</text>)}
      {obstacles.map((shape) => <g key={shape.id} className={barred.includes(shape.id) ? plan.about : undefined}><ObstacleMark shape={shape} id={id} /></g>)}
      {posts.map(({ at: [x, y], r }) => <circle key={pointsOf([[x, y]])} className={plan.post} cx={x} cy={y} r={Math.max(r, 2)} />)}
    </>
  );
}

/** What hangs over the rig. */
export function OverheadMarks({ sheet: { obstacles, limits, barred } }: Pick<MarksProps, "sheet">) {
  return (
    <>
      {obstacles.map((o) => o.type === "tree" && o.crown.r > 0 && <path key={o.id} className={`${plan.crown} ${barred.includes(o.id) ? plan.about : ""}`} d={scallop(o.crown)} />)}
      {limits.map(({ id, line, bars }) => <path key={id} className={bars ? styles.limitBars : styles.limit} d={pathOf(line)} />)}
    </>
  );
}

/** The tightest place with its size, the names of things, the scale and where north is. */
export function TextMarks({ sheet: { gap, labels, scaleBar, north } }: Pick<MarksProps, "sheet">) {
  return (
    <>
      {gap && <Gap gap={gap} />}
      {labels.map((label) => <LabelMark key={label.id} label={label} />)}
      <ScaleBar bar={scaleBar} />
      {north && <NorthArrow north={north} />}
    </>
  );
}

/** Hatching, one pattern for each ink, and what the marks of a plan are filled with. Ids begin with the drawing's own. */
export function WayPatterns({ sheet: { ground }, id }: MarksProps) {
  return (
    <defs>
      <pattern id={`${id}-solid`} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><line className={plan.dense} x1="0" y1="0" x2="0" y2="4" /></pattern>
      <pattern id={`${id}-ahead`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line className={styles.hatchAhead} x1="0" y1="0" x2="0" y2="6" /></pattern>
      <pattern id={`${id}-passed`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line className={styles.hatchPassed} x1="0" y1="0" x2="0" y2="6" /></pattern>
      <clipPath id={`${id}-clip`}><rect x={ground.x} y={ground.y} width={ground.w} height={ground.h} /></clipPath>
    </defs>
  );
}
