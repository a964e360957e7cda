import { useMemo } from "react";
import { MovingRig, RigOutline } from "./moving-rig";
import type { Playhead } from "./playhead";
import { momentNear, rowAt, spreadOver, type Reel } from "./reel";
import { sweptPieces } from "./swept";
import styles from "./way-player.module.css";

/** So many moments of every leg are drawn in outline while the whole way is shown as one still. */
const GHOSTS = 5;

/** Between ground and limbs: the ground passed over, where a leg ends, the rig as it stands, the sight line, what comes nearest. */
export function MovingMarks({ id, reel, playhead: { leg: l, along, fresh } }: { readonly id: string; readonly reel: Reel; readonly playhead: Playhead }) {
  const { bodies, legs } = reel, leg = legs[l]!, row = rowAt(leg, along), last = leg.rows.at(-1)!;
  const pieces = useMemo(() => legs.map((one) => sweptPieces(bodies, one)), [bodies, legs]);
  return (
    <>
      {pieces.map((all, i) => <path key={i} id={`${id}-swept-${i}`} className={i === l || fresh ? undefined : styles.otherLeg} fill={`url(#${id}-ahead)`} d={all.join("")} />)}
      {!fresh && <path className={styles.screenOnly} fill={`url(#${id}-passed)`} d={pieces[l]!.slice(0, leg.rows.findLastIndex((one) => one[0]! <= along + 1) + 1).join("")} />}
      <g className={fresh ? undefined : styles.paperOnly}>
        {legs.flatMap((one, i) => spreadOver(one, GHOSTS).map((moment) => <RigOutline key={`${i} ${moment}`} bodies={bodies} row={one.rows[moment]!} className={styles.ghost} />))}
      </g>
      <RigOutline bodies={bodies} row={last} className={styles.goal} />
      <g className={styles.screenOnly}>
        <MovingRig bodies={bodies} row={row} />
        {!fresh && <Sight reel={reel} leg={l} along={along} />}
      </g>
    </>
  );
}

/** From the driver's eye to the helper, where it is seen; and the two places that come nearest to each other. */
function Sight({ reel: { posts, legs }, leg, along }: { readonly reel: Reel; readonly leg: number; readonly along: number }) {
  const shown = legs[leg]!, moment = momentNear(shown, along), [x1, y1, x2, y2] = shown.near[moment]!, [post, eyeX, eyeY] = shown.helpers[moment] ?? [];
  const at = post === undefined ? undefined : posts[post]?.at;
  return (
    <>
      {at && eyeX !== undefined && eyeY !== undefined && <line className={styles.sight} x1={eyeX} y1={eyeY} x2={at[0]} y2={at[1]} />}
      <line className={styles.near} x1={x1} y1={y1} x2={x2} y2={y2} />
    </>
  );
}
