import type { ReactNode } from "react";
import type { Label, PagePoint, PlanLayout, RigShape, TurnedText } from "./types";
import { LABEL_SIZE, LETTER_WIDTH, LINE_HEIGHT } from "./labels";
import { Gap, HookupMark, NorthArrow, ObstacleMark, PartMark, ScaleBar, scallop } from "./marks";
import { isAbout } from "./naming";
import { pathOf, pointsOf } from "./paths";
import styles from "./plan.module.css";

interface DrawingProps {
  readonly layout: PlanLayout;
  readonly id: string;
  readonly title: string;
  readonly surface: string | undefined;
  /** More marks, above everything else. */
  readonly children?: ReactNode;
}

/** The drawing itself, from the ground up: road, pad, lot, what stands there, the rig, its lines, crowns above it, names. */
export function Drawing({ layout, id, title, surface, children }: DrawingProps) {
  const { width, height, ground } = layout;
  return (
    <svg className={styles.drawing} viewBox={`0 0 ${round(width)} ${round(height)}`} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-words`}>
      <title id={`${id}-title`}>{title}</title>
      <Patterns id={id} />
      <clipPath id={`${id}-ground`}><rect x={ground.x} y={ground.y} width={ground.w} height={round(ground.h)} /></clipPath>
      <g clipPath={`url(#${id}-ground)`}>
        <Ground layout={layout} id={id} surface={surface} />
        {layout.obstacles.map((o) => <g key={o.id} className={inkOf(o.id, layout)}><ObstacleMark shape={o} id={id} /></g>)}
        {layout.vehicle && <g><polygon className={styles.vehicle} points={pointsOf(layout.vehicle.points)} />{layout.vehicle.text && <Turned text={layout.vehicle.text} />}</g>}
        {layout.rig && (layout.refused ? <TriedRig rig={layout.rig} layout={layout} /> : <RigMarks rig={layout.rig} id={id} />)}
        {layout.lines.map((line) => <ServiceLine key={line.service} line={line} />)}
        {layout.rig?.texts.map((text) => <Turned key={text.text} text={text} />)}
        {layout.obstacles.map((o) => o.type === "tree" && o.crown.r > 0 && <path key={o.id} className={`${styles.crown} ${inkOf(o.id, layout) ?? ""}`} d={scallop(o.crown)} />)}
      </g>
      {layout.hookups.map((h) => <g key={h.id} className={inkOf(h.id, layout)}><HookupMark hookup={h} /></g>)}
      {layout.gap && <Gap gap={layout.gap} />}
      {layout.labels.map((label) => <LabelMark key={label.id} label={label} />)}
      <ScaleBar bar={layout.scaleBar} />
      {layout.north && <NorthArrow north={layout.north} />}
      {layout.refused?.stamp && <Stamp text={layout.refused.stamp} layout={layout} />}
      {children}
    </svg>
  );
}

function Patterns({ id }: { readonly id: string }) {
  return (
    <defs>
      <pattern id={`${id}-road`} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line className={styles.hatch} x1="0" y1="0" x2="0" y2="7" /></pattern>
      <pattern id={`${id}-gravel`} width="11" height="11" patternUnits="userSpaceOnUse"><circle className={styles.grain} cx="2" cy="3" r=".7" /><circle className={styles.grain} cx="8" cy="8" r=".7" /><circle className={styles.grain} cx="6" cy="1" r=".5" /></pattern>
      <pattern id={`${id}-solid`} width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><line className={styles.dense} x1="0" y1="0" x2="0" y2="4" /></pattern>
      <pattern id={`${id}-cloth`} width="6" height="6" patternUnits="userSpaceOnUse"><line className={styles.hatch} x1="0" y1="3" x2="6" y2="3" /></pattern>
    </defs>
  );
}

/** Loose surfaces are stippled; sealed ones are left as paper. */
function Ground({ layout, id, surface }: { readonly layout: PlanLayout; readonly id: string; readonly surface: string | undefined }) {
  const loose = /gravel|grit|sand|dirt|grass|chip|shale|stone/i.test(surface ?? "");
  const edge = (name: string) => (layout.refused !== null && isAbout(name, layout) ? styles.about : "");
  return (
    <g>
      {layout.lot && <polygon className={`${styles.lot} ${edge("lot")}`} points={pointsOf(layout.lot)} />}
      <polygon className={styles.pad} points={pointsOf(layout.pad)} />
      {loose && <polygon fill={`url(#${id}-gravel)`} points={pointsOf(layout.pad)} />}
      <polygon className={`${styles.padEdge} ${edge("pad")}`} points={pointsOf(layout.pad)} />
      {layout.stalls.map((stall) => <polygon key={stall.id} className={styles.stall} points={pointsOf(stall.points)} />)}
      {layout.roads.map((road) => (
        <g key={road.text}>
          <polygon className={styles.road} points={pointsOf(road.area)} />
          <polygon fill={`url(#${id}-road)`} points={pointsOf(road.area)} />
          <line className={`${styles.roadEdge} ${edge("road")}`} {...ends(road.edge)} />
          {road.at && <text className={styles.roadText} x={round(road.at[0])} y={round(road.at[1] + 4)} textAnchor="middle">{road.text}</text>}
        </g>
      ))}
    </g>
  );
}

function RigMarks({ rig, id }: { readonly rig: RigShape; readonly id: string }) {
  return (
    <g>
      {/* Awnings last: they hang above slides, steps and tables, which show through the stripes. */}
      {[...rig.parts].sort((a, b) => Number(a.kind === "awning") - Number(b.kind === "awning")).map((part) => <PartMark key={part.id} part={part} cloth={`url(#${id}-cloth)`} />)}
      {rig.hitch && <polygon className={styles.hitch} points={pointsOf(rig.hitch)} />}
      <polygon className={styles.body} points={pointsOf(rig.body)} />
      {rig.supports.map(({ kind, points }) => <polygon key={pointsOf(points)} className={kind === "tyre" ? styles.tyre : styles.jack} points={pointsOf(points)} />)}
      <polyline className={styles.front} points={pointsOf(rig.front)} />
      {rig.inlets.map(({ kind, at }) => <circle key={`${kind}-${pointsOf([at])}`} className={styles.inlet} cx={round(at[0])} cy={round(at[1])} r="2.6" />)}
    </g>
  );
}

/** A refusal's own ink: what it is about is heavier, all else faint. */
function inkOf(id: string, layout: PlanLayout): string | undefined {
  if (layout.refused === null) return undefined;
  return isAbout(id, layout) ? styles.about : styles.faint;
}

/** Where the rig would stand at the nearest try: dashed and open, so that what it would stand on shows through. */
function TriedRig({ rig, layout }: { readonly rig: RigShape; readonly layout: PlanLayout }) {
  const all = isAbout("rig", layout);
  const ink = (part: string) => (all || isAbout(part, layout) ? styles.about : styles.faint);
  return (
    <g className={styles.tried}>
      {rig.parts.map((part) => <polygon key={part.id} className={`${styles.part} ${ink(part.id)}`} points={pointsOf(part.points)} />)}
      {rig.hitch && <polygon className={`${styles.hitch} ${ink("hitch")}`} points={pointsOf(rig.hitch)} />}
      <polygon className={`${styles.body} ${all || isAbout("body", layout) ? styles.about : ""}`} points={pointsOf(rig.body)} />
      {rig.supports.map(({ kind, points }) => <polygon key={pointsOf(points)} className={`${kind === "tyre" ? styles.tyre : styles.jack} ${ink("supports")}`} points={pointsOf(points)} />)}
      <polyline className={`${styles.front} ${styles.faint}`} points={pointsOf(rig.front)} />
    </g>
  );
}

/** In the strip below the ground, between the scale bar and the arrow. */
function Stamp({ text, layout: { width, height } }: { readonly text: string; readonly layout: PlanLayout }) {
  return <text className={styles.stamp} x={width / 2 + 48} y={height - 14} textAnchor="middle" {...fitted(text, STAMP_SIZE)} fontSize={STAMP_SIZE}>{text}</text>;
}

const STAMP_SIZE = 12;

function ServiceLine({ line: { service, points } }: { readonly line: PlanLayout["lines"][number] }) {
  const d = pathOf(points);
  if (service !== "sewer") return <path className={service === "power" ? styles.cord : styles.hose} d={d} />;
  return <g><path className={styles.drainOuter} d={d} /><path className={styles.drainInner} d={d} /></g>;
}

function Turned({ text: { text, at, turn, size, strong } }: { readonly text: TurnedText }) {
  const [x, y] = [round(at[0]), round(at[1])];
  return (
    <text className={strong ? styles.strong : styles.quiet} x={x} y={y} fontSize={size} textAnchor="middle" dominantBaseline="central" transform={turn === 0 ? undefined : `rotate(${turn} ${x} ${y})`} {...fitted(text, size)}>
      {text}
    </text>
  );
}

/** The widths that the layout reckoned with hold in whatever font the reader's machine has. */
function fitted(text: string, size: number) {
  return { textLength: round(text.length * size * LETTER_WIDTH), lengthAdjust: "spacingAndGlyphs" as const };
}

export function LabelMark({ label: { lines, box, leader, accent, faint, number } }: { readonly label: Label }) {
  const middle = box.x + box.w / 2;
  return (
    <g className={accent ? styles.accentLabel : faint ? `${styles.label} ${styles.faintLabel}` : styles.label}>
      {leader && <line className={styles.leader} {...ends(leader)} />}
      {number !== null
        ? <g><circle className={styles.number} cx={round(middle)} cy={round(box.y + box.h / 2)} r="7.5" /><text x={round(middle)} y={round(box.y + box.h / 2)} fontSize="10.5" textAnchor="middle" dominantBaseline="central">{number}</text></g>
        : lines.map((line, i) => <text key={`${i}-${line}`} x={round(middle)} y={round(box.y + 1 + LINE_HEIGHT * (i + 0.5))} fontSize={LABEL_SIZE} textAnchor="middle" dominantBaseline="central" {...fitted(line, LABEL_SIZE)}>{line}</text>)}
    </g>
  );
}

function ends([[x1, y1], [x2, y2]]: readonly [PagePoint, PagePoint]) {
  return { x1: round(x1), y1: round(y1), x2: round(x2), y2: round(y2) };
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
