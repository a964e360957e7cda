import type { Units } from "@/lib/measure";
import type { Point } from "@/lib/plane";
import { fieldSheet } from "@/lib/wording/en/field-sheet";
import { numbersFor } from "@/lib/wording";
import { grid, onPaper, squareFor } from "./grid-scale";
import type { LetteredCorner } from "@/lib/survey";
import styles from "./sheet.module.css";

const words = fieldSheet.grid;
/** A pad as most are, to hang a sketch on where none is on record: mm. */
const usualPad: readonly LetteredCorner[] = [{ letter: "A", at: [0, 1830] }, { letter: "B", at: [0, -1830] }, { letter: "C", at: [14_630, -1830] }, { letter: "D", at: [14_630, 1830] }];

interface SketchProps {
  readonly corners: readonly LetteredCorner[] | null;
  /** What has to find room on it, null where nothing is on record. */
  readonly extent: readonly Point[] | null;
  /** Millimetres as printed. */
  readonly height: number;
  readonly units: Units;
}

/** Squares to sketch on, with the pad's corners and the road to begin from. Every fifth line is a stronger one. */
export function SketchGrid({ corners, extent, height, units }: SketchProps) {
  const drawn = corners ?? usualPad, outline = drawn.map(({ at }) => at);
  const square = squareFor(extent, height, units), place = (at: Point) => onPaper(at, square, height);
  return (
    <figure className={styles.grid}>
      <figcaption>{words.scale(numbersFor(units).measured(square))}</figcaption>
      <svg viewBox={`0 0 ${grid.width} ${height}`} role="img" aria-label={words.about}>
        <Lines height={height} />
        <path className={styles.guide} d={`M${outline.map((at) => place(at).join(" ")).join("L")}Z`} />
        {drawn.map((corner) => <Corner key={corner.letter} letter={corner.letter} at={place(corner.at)} middle={place(middleOf(outline))} />)}
        <text className={styles.gridWord} transform={`translate(6.5 ${height / 2}) rotate(-90)`} textAnchor="middle">{words.road}</text>
        <g transform={`translate(${grid.width - 11} 12)`}>
          <circle className={styles.compass} r="7.5" />
          <text className={styles.gridLetter} textAnchor="middle" y="1.4">{words.north}</text>
        </g>
      </svg>
    </figure>
  );
}

function Lines({ height }: { readonly height: number }) {
  const across = Array.from({ length: Math.floor(grid.width / grid.square) + 1 }, (_, i) => i), down = Array.from({ length: Math.floor(height / grid.square) + 1 }, (_, i) => i);
  // So that a strong line runs along the middle of the site, and one along the front of the pad.
  const strongX = grid.road / grid.square, middle = height / 2;
  return (
    <>
      {across.map((i) => <path key={`x${i}`} className={(i - strongX) % 5 === 0 ? styles.strong : styles.fine} d={`M${i * grid.square} 0V${height}`} />)}
      {down.map((i) => {
        const y = (middle % grid.square) + i * grid.square, fromMiddle = Math.round((y - middle) / grid.square);
        return y <= height && <path key={`y${i}`} className={fromMiddle % 5 === 0 ? styles.strong : styles.fine} d={`M0 ${y}H${grid.width}`} />;
      })}
    </>
  );
}

/** A letter outside of its corner, away from the middle of the pad. */
function Corner({ letter, at: [x, y], middle }: { readonly letter: string; readonly at: readonly [number, number]; readonly middle: readonly [number, number] }) {
  const dx = Math.sign(x - middle[0]) * 3.2, dy = Math.sign(y - middle[1]) * 3.2;
  return (
    <g>
      <circle className={styles.dot} cx={x} cy={y} r=".9" />
      <text className={styles.gridLetter} x={x + dx} y={y + dy + 1.4} textAnchor="middle">{letter}</text>
    </g>
  );
}

function middleOf(outline: readonly Point[]): Point {
  return [outline.reduce((sum, [x]) => sum + x, 0) / outline.length, outline.reduce((sum, [, y]) => sum + y, 0) / outline.length];
}
