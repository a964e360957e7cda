"use client";

import { useVirtualizer } from "@tanstack/react-virtual";
import { useEffect, useMemo, useRef, useState, type KeyboardEvent, type PointerEvent } from "react";
import { LiveNotice } from "../../components/live/live-notice";
import { useFreshPage } from "../../components/live/live-page";
import { useLive } from "../../components/live/use-live";
import { nights as words } from "@/lib/wording/en/nights";
import { dateAt, inTheWay, type Bar, type BoardData } from "./board-data";
import { BarShape, Dates, describeBar, Ground, shortDate, headHeight, Labels, labelWidth, labelWidthInHand, placeOf, rowHeight } from "./ledger-parts";
import { Asking } from "./asking";
import { useHand } from "./use-hand";
import { usePutDown } from "./use-put-down";
import styles from "./nights.module.css";

/** Until the browser has measured the room there is: so much is drawn. */
const firstSight = { width: 1200, height: 640 };

/** The ledger: only the rows and nights in sight are drawn, as lines and shapes at their own coordinates. */
export function Ledger({ data, columnWidth }: { readonly data: BoardData; readonly columnWidth: number }) {
  const scroller = useRef<HTMLDivElement>(null);
  const body = useRef<SVGSVGElement>(null);
  const fresh = useFreshPage();
  const live = useLive(fresh);
  const now = useNow(data.at);
  const { hand, pickUp, moveTo, letGo } = useHand();
  const down = usePutDown({ data, fresh, letGo });
  const usable = live.state !== "lost" && live.state !== "signed-out";

  // The compiler leaves this component alone for it, and so it is drawn anew whenever what is in sight changes.
  // eslint-disable-next-line react-hooks/incompatible-library
  const rows = useVirtualizer({ count: data.rows.length, getScrollElement: () => scroller.current, estimateSize: () => rowHeight, overscan: 4, initialRect: firstSight, scrollPaddingStart: headHeight });
  const columns = useVirtualizer({ count: data.nights, horizontal: true, getScrollElement: () => scroller.current, estimateSize: () => columnWidth, overscan: 6, initialRect: firstSight });
  const [shownRows, shownColumns] = [rows.getVirtualItems(), columns.getVirtualItems()];
  const [width, height] = [data.nights * columnWidth, data.rows.length * rowHeight];
  const [left, right] = [shownColumns[0]?.index ?? 0, (shownColumns.at(-1)?.index ?? 0) + 1];

  const byRow = useMemo(() => groupByRow(data.bars), [data.bars]);
  const stands = (bar: Bar) => bar.until === null || bar.until > now;
  const shown = shownRows.flatMap(({ index }) => (byRow.get(index) ?? []).filter((bar) => bar.from < right && bar.to >= left && stands(bar)));

  const said = (row: number): string | null => {
    const site = data.rows[row];
    if (!hand || site?.kind !== "site") return null;
    const from = row === hand.bar.row ? hand.from : hand.bar.from;
    if (inTheWay(byRow.get(row) ?? [], row, from, from + hand.bar.to - hand.bar.from, hand.bar.id, now)) return words.taken;
    const verdict = hand.verdicts?.[site.id];
    return verdict ? `${words.free} · ${words.verdicts[verdict]}` : words.judging;
  };
  const rowName = (row: number) => { const entry = data.rows[row]; return entry?.kind === "site" ? entry.label : words.noSite; };

  const focusBar = (bar: Bar | undefined) => {
    if (!bar) return;
    rows.scrollToIndex(bar.row);
    columns.scrollToIndex(Math.max(0, Math.min(bar.from, data.nights - 1)));
    requestAnimationFrame(() => requestAnimationFrame(() => document.getElementById(`bar-${bar.id}`)?.focus()));
  };
  const take = (bar: Bar) => {
    if (bar.kind !== "stay") return;
    if (!usable) return down.say(words.notNow);
    pickUp(bar);
    down.say(words.pickedUp(bar.text));
    scroller.current?.focus({ preventScroll: true });
  };
  const hang = (row: number, from: number) => {
    moveTo(row, from);
    if (row !== hand?.bar.row || from !== hand.from) rows.scrollToIndex(row);
  };
  const back = () => {
    if (!hand) return;
    letGo();
    down.say(words.back(hand.bar.text));
    focusBar(hand.bar);
  };

  useEffect(() => {
    if (!hand) return;
    const [from, to] = [hand.from, hand.from + hand.bar.to - hand.bar.from].map((column) => shortDate(dateAt(data, column))) as [string, string];
    down.say(words.inHand(hand.bar.text, rowName(hand.row), from, to, said(hand.row) ?? ""));
    // Said when it is hung elsewhere or the fits come; what else changes is not news.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [hand?.row, hand?.from, hand?.verdicts]);

  const keys = (event: KeyboardEvent) => {
    if (hand) {
      const step = stepFor(event.key);
      if (event.key === "Escape") back();
      else if (event.key === "Enter" || event.key === " ") void down.putDown(hand);
      else if (step?.rows) hang(nextSite(data, hand.row, step.rows) ?? hand.row, hand.from);
      else if (step?.columns && hand.row === hand.bar.row && hand.bar.state !== "arrived") hang(hand.row, hand.from + step.columns);
      else return;
      event.preventDefault();
      return;
    }
    const bar = data.bars.find(({ id }) => `bar-${id}` === (event.target as Element).id);
    if (!bar) return;
    if (event.key === " ") take(bar);
    else if (stepFor(event.key)) focusBar(neighbour(byRow, bar, stepFor(event.key)!, data.rows.length));
    else return;
    event.preventDefault();
  };

  const drag = useDrag({
    at: (event) => {
      const box = body.current!.getBoundingClientRect();
      return { row: Math.floor((event.clientY - box.top) / rowHeight), column: (event.clientX - box.left) / columnWidth };
    },
    take,
    hang: (row, from) => { if (data.rows[row]?.kind === "site" || row === hand?.bar.row) moveTo(row, from); },
    drop: () => { if (hand) void down.putDown(hand); },
  });
  const labels = hand ? labelWidthInHand : labelWidth;

  return (
    <section className={styles.ledger} aria-label={words.heading}>
      <div className={styles.status}>
        <LiveNotice live={live} />
        <p role="status" aria-live="assertive" className={styles.said}>{down.said}</p>
        {down.last && <button type="button" className={styles.undo} onClick={() => void down.undo()}>{words.undo}</button>}
      </div>
      {/* Keys are the ledger's own; what is in it are links. */}
      <div ref={scroller} className={`${styles.scroller} ${usable ? "" : styles.old}`} tabIndex={-1} role="group" aria-label={words.ledger} onKeyDown={keys} onPointerMove={drag.move} onPointerUp={drag.up} onPointerCancel={drag.cancel}>
        <svg className={styles.corner} width={labels} height={headHeight} aria-hidden="true"><text className={styles.month} x={8} y={42}>{words.siteColumn}</text></svg>
        <Dates data={data} columns={shownColumns} width={width} />
        <Labels rows={data.rows} spans={shownRows} height={height} width={labels} said={hand ? said : null} />
        <svg ref={body} className={styles.body} width={width + columnWidth} height={height}>
          <defs>
            <pattern id="closed" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" x2="0" y1="0" y2="7" className={styles.hatchLine} /></pattern>
          </defs>
          <Ground data={data} rows={shownRows} columns={shownColumns} width={width} height={height} />
          {shown.map((bar) => bar.kind === "closure"
            ? <g key={bar.id}><title>{describeBar(bar, data)}</title><BarShape bar={bar} from={bar.from} row={bar.row} columnWidth={columnWidth} inHand={false} left={left * columnWidth} /></g>
            : (
              <a key={bar.id} id={`bar-${bar.id}`} href={`/desk/stays/${bar.id}`} aria-label={describeBar(bar, data)} draggable={false} className={hand?.bar.id === bar.id ? styles.away : styles.link} onPointerDown={(event) => drag.down(event, bar)} onClick={drag.click}>
                <title>{describeBar(bar, data)}</title>
                <BarShape bar={bar} from={bar.from} row={bar.row} columnWidth={columnWidth} inHand={false} left={left * columnWidth} />
              </a>
            ))}
          {hand && <g className={styles.hanging}><rect className={styles.landing} x={placeOf(hand.from, hand.from, columnWidth).x - columnWidth / 2} y={hand.row * rowHeight} width={(hand.bar.to - hand.bar.from) * columnWidth} height={rowHeight} /><BarShape bar={hand.bar} from={hand.from} row={hand.row} columnWidth={columnWidth} inHand left={left * columnWidth} /></g>}
        </svg>
      </div>
      <Asking asked={down.asked} onAnswer={(reason) => void down.answer(reason)} onBack={() => { down.dismiss(); back(); }} />
    </section>
  );
}

/** The clock, as the database's went when the board was read: for holds that run out. Until the first tick it is when it was read, as on the server. */
function useNow(at: number): number {
  const [tick, setTick] = useState({ at, passed: 0 });
  useEffect(() => {
    const began = Date.now();
    const clock = setInterval(() => setTick({ at, passed: Date.now() - began }), 5_000);
    return () => clearInterval(clock);
  }, [at]);
  return tick.at === at ? at + tick.passed : at;
}

function groupByRow(bars: readonly Bar[]): ReadonlyMap<number, readonly Bar[]> {
  const byRow = new Map<number, Bar[]>();
  for (const bar of [...bars].sort((a, b) => a.from - b.from)) {
    const own = byRow.get(bar.row);
    if (own) own.push(bar);
    else byRow.set(bar.row, [bar]);
  }
  return byRow;
}

function stepFor(key: string): { readonly rows: number; readonly columns: number } | null {
  switch (key) {
    case "ArrowUp": return { rows: -1, columns: 0 };
    case "ArrowDown": return { rows: 1, columns: 0 };
    case "ArrowLeft": return { rows: 0, columns: -1 };
    case "ArrowRight": return { rows: 0, columns: 1 };
    default: return null;
  }
}

function nextSite(data: BoardData, row: number, step: number): number | null {
  for (let next = row + step; next >= 0 && next < data.rows.length; next += step) if (data.rows[next]!.kind === "site") return next;
  return null;
}

/** The stay beside this one in its row, or the nearest one in the next row that has any. */
function neighbour(byRow: ReadonlyMap<number, readonly Bar[]>, bar: Bar, { rows, columns }: { readonly rows: number; readonly columns: number }, count: number): Bar | undefined {
  const stays = (row: number) => (byRow.get(row) ?? []).filter(({ kind }) => kind === "stay");
  if (columns !== 0) {
    const own = stays(bar.row);
    return own[own.findIndex(({ id }) => id === bar.id) + columns];
  }
  for (let row = bar.row + rows; row >= 0 && row < count; row += rows) {
    const near = [...stays(row)].sort((a, b) => Math.abs(a.from - bar.from) - Math.abs(b.from - bar.from))[0];
    if (near) return near;
  }
  return undefined;
}

interface DragParts {
  readonly at: (event: PointerEvent) => { readonly row: number; readonly column: number };
  readonly take: (bar: Bar) => void;
  readonly hang: (row: number, from: number) => void;
  readonly drop: () => void;
}

/** Less than this is a click, not a drag (px). */
const slack = 5;

/** Dragging with a mouse or pen. A finger scrolls; with one, a stay is opened and moved from its own page. */
function useDrag({ at, take, hang, drop }: DragParts) {
  const from = useRef<{ bar: Bar; x: number; y: number; column: number; moving: boolean } | null>(null);
  const dragged = useRef(false);
  return {
    down: (event: PointerEvent, bar: Bar) => {
      dragged.current = false;
      if (event.pointerType === "touch" || event.button !== 0) return;
      from.current = { bar, x: event.clientX, y: event.clientY, column: at(event).column, moving: false };
    },
    move: (event: PointerEvent) => {
      const start = from.current;
      if (!start) return;
      if (!start.moving) {
        if (Math.hypot(event.clientX - start.x, event.clientY - start.y) < slack) return;
        start.moving = true;
        dragged.current = true;
        (event.currentTarget as Element).setPointerCapture(event.pointerId);
        take(start.bar);
      }
      const { row, column } = at(event);
      hang(row, start.bar.state === "arrived" ? start.bar.from : start.bar.from + Math.round(column - start.column));
    },
    up: () => {
      if (from.current?.moving) drop();
      from.current = null;
    },
    cancel: () => { from.current = null; },
    click: (event: { preventDefault: () => void }) => { if (dragged.current) event.preventDefault(); },
  };
}
