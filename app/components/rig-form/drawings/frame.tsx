import type { ReactNode } from "react";
import styles from "./drawings.module.css";

interface FrameProps {
  /** What is drawn, in centimetres: left, top, right, bottom. */
  readonly box: readonly [number, number, number, number];
  readonly label: string;
  readonly children: ReactNode;
}

/** A small drawing, told in words to those who cannot see it. */
export function Frame({ box: [x0, y0, x1, y1], label, children }: FrameProps) {
  const numbers = [x0, y0, x1 - x0, y1 - y0].map(Math.round);
  return <svg className={styles.sheet} viewBox={numbers.join(" ")} role="img" aria-label={label}>{children}</svg>;
}

/** The tape: a line between two points with a tick at each end, `tick` long to either side. */
export function Tape({ from: [x0, y0], to: [x1, y1], tick }: { readonly from: readonly [number, number]; readonly to: readonly [number, number]; readonly tick: number }) {
  const length = Math.hypot(x1 - x0, y1 - y0) || 1;
  const px = (-(y1 - y0) / length) * tick, py = ((x1 - x0) / length) * tick;
  const r = (value: number) => Math.round(value * 10) / 10;
  const end = (x: number, y: number) => `M${r(x - px)} ${r(y - py)}L${r(x + px)} ${r(y + py)}`;
  return <path className={styles.measure} d={`M${r(x0)} ${r(y0)}L${r(x1)} ${r(y1)}${end(x0, y0)}${end(x1, y1)}`} />;
}

export function Witness({ from: [x0, y0], to: [x1, y1] }: { readonly from: readonly [number, number]; readonly to: readonly [number, number] }) {
  return <line className={styles.witness} x1={Math.round(x0)} y1={Math.round(y0)} x2={Math.round(x1)} y2={Math.round(y1)} />;
}
