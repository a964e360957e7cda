import type { Disc, HookupShape, ObstacleShape, PagePoint, PartShape, PlanLayout } from "./types";
import { SYMBOL } from "./labels";
import { boxAround, fixed, pointsOf } from "./paths";
import styles from "./plan.module.css";

export function ObstacleMark({ shape, id }: { readonly shape: ObstacleShape; readonly id: string }) {
  if (shape.type === "tree") return <g><circle className={styles.trunk} cx={fixed(shape.trunk.at[0])} cy={fixed(shape.trunk.at[1])} r={fixed(Math.max(shape.trunk.r, 1.5))} /></g>;
  const fill = `url(#${id}-solid)`;
  if (shape.type === "outline") return <g><polygon className={styles.thing} points={pointsOf(shape.points)} /><polygon fill={fill} points={pointsOf(shape.points)} /></g>;
  const { at: [cx, cy], r } = shape.disc;
  return (
    <g>
      <circle className={styles.thing} cx={fixed(cx)} cy={fixed(cy)} r={fixed(r)} />
      {shape.kind === "fire-ring" ? <circle className={styles.ring} cx={fixed(cx)} cy={fixed(cy)} r={fixed(r * 0.6)} /> : <circle fill={fill} cx={fixed(cx)} cy={fixed(cy)} r={fixed(r)} />}
    </g>
  );
}

/** The outer edge of a tree's limbs as a surveyor draws it: scallops along the circle. */
export function scallop({ at: [cx, cy], r }: Disc): string {
  const count = Math.max(8, Math.round((2 * Math.PI * r) / 14));
  const half = Math.PI / count, bow = r * Math.sin(half) * 1.15;
  // The scallops' crests lie on the measured radius, their ends a little inside it.
  const ends = r - (bow - Math.sqrt(bow * bow - (r * Math.sin(half)) ** 2)) + r * (1 - Math.cos(half));
  const at = (i: number) => `${fixed(cx + ends * Math.cos(2 * half * i))} ${fixed(cy + ends * Math.sin(2 * half * i))}`;
  return `M${at(0)}${Array.from({ length: count }, (_, i) => `A${fixed(bow)} ${fixed(bow)} 0 0 1 ${at(i + 1)}`).join("")}`;
}

/** One symbol a kind, told apart by shape: square, drop, ring, crossed drop. */
export function HookupMark({ hookup: { kind, at, symbol: [x, y], post } }: { readonly hookup: HookupShape }) {
  const s = SYMBOL - 1;
  const drop = `M${fixed(x)} ${fixed(y - s - 1)}C${fixed(x + s)} ${fixed(y - 1)} ${fixed(x + s)} ${fixed(y + s)} ${fixed(x)} ${fixed(y + s)}C${fixed(x - s)} ${fixed(y + s)} ${fixed(x - s)} ${fixed(y - 1)} ${fixed(x)} ${fixed(y - s - 1)}Z`;
  return (
    <g>
      <line className={styles.fold} x1={fixed(at[0])} y1={fixed(at[1])} x2={fixed(x)} y2={fixed(y)} />
      <circle className={styles.post} cx={fixed(at[0])} cy={fixed(at[1])} r={fixed(Math.max(post, 1.5))} />
      {kind === "power" && <rect className={styles.symbolFull} x={fixed(x - s + 1)} y={fixed(y - s + 1)} width={2 * s - 2} height={2 * s - 2} />}
      {kind === "power" && <path className={styles.symbolBolt} d={`M${fixed(x + 1)} ${fixed(y - 3)}l-3 3.4h3.6l-2 3`} />}
      {kind === "water" && <path className={styles.symbolFull} d={drop} />}
      {kind === "rinse-water" && <g><path className={styles.symbolOpen} d={drop} /><line className={styles.symbolLine} x1={fixed(x - s)} y1={fixed(y + s)} x2={fixed(x + s)} y2={fixed(y - s)} /></g>}
      {kind === "sewer" && <g><circle className={styles.symbolOpen} cx={fixed(x)} cy={fixed(y)} r={s - 0.5} /><circle className={styles.symbolDot} cx={fixed(x)} cy={fixed(y)} r="1.8" /></g>}
    </g>
  );
}

/** What opens out, lightly; what stays in, dashed. Awnings are striped like cloth, doors carry a swing, beds and ramps a fold. */
export function PartMark({ part: { kind, points, leftIn }, cloth }: { readonly part: PartShape; readonly cloth: string }) {
  const outline = pointsOf(points);
  if (leftIn) return <polygon className={styles.leftIn} points={outline} />;
  return (
    <g>
      {kind === "awning" ? <polygon className={styles.awning} fill={cloth} points={outline} /> : <polygon className={styles.part} points={outline} />}
      {kind === "entry" && <Steps points={points} />}
      {(kind === "bed" || kind === "ramp") && <line className={styles.fold} x1={fixed(points[0]![0])} y1={fixed(points[0]![1])} x2={fixed(points[2]![0])} y2={fixed(points[2]![1])} />}
    </g>
  );
}

/** Two treads before the door. */
function Steps({ points }: { readonly points: readonly PagePoint[] }) {
  const { x, y, w, h } = boxAround(points);
  return <g>{[1 / 3, 2 / 3].map((t) => <line key={t} className={styles.fold} x1={fixed(x + w * t)} y1={fixed(y)} x2={fixed(x + w * t)} y2={fixed(y + h)} />)}</g>;
}

/** The dimension line of the tightest gap. A gap too small to draw in is pointed at from both sides. */
export function Gap({ gap: { from, to } }: { readonly gap: { readonly from: PagePoint; readonly to: PagePoint } }) {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = length > 0.01 ? [(to[0] - from[0]) / length, (to[1] - from[1]) / length] : [1, 0];
  const tick = ([x, y]: PagePoint) => `M${fixed(x - uy * 5)} ${fixed(y + ux * 5)}L${fixed(x + uy * 5)} ${fixed(y - ux * 5)}`;
  const arrow = ([x, y]: PagePoint, d: number) =>
    `M${fixed(x - d * ux * 14)} ${fixed(y - d * uy * 14)}L${fixed(x)} ${fixed(y)}M${fixed(x - d * (ux * 5 - uy * 3))} ${fixed(y - d * (uy * 5 + ux * 3))}L${fixed(x)} ${fixed(y)}L${fixed(x - d * (ux * 5 + uy * 3))} ${fixed(y - d * (uy * 5 - ux * 3))}`;
  const small = length < 16;
  return (
    <g>
      <path className={styles.gapHalo} d={`M${fixed(from[0])} ${fixed(from[1])}L${fixed(to[0])} ${fixed(to[1])}${tick(from)}${tick(to)}`} />
      <path className={styles.gap} d={`M${fixed(from[0])} ${fixed(from[1])}L${fixed(to[0])} ${fixed(to[1])}${tick(from)}${tick(to)}${small ? arrow(from, 1) + arrow(to, -1) : ""}`} />
    </g>
  );
}

export function ScaleBar({ bar: { at: [x, y], length, steps, text } }: { readonly bar: PlanLayout["scaleBar"] }) {
  const step = length / steps;
  return (
    <g className={styles.scaleBar}>
      {Array.from({ length: steps }, (_, i) => <rect key={i} className={i % 2 === 0 ? styles.barFull : styles.barOpen} x={fixed(x + i * step)} y={fixed(y)} width={fixed(step)} height="5" />)}
      <text x={fixed(x)} y={fixed(y - 5)} fontSize="11" textAnchor="middle">0</text>
      <text x={fixed(x + length)} y={fixed(y - 5)} fontSize="11" textAnchor="middle">{text}</text>
    </g>
  );
}

export function NorthArrow({ north: { at: [x, y], turn } }: { readonly north: NonNullable<PlanLayout["north"]> }) {
  const angle = (turn * Math.PI) / 180;
  return (
    <g className={styles.north}>
      <g transform={`translate(${fixed(x)} ${fixed(y)}) rotate(${fixed(turn)})`}>
        <path className={styles.northHalf} d="M0 -11L4.5 9L0 5.5Z" />
        <path className={styles.northOpen} d="M0 -11L-4.5 9L0 5.5Z" />
      </g>
      <text x={fixed(x + 18 * Math.sin(angle))} y={fixed(y - 18 * Math.cos(angle))} fontSize="11" textAnchor="middle" dominantBaseline="central">N</text>
    </g>
  );
}
