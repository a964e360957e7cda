"use client";

import { useId, type Dispatch } from "react";
import { wayIn as words } from "@/lib/wording/en/way-in";
import { isOver, saidAt, SLIDER_STEP, SPEEDS, type Move, type Playhead, type Speed } from "./playhead";
import { momentNear } from "./reel";
import type { PlayedWay } from "./played-way";
import styles from "./way-player.module.css";

interface ControlsProps {
  readonly ways: readonly PlayedWay[];
  readonly playhead: Playhead;
  readonly move: Dispatch<Move>;
}

/** Which way, which leg, run and stop, step by step, how far along, how fast. Hidden where no script runs. */
export function PlayerControls({ ways, playhead, move }: ControlsProps) {
  const { legs } = ways[playhead.way]!.reel;
  return (
    <>
      {ways.length > 1 && <Sides ways={ways} playhead={playhead} move={move} />}
      <div className={styles.controls} role="group" aria-label={words.controls}>
        {legs.length > 1 && (
          <div className={styles.choice} role="group" aria-label={words.legChoice}>
            {legs.map(({ name }, i) => <button key={i} type="button" aria-pressed={i === playhead.leg} onClick={() => move({ do: "leg", leg: i })}>{words.leg(i + 1, name)}</button>)}
          </div>
        )}
        <div className={styles.buttons}>
          <button type="button" onClick={() => move({ do: "step-back" })}>{words.stepBack}</button>
          <RunButton {...{ ways, playhead, move }} />
          <button type="button" onClick={() => move({ do: "step-on" })}>{words.stepOn}</button>
        </div>
        <FarAlong {...{ ways, playhead, move }} />
      </div>
    </>
  );
}

function RunButton({ ways, playhead, move }: ControlsProps) {
  const over = isOver(ways.map(({ reel }) => reel), playhead);
  return <button type="button" className={styles.run} onClick={() => move({ do: "toggle" })}>{playhead.running ? words.stop : over ? words.again : words.run}</button>;
}

/** From which side: a link where a page shows that way by itself, so that it works without script. */
function Sides({ ways, playhead, move }: ControlsProps) {
  return (
    <div className={styles.choice} role="group" aria-label={words.sides}>
      {ways.map(({ from, href }, i) => {
        const chosen = i === playhead.way, choose = () => move({ do: "way", way: i });
        if (!href) return <button key={from} type="button" aria-pressed={chosen} onClick={choose}>{words.side[from]}</button>;
        return <a key={from} href={href} aria-current={chosen ? "true" : undefined} onClick={(event) => { if (event.metaKey || event.ctrlKey || event.shiftKey) return; event.preventDefault(); choose(); }}>{words.side[from]}</a>;
      })}
    </div>
  );
}

/** The slider's own text says as much to who hears it; a live output would talk all the time while it runs. */
function FarAlong({ ways, playhead, move }: ControlsProps) {
  const id = useId(), leg = ways[playhead.way]!.reel.legs[playhead.leg]!, far = leg.far[momentNear(leg, playhead.along)]!;
  return (
    <div className={styles.slider}>
      <label htmlFor={id}>{words.slider}</label>
      <span>{far}</span>
      <input id={id} type="range" min={0} max={leg.length} step={SLIDER_STEP} value={Math.round(playhead.along)} aria-valuetext={`${far}. ${saidAt(ways.map(({ reel }) => reel), playhead)}`} onChange={(event) => move({ do: "seek", along: Number(event.target.value) })} />
    </div>
  );
}

/** How fast, and the moment read out: for who does not see the drawing. */
export function Extras({ playhead, move }: Pick<ControlsProps, "playhead" | "move">) {
  const id = useId();
  return (
    <div className={styles.extras}>
      <div className={styles.speed}>
        <label htmlFor={id}>{words.speed}</label>
        <select id={id} value={playhead.speed} onChange={(event) => move({ do: "speed", speed: event.target.value as Speed })}>
          {(Object.keys(SPEEDS) as Speed[]).map((speed) => <option key={speed} value={speed}>{words.speeds[speed]}</option>)}
        </select>
      </div>
      <button type="button" className={styles.plain} onClick={() => move({ do: "tell" })}>{words.tell}</button>
    </div>
  );
}
