import type { Elevation } from "@/lib/card/elevation";
import { arrival as words } from "@/lib/wording/en/arrival";
import styles from "./arrival-card.module.css";

/** Slopes are drawn this much steeper than they are: a slope that tips a rig is hardly seen to scale. */
const steeper = 3;
const tire = 330;

/** A rig drawn level over the ground it stands on, with the lift dimensioned on its low side. The slope is drawn steeper than it is, and says so. */
export function ElevationDrawing({ elevation: { seen, width, rise, body, tires, low }, liftText }: { readonly elevation: Elevation; readonly liftText: string }) {
  const tall = body.height + 500, fall = steeper * rise, top = Math.max(0, fall), bottom = Math.max(0, -fall);
  const groundAt = (x: number) => tall - (x / width) * fall;
  // The rig is level at the height of the tire that stands highest.
  const floorLine = Math.min(...tires.map(groundAt));
  const lowTire = low === "left" || low === "front" ? tires[0]! : tires.at(-1)!;
  const raised = groundAt(lowTire);
  const size = width / 26;
  return (
    <figure className={styles.elevation}>
      <svg viewBox={`0 ${-top} ${width} ${tall + top + bottom + 3 * size}`} role="img" aria-label={`${seen === "from-behind" ? words.elevationSide : words.elevationAlong}. ${words.elevationPicture(low, liftText)}`}>
        <rect x={body.from} y={floorLine - body.height} width={body.to - body.from} height={body.height - body.floor} fill="var(--sheet-bright)" stroke="var(--ink)" strokeWidth={width / 240} />
        {tires.map((x) => <circle key={x} cx={x} cy={floorLine - tire} r={tire} fill="var(--ink)" />)}
        {raised - floorLine > 1 && <rect x={lowTire - tire} y={floorLine} width={2 * tire} height={raised - floorLine} fill="var(--accent)" />}
        <line x1={0} y1={groundAt(0)} x2={width} y2={groundAt(width)} stroke="var(--ink)" strokeWidth={width / 130} />
        <text x={lowTire} y={Math.max(groundAt(0), groundAt(width)) + 1.7 * size} fontSize={1.5 * size} fontWeight={700} textAnchor={lowTire < width / 3 ? "start" : lowTire > (2 * width) / 3 ? "end" : "middle"} fill="var(--accent-deep)">{liftText}</text>
      </svg>
      <figcaption>{seen === "from-behind" ? words.elevationSide : words.elevationAlong}. {words.elevationPicture(low, liftText)} {words.steeper(steeper)}</figcaption>
    </figure>
  );
}
