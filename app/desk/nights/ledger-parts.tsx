import { memo } from "react";
import { weekday } from "@/lib/stays/dates";
import { nights as words } from "@/lib/wording/en/nights";
import { dateAt, type Bar, type BoardData, type Row } from "./board-data";
import styles from "./nights.module.css";

export const rowHeight = 34;
export const headHeight = 46;
export const labelWidth = 132;
/** Wide enough for "free · with gear" beside the label while something is in hand. */
export const labelWidthInHand = 236;

const dayLetters = "SMTWTFS";
const monthNames = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

interface Span {
  readonly index: number;
  readonly start: number;
  readonly size: number;
}

/** The dates over the columns that are in sight; a month's name where it begins and at the left edge. */
export const Dates = memo(function Dates({ data, columns, width }: { readonly data: BoardData; readonly columns: readonly Span[]; readonly width: number }) {
  return (
    <svg className={styles.dates} width={width} height={headHeight} aria-hidden="true">
      {columns.map(({ index, start, size }, i) => {
        const date = dateAt(data, index);
        const day = Number(date.slice(8));
        const name = monthNames[Number(date.slice(5, 7)) - 1];
        return (
          <g key={index}>
            {index === data.today && <rect className={styles.todayHead} x={start} y={18} width={size} height={headHeight - 18} />}
            {(day === 1 || i === 0) && <text className={styles.month} x={start + 4} y={13}>{`${name} ${date.slice(0, 4)}`}</text>}
            <text className={styles.letter} x={start + size / 2} y={29} textAnchor="middle">{dayLetters[weekday(date)]}</text>
            <text className={index === data.today ? styles.dayToday : styles.day} x={start + size / 2} y={43} textAnchor="middle">{day}</text>
          </g>
        );
      })}
    </svg>
  );
});

/** The names of the rows that are in sight, with what `said` says of each while something is in hand. */
export function Labels({ rows, spans, height, width, said }: { readonly rows: readonly Row[]; readonly spans: readonly Span[]; readonly height: number; readonly width: number; readonly said: ((row: number) => string | null) | null }) {
  return (
    <svg className={styles.labels} width={width} height={height} aria-hidden="true">
      {spans.map(({ index, start }) => {
        const row = rows[index];
        if (!row) return null;
        const word = said?.(index) ?? null;
        return (
          <g key={index}>
            <line className={styles.rule} x1={0} x2={width} y1={start + rowHeight} y2={start + rowHeight} />
            {row.kind === "loop" ? <text className={styles.loop} x={8} y={start + 23}>{words.loopLabel(row.id)}</text>
              : row.kind === "lane" ? <text className={styles.lane} x={8} y={start + 22}>{words.noSite}</text>
                : <><text className={styles.site} x={8} y={start + 23}>{row.label}</text><text className={word ? styles.said : styles.hookups} x={64} y={start + 22}>{word ?? row.hookups}</text></>}
          </g>
        );
      })}
    </svg>
  );
}

/** Rules, weekends and today behind the bars. */
export const Ground = memo(function Ground({ data, rows, columns, width, height }: { readonly data: BoardData; readonly rows: readonly Span[]; readonly columns: readonly Span[]; readonly width: number; readonly height: number }) {
  const [top, bottom] = [rows[0]?.start ?? 0, Math.min(height, (rows.at(-1)?.start ?? 0) + rowHeight)];
  return (
    <g>
      {columns.map(({ index, start, size }) => {
        const day = weekday(dateAt(data, index));
        return (
          <g key={index}>
            {(day === 5 || day === 6) && <rect className={styles.weekend} x={start} y={top} width={size} height={bottom - top} />}
            {index === data.today && <rect className={styles.today} x={start} y={top} width={size} height={bottom - top} />}
            <line className={styles.rule} x1={start} x2={start} y1={top} y2={bottom} />
          </g>
        );
      })}
      {rows.map(({ index, start }) => (
        <g key={index}>
          {data.rows[index]?.kind === "loop" && <rect className={styles.loopGround} x={0} y={start} width={width} height={rowHeight} />}
          {loopName(data.rows[index]) && <text className={styles.loop} x={(columns[0]?.start ?? 0) + 8} y={start + 22}>{loopName(data.rows[index])}</text>}
          <line className={styles.rule} x1={0} x2={width} y1={start + rowHeight} y2={start + rowHeight} />
        </g>
      ))}
    </g>
  );
});

function loopName(row: Row | undefined): string | null {
  return row?.kind === "loop" ? row.name : null;
}

/** The middle of the arrival day to the middle of the departure day, so that leaving and arriving on one day both show. */
export function placeOf(from: number, to: number, columnWidth: number): { readonly x: number; readonly width: number } {
  const x = (from + 0.5) * columnWidth;
  return { x, width: Math.max(columnWidth * 0.4, (to - from) * columnWidth - 3) };
}

const inset = 4;

/** One stay or closure: its shape says the state, its words the guest. */
export function BarShape({ bar, from, row, columnWidth, inHand, left }: { readonly bar: Bar; readonly from: number; readonly row: number; readonly columnWidth: number; readonly inHand: boolean; /** The left edge of what is in sight: text of a bar that began before it is written there. */ readonly left: number }) {
  const { x, width } = placeOf(from, from + bar.to - bar.from, columnWidth);
  const y = row * rowHeight + inset;
  const textX = Math.max(x + 6, left + 6);
  const room = Math.floor((x + width - textX - 4) / 8);
  const mark = `${bar.overridden ? "! " : ""}${bar.together ? "& " : ""}`;
  const text = `${mark}${bar.text}`;
  return (
    <>
      <rect className={`${styles.bar} ${styles[bar.state]} ${inHand ? styles.inHand : ""}`} x={x} y={y} width={width} height={rowHeight - 2 * inset} />
      {bar.state === "closed" && <rect className={styles.hatch} fill="url(#closed)" x={x} y={y} width={width} height={rowHeight - 2 * inset} />}
      {room > 1 && <text className={`${styles.barText} ${bar.state === "arrived" ? styles.onInk : ""}`} x={textX} y={y + 18}>{text.length > room ? `${text.slice(0, Math.max(1, room - 1))}…` : text}</text>}
    </>
  );
}

/** "Jun 18". */
export function shortDate(date: string): string {
  return `${monthNames[Number(date.slice(5, 7)) - 1]} ${Number(date.slice(8))}`;
}

export function describeBar(bar: Bar, data: BoardData): string {
  const row = data.rows[bar.row];
  const where = row?.kind === "site" ? row.label : words.noSite;
  return [bar.text, where, `${shortDate(dateAt(data, bar.from))} to ${shortDate(dateAt(data, bar.to))}`, words.states[bar.state], bar.rig, bar.reference].filter(Boolean).join(", ");
}
