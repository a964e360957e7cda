import { elevationShapes, steeper, type Elevation } from "@/lib/card/elevation";
import { arrival as words } from "@/lib/wording/en/arrival";
import styles from "./arrival-card.module.css";

/** A rig drawn level over the ground it stands on, with the lift dimensioned on its low side. The slope is drawn steeper than it is, and says so. */
export function ElevationDrawing({ elevation, liftText }: { readonly elevation: Elevation; readonly liftText: string }) {
  const { width, height, body, tires, block, jack, ground: [[x1, y1], [x2, y2]], liftAt } = elevationShapes(elevation), size = width / 26;
  const told = `${elevation.seen === "from-behind" ? words.elevationSide : words.elevationAlong}. ${words.elevationPicture(elevation.low, liftText)}`;
  return (
    <figure className={styles.elevation}>
      <svg viewBox={`0 0 ${width} ${height + 2.4 * size}`} role="img" aria-label={told}>
        <rect {...body} fill="var(--sheet-bright)" stroke="var(--ink)" strokeWidth={width / 240} />
        {tires.map(({ at: [cx, cy], radius }) => <circle key={cx} cx={cx} cy={cy} r={radius} fill="var(--ink)" />)}
        {jack?.map((part, i) => <rect key={i} {...part} fill="var(--ink)" />)}
        {block && <rect {...block} fill="var(--accent)" />}
        <line x1={x1} y1={y1} x2={x2} y2={y2} stroke="var(--ink)" strokeWidth={width / 130} />
        <text x={liftAt} y={height + 1.6 * size} fontSize={1.5 * size} fontWeight={700} textAnchor={liftAt < width / 3 ? "start" : liftAt > (2 * width) / 3 ? "end" : "middle"} fill="var(--accent-deep)">{liftText}</text>
      </svg>
      <figcaption>{told} {words.steeper(steeper)}</figcaption>
    </figure>
  );
}
