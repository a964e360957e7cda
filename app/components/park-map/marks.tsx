import type { Verdict } from "@/lib/fit/types";
import { lineHeight, textWidth } from "./labels";
import type { MapLabel, MapLayout, Ribbon, SheetPoint, SiteOnMap } from "./types";
import styles from "./park-map.module.css";

/** The verdict's shape, the same one that stands in the list: told apart without colour. */
export function SiteMark({ site: { mark: [x, y], standing, selected }, size }: { readonly site: SiteOnMap; readonly size: number }) {
  return (
    <g transform={`translate(${fixed(x)} ${fixed(y)})`}>
      {selected && <circle className={styles.chosen} r={fixed(size + 4)} />}
      {standing.shown && standing.taken ? <TakenShape size={size} /> : <Shape verdict={standing.shown ? standing.verdict : null} faint={!standing.shown} size={size} />}
    </g>
  );
}

function Shape({ verdict, faint, size }: { readonly verdict: Verdict | null; readonly faint: boolean; readonly size: number }) {
  const s = fixed(size * 0.86), c = fixed(size * 0.62);
  switch (verdict) {
    case "fits": return <g><rect className={styles.full} x={-s} y={-s} width={2 * s} height={2 * s} /><path className={styles.cut} d={`M${-c} ${fixed(size * 0.06)}l${fixed(size * 0.42)} ${fixed(size * 0.42)} ${fixed(size * 0.76)} ${fixed(-size * 0.92)}`} /></g>;
    case "gear": return <g><circle className={styles.open} r={s} /><path className={styles.stroke} d={`M0 ${-c * 0.8}V${c * 0.8}M${-c * 0.8} 0H${c * 0.8}`} /></g>;
    case "no": return <g><path className={styles.halo} d={`M${-c} ${-c}L${c} ${c}M${c} ${-c}L${-c} ${c}`} /><path className={styles.stroke} d={`M${-c} ${-c}L${c} ${c}M${c} ${-c}L${-c} ${c}`} /></g>;
    case "ask": case "unsettled": return <g><path className={styles.dashed} d={`M0 ${-size}L${size} 0L0 ${size}L${-size} 0Z`} /><path className={styles.stroke} d={`M${-c * 0.7} 0H${c * 0.7}`} /></g>;
    case null: return <circle className={faint ? styles.dotFaint : styles.dot} r={fixed(size * 0.36)} />;
  }
}

/** A square struck through: none of the verdicts' shapes. */
function TakenShape({ size }: { readonly size: number }) {
  const s = fixed(size * 0.72);
  return <g><rect className={styles.open} x={-s} y={-s} width={2 * s} height={2 * s} /><path className={styles.stroke} d={`M${-s} ${s}L${s} ${-s}`} /></g>;
}

/** Dark edges under a light middle, as roads are drawn; every casing first, so that crossings open into each other. */
export function Roads({ roads }: { readonly roads: readonly Ribbon[] }) {
  return (
    <g>
      {roads.map((r, i) => <path key={i} className={styles.casing} d={pathOf(r.points)} strokeWidth={fixed(r.width + 1.8)} />)}
      {roads.map((r, i) => <path key={i} className={r.loose ? styles.looseRoad : styles.road} d={pathOf(r.points)} strokeWidth={fixed(r.width)} />)}
    </g>
  );
}

export function Creek({ creek }: { readonly creek: readonly Ribbon[] }) {
  return (
    <g>
      {creek.map((c, i) => <path key={i} className={styles.bank} d={pathOf(c.points)} strokeWidth={fixed(c.width + 1.6)} />)}
      {creek.map((c, i) => <g key={i}><path className={styles.water} d={pathOf(c.points)} strokeWidth={fixed(c.width)} />{c.width > 4 && <path className={styles.flow} d={pathOf(c.points)} />}</g>)}
    </g>
  );
}

export function NameMark({ label: { kind, lines, size, box, leader } }: { readonly label: MapLabel }) {
  const middle = fixed(box.x + box.w / 2);
  // A loop's letter stands large above its name, and no larger where both share a line.
  return (
    <g className={kind === "loop" && lines.length === 1 && lines[0]!.length > 2 ? styles.loopLine : styles[`${kind}Name`]}>
      {leader && <line className={styles.leader} x1={fixed(leader[0][0])} y1={fixed(leader[0][1])} x2={fixed(leader[1][0])} y2={fixed(leader[1][1])} />}
      {lines.map((line, i) => (
        <text key={`${i}-${line}`} x={middle} y={fixed(box.y + 1.5 + lineHeight(size) * (i + 0.5))} fontSize={size} textAnchor="middle" dominantBaseline="central" textLength={fixed(textWidth(line, size))} lengthAdjust="spacingAndGlyphs">{line}</text>
      ))}
    </g>
  );
}

export function Furniture({ layout: { scaleBar: { at: [x, y], length, text }, north, width, height }, north: letter }: { readonly layout: MapLayout; readonly north: string }) {
  const half = fixed(length / 2);
  const a = (north.turn * Math.PI) / 180;
  return (
    <g>
      <rect className={styles.neat} x="3" y="3" width={width - 6} height={fixed(height - 6)} />
      <rect className={styles.barFull} x={x} y={fixed(y - 5)} width={half} height="5" />
      <rect className={styles.barOpen} x={fixed(x + half)} y={fixed(y - 5)} width={half} height="5" />
      <text x={x} y={fixed(y - 10)} fontSize="11">0</text>
      <text x={fixed(x + length)} y={fixed(y - 10)} fontSize="11" textAnchor="middle">{text}</text>
      <g transform={`translate(${north.at[0]} ${fixed(north.at[1])}) rotate(${north.turn})`}>
        <path className={styles.barFull} d="M0 -13L5 10L0 6Z" />
        <path className={styles.barOpen} d="M0 -13L-5 10L0 6Z" />
      </g>
      <text x={fixed(north.at[0] - 16 * Math.cos(a))} y={fixed(north.at[1] - 16 * Math.sin(a))} fontSize="12" textAnchor="middle" dominantBaseline="central">{letter}</text>
    </g>
  );
}

export function pathOf(points: readonly SheetPoint[]): string {
  return `M${points.map(([x, y]) => `${fixed(x)} ${fixed(y)}`).join("L")}`;
}

export function fixed(value: number): number {
  return Math.round(value * 10) / 10;
}
