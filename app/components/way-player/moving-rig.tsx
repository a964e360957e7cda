import type { ReelBody } from "./reel";
import styles from "./way-player.module.css";

/** Everything that drives, at one moment: bodies bent at the hitch, wheels as they are steered. */
export function MovingRig({ bodies, row }: { readonly bodies: readonly ReelBody[]; readonly row: readonly number[] }) {
  return (
    <>
      {bodies.map((body, b) => {
        const [x, y, turn] = row.slice(2 + 3 * b);
        return <g key={b} transform={`translate(${fixed(x!)} ${fixed(y!)}) rotate(${fixed(turn!)})`}><BodyMark body={body} steer={row[1]!} leads={b === 0} /></g>;
      })}
    </>
  );
}

function BodyMark({ body: { boxes, wheels, drawbar, tire: [long, wide] }, steer, leads }: { readonly body: ReelBody; readonly steer: number; readonly leads: boolean }) {
  const [left, top, width] = boxes[0]!.box;
  return (
    <>
      {drawbar && <line className={styles.drawbar} x1="0" x2="0" y1={drawbar[0]} y2={drawbar[1]} />}
      {boxes.map(({ part, box: [x, y, w, h] }) => <rect key={part} className={part === "hitch" ? styles.hitch : styles.body} x={x} y={y} width={w} height={h} />)}
      {wheels.map(({ at: [x, y], steered }, i) => <rect key={i} className={styles.tire} x={x - wide / 2} y={y - long / 2} width={wide} height={long} transform={steered ? `rotate(${fixed(steer)} ${x} ${y})` : undefined} />)}
      {leads && <polyline className={styles.nose} points={`${left + width * 0.2},${top + width * 0.38} ${left + width / 2},${top + width * 0.12} ${left + width * 0.8},${top + width * 0.38}`} />}
    </>
  );
}

/** Where it will be or has been: outlines alone. */
export function RigOutline({ bodies, row, className }: { readonly bodies: readonly ReelBody[]; readonly row: readonly number[]; readonly className: string | undefined }) {
  return (
    <>
      {bodies.map(({ boxes }, b) => {
        const [x, y, turn] = row.slice(2 + 3 * b);
        return <g key={b} transform={`translate(${fixed(x!)} ${fixed(y!)}) rotate(${fixed(turn!)})`}>{boxes.map(({ part, box: [u, v, w, h] }) => <rect key={part} className={className} x={u} y={v} width={w} height={h} />)}</g>;
      })}
    </>
  );
}

function fixed(value: number): string {
  return String(Math.round(value * 100) / 100);
}
