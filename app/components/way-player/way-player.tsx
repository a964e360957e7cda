"use client";

import { useId, useMemo, type KeyboardEvent } from "react";
import { wayIn as words } from "@/lib/wording/en/way-in";
import { MovingMarks } from "./moving-marks";
import { saidAt, type Move, type Playhead } from "./playhead";
import { Extras, PlayerControls } from "./player-controls";
import type { PlayedWay } from "./played-way";
import type { Reel } from "./reel";
import { usePlayhead } from "./use-playhead";
import styles from "./way-player.module.css";

interface WayPlayerProps {
  readonly id: string;
  readonly ways: readonly PlayedWay[];
  /** The way shown first, by its place. */
  readonly first?: number;
}

/** The way in on a plan to scale, to run, stop and step through. Before anything is pressed, and where no script runs, it is one still of the whole way. */
export function WayPlayer({ id, ways, first = 0 }: WayPlayerProps) {
  const reels = useMemo(() => ways.map(({ reel }) => reel), [ways]);
  const [playhead, move] = usePlayhead(reels, first);
  const shown = ways[playhead.way]!, drawing = `${id}-${playhead.way}`, hint = useId();
  return (
    <div className={shown.reel.legs.length === 1 && !shown.told ? `${styles.player} ${styles.stillsBeside}` : styles.player}>
      <div className={styles.picture}>
        <div className={styles.plan} tabIndex={0} role="group" aria-label={words.plan} aria-describedby={hint} onKeyDown={(event) => pressKey(event, move)}>
          <svg className={styles.sheet} viewBox={`0 0 ${shown.width} ${shown.height.toFixed(1)}`} role="img" aria-label={shown.title}>
            {shown.patterns}
            <g clipPath={`url(#${drawing}-clip)`}>
              <g id={`${drawing}-ground`}>{shown.ground}</g>
              <MovingMarks id={drawing} reel={shown.reel} playhead={playhead} />
              <g id={`${drawing}-overhead`}>{shown.overhead}</g>
            </g>
            {shown.texts}
            <Posts id={drawing} reel={shown.reel} playhead={playhead} />
          </svg>
        </div>
      </div>
      <div className={styles.panel}>
        <PlayerControls ways={ways} playhead={playhead} move={move} />
        <Moment ways={reels} playhead={playhead} />
        <Extras playhead={playhead} move={move} />
        {shown.told}
      </div>
      <div className={styles.reading}>
        <p id={hint} className={styles.keys}>{words.keys}</p>
        {shown.legend}
      </div>
      {shown.stills}
    </div>
  );
}

function Moment({ ways, playhead }: { readonly ways: readonly Reel[]; readonly playhead: Playhead }) {
  return (
    <div className={styles.moment}>
      <p className={styles.said}>{saidAt(ways, playhead)}</p>
      <p className={styles.rule}>{words.rule}</p>
      <p className={styles.aloud} role="status" aria-live="polite">{playhead.told}</p>
    </div>
  );
}

const KEYS: Readonly<Record<string, Move["do"] & ("toggle" | "step-on" | "step-back" | "begin" | "end" | "next-leg" | "leg-before" | "tell")>> = {
  " ": "toggle", ArrowRight: "step-on", ArrowUp: "step-on", ArrowLeft: "step-back", ArrowDown: "step-back", Home: "begin", End: "end", PageDown: "next-leg", PageUp: "leg-before", t: "tell", T: "tell",
};

function pressKey(event: KeyboardEvent, move: (what: Move) => void) {
  const what = KEYS[event.key];
  if (!what || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  move({ do: what });
}

/** Helpers' places by their numbers; the one in use is filled. */
function Posts({ id, reel: { posts, legs }, playhead: { leg, along, fresh } }: { readonly id: string; readonly reel: Reel; readonly playhead: Playhead }) {
  const { rows, helpers } = legs[leg]!, at = rows.findLastIndex((row) => row[0]! <= along + 1), used = fresh ? undefined : helpers[at]?.[0];
  return (
    <g id={`${id}-posts`}>
      {posts.map(({ at: [x, y] }, i) => (
        <g key={i} className={i === used ? styles.postUsed : styles.post}>
          <circle cx={x} cy={y} r="9" />
          <text x={x} y={y} textAnchor="middle" dominantBaseline="central">{i + 1}</text>
        </g>
      ))}
    </g>
  );
}
