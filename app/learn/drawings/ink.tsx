import type { ReactNode } from "react";
import styles from "./drawings.module.css";

/** Width of every small drawing in units of its viewBox: about a pixel each on a phone. */
export const WIDE = 340;

interface SheetProps {
  readonly words: { readonly title: string; readonly desc: string };
  readonly height: number;
  readonly children: ReactNode;
}

/** One drawing, told in words to those who cannot see it. */
export function Sheet({ words, height, children }: SheetProps) {
  return (
    <svg className={styles.sheet} viewBox={`0 0 ${WIDE} ${height}`} role="img" aria-label={`${words.title}. ${words.desc}`}>
      {children}
    </svg>
  );
}

type Anchor = "start" | "middle" | "end";

export function Say({ x, y, anchor = "middle", tone, children }: { readonly x: number; readonly y: number; readonly anchor?: Anchor; readonly tone?: "accentText" | "onInk" | "axisText"; readonly children: ReactNode }) {
  return <text className={tone && styles[tone]} x={x} y={y} textAnchor={anchor} dominantBaseline="central">{children}</text>;
}

/** Ground seen from the side: a line with earth below it, level or sloping. */
export function Ground({ x0 = 8, x1 = WIDE - 8, y, y1 = y }: { readonly x0?: number; readonly x1?: number; readonly y: number; readonly y1?: number }) {
  const at = (x: number) => y + ((y1 - y) * (x - x0)) / (x1 - x0);
  const strokes = Array.from({ length: Math.floor((x1 - x0 - 6) / 10) }, (_, i) => x0 + 8 + 10 * i);
  return (
    <g>
      <path className={styles.hatch} d={strokes.map((x) => `M${round(x)} ${round(at(x))}l-6 7`).join("")} />
      <line className={styles.line} x1={x0} y1={y} x2={x1} y2={y1} />
    </g>
  );
}

interface DimProps {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly text?: ReactNode;
  /** Where the text stands, from the middle of the line. */
  readonly dx?: number;
  readonly dy?: number;
  readonly anchor?: Anchor;
}

/** A dimension line with a tick at each end. */
export function Dim({ from: [x0, y0], to: [x1, y1], text, dx = 0, dy = -10, anchor = "middle" }: DimProps) {
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  const [px, py] = [(-(y1 - y0) / length) * 5, ((x1 - x0) / length) * 5];
  return (
    <g>
      <path className={styles.measure} d={`M${x0} ${y0}L${x1} ${y1}M${round(x0 - px)} ${round(y0 - py)}l${round(2 * px)} ${round(2 * py)}M${round(x1 - px)} ${round(y1 - py)}l${round(2 * px)} ${round(2 * py)}`} />
      {text !== undefined && <Say x={round((x0 + x1) / 2 + dx)} y={round((y0 + y1) / 2 + dy)} anchor={anchor} tone="accentText">{text}</Say>}
    </g>
  );
}

/** From the thing that is measured out to its dimension line. */
export function Witness({ d }: { readonly d: string }) {
  return <path className={styles.witness} d={d} />;
}

/** A trailer from its right side, rear at the left. `x` is its rear wall, `y` the ground; 26 units a meter or so. */
export function TrailerSide({ x, y, length = 180, height = 62, floor = 16, mirrored = false }: { readonly x: number; readonly y: number; readonly length?: number; readonly height?: number; readonly floor?: number; readonly mirrored?: boolean }) {
  const top = y - floor - height, right = x + length, axle = x + length * 0.44;
  return (
    <g transform={mirrored ? `translate(${round(2 * x)} 0) scale(-1 1)` : undefined}>
      <path className={styles.body} d={`M${x} ${top}H${right - 12}Q${right} ${top} ${right} ${top + 14}V${y - floor}H${x}Z`} />
      <rect className={styles.part} x={x + length * 0.4} y={top - 8} width="28" height="8" />
      {!mirrored && <rect className={styles.part} x={x + length * 0.72} y={top + 12} width="20" height={height - 12} />}
      <rect className={styles.part} x={x + length * 0.14} y={top + 14} width="34" height="18" />
      {[0, 22].map((d) => <g key={d}><circle className={styles.ink} cx={axle + d} cy={y - 10} r="10" /><circle className={styles.open} cx={axle + d} cy={y - 10} r="3.5" /></g>)}
      <path className={styles.thick} d={`M${right} ${y - floor}H${right + 26}`} />
      <circle className={styles.ink} cx={right + 28} cy={y - floor} r="3.5" />
      <path className={styles.thick} d={`M${right + 19} ${y - floor - 8}V${y}M${right + 14} ${y}h10`} />
    </g>
  );
}

/** The same from behind, its wheels on `y`; `x` is its middle. */
export function TrailerRear({ x, y, width = 84, height = 96, floor = 18 }: { readonly x: number; readonly y: number; readonly width?: number; readonly height?: number; readonly floor?: number }) {
  const top = y - floor - height;
  return (
    <g>
      {[-1, 1].map((side) => <rect key={side} className={styles.ink} x={x + side * (width / 2 - 11) - 6} y={y - 26} width="12" height="26" />)}
      <rect className={styles.body} x={x - width / 2} y={top} width={width} height={height} />
      <rect className={styles.part} x={x - 14} y={top - 10} width="28" height="10" />
      <rect className={styles.part} x={x - 22} y={top + 14} width="44" height="24" />
    </g>
  );
}

/** From above, rear at the left. `y` is its centerline. */
export function TrailerTop({ x, y, length = 180, width = 62 }: { readonly x: number; readonly y: number; readonly length?: number; readonly width?: number }) {
  const right = x + length;
  return (
    <g>
      <path className={styles.line} d={`M${right} ${y - 12}L${right + 28} ${y}L${right} ${y + 12}`} />
      <rect className={styles.body} x={x} y={y - width / 2} width={length} height={width} />
      <path className={styles.line} d={`M${right - 14} ${y - 9}L${right - 5} ${y}L${right - 14} ${y + 9}`} />
    </g>
  );
}

/** The same standing upright on the page, its front at the bottom: backed in, the road below. `x` is its centerline. */
export function TrailerDown({ x, y, length = 130, width = 46, ghost = false }: { readonly x: number; readonly y: number; readonly length?: number; readonly width?: number; readonly ghost?: boolean }) {
  const end = y + length;
  if (ghost) return <path className={styles.dashed} d={`M${x - width / 2} ${y}h${width}v${length}h${-width}Z`} />;
  return (
    <g>
      <rect className={styles.part} x={x - 5} y={end} width="10" height="20" />
      <rect className={styles.body} x={x - width / 2} y={y} width={width} height={length} />
      <path className={styles.line} d={`M${x - 9} ${end - 14}L${x} ${end - 5}L${x + 9} ${end - 14}`} />
    </g>
  );
}

export function Tree({ x, y, r }: { readonly x: number; readonly y: number; readonly r: number }) {
  const count = 12, half = Math.PI / count, bow = round(r * Math.sin(half) * 1.15);
  const at = (i: number) => `${round(x + r * Math.cos(2 * half * i))} ${round(y + r * Math.sin(2 * half * i))}`;
  return (
    <g>
      <path className={styles.thin} d={`M${at(0)}${Array.from({ length: count }, (_, i) => `A${bow} ${bow} 0 0 1 ${at(i + 1)}`).join("")}`} />
      <circle className={styles.ink} cx={x} cy={y} r="4" />
    </g>
  );
}

export function round(value: number): number {
  return Math.round(value * 100) / 100;
}
