import { wayIn as words } from "@/lib/wording/en/way-in";
import { MovingRig, RigOutline } from "./moving-rig";
import { spreadOver, type Reel } from "./reel";
import { GroundMarks, OverheadMarks, TextMarks, WayPatterns } from "./still-marks";
import { sweptPieces } from "./swept";
import type { WaySheet } from "./way-sheet";
import styles from "./way-player.module.css";

interface StillsProps {
  readonly id: string;
  readonly sheet: WaySheet;
  readonly reel: Reel;
}

/** So many pictures of every leg. */
const PICTURES = 4;

/** Every leg as a row of numbered pictures with what happens in each: for paper, and where no script runs. Ground and sweep are those of the drawing named `id`. */
export function WayStills({ id, sheet: { ground }, reel }: StillsProps) {
  return (
    <div className={styles.stills}>
      {reel.legs.map((leg, l) => (
        <section key={l} className={styles.stillLeg}>
          <h4>{reel.legs.length > 1 ? words.leg(l + 1, leg.name) : leg.name}</h4>
          <ol>
            {spreadOver(leg, PICTURES).map((moment, i) => (
              <li key={moment}>
                <svg className={styles.sheet} viewBox={`0 0 ${ground.w} ${ground.h.toFixed(1)}`} aria-hidden="true">
                  <use href={`#${id}-ground`} />
                  <use href={`#${id}-swept-${l}`} />
                  <MovingRig bodies={reel.bodies} row={leg.rows[moment]!} />
                  <use href={`#${id}-overhead`} />
                  <use href={`#${id}-posts`} />
                </svg>
                <p><b>{i + 1}</b> {leg.said[moment]}</p>
              </li>
            ))}
          </ol>
        </section>
      ))}
    </div>
  );
}

/** What numbers on the drawing stand for, where a name found no room, and how to read it. */
export function WayLegend({ sheet: { key } }: { readonly sheet: WaySheet }) {
  return (
    <>
      {key.length > 0 && <ul className={styles.key}>{key.map(({ number, text }) => <li key={number}><b>{number}</b> {text}</li>)}</ul>}
      <details className={styles.legend}>
        <summary>{words.legend}</summary>
        <ul>{words.legendLines.map((line) => <li key={line}>{line}</li>)}</ul>
      </details>
    </>
  );
}

/** The try that came nearest, or what bars the way: one picture, nothing to run. */
export function TriedWay({ id, sheet, reel, title }: StillsProps & { readonly title: string }) {
  return (
    <svg className={styles.sheet} viewBox={`0 0 ${sheet.width} ${sheet.height.toFixed(1)}`} role="img" aria-label={title}>
      <WayPatterns sheet={sheet} id={id} />
      <g clipPath={`url(#${id}-clip)`}>
        <GroundMarks sheet={sheet} id={id} />
        {reel.legs.map((leg, l) => <path key={l} fill={`url(#${id}-ahead)`} d={sweptPieces(reel.bodies, leg).join("")} />)}
        {reel.legs.map((leg, l) => spreadOver(leg, PICTURES).map((moment) => <RigOutline key={`${l} ${moment}`} bodies={reel.bodies} row={leg.rows[moment]!} className={styles.tried} />))}
        <OverheadMarks sheet={sheet} />
      </g>
      <TextMarks sheet={sheet} />
      <text className={styles.stamp} x={sheet.width / 2 + 40} y={sheet.height - 14} textAnchor="middle" fontSize="12">{words.notAWay}</text>
    </svg>
  );
}
