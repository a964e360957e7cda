import { boxesOf, type Rig } from "@/lib/rig";
import { cm } from "./outline-path";
import { profileOf } from "./profile";
import styles from "./drawings.module.css";

/** The rig from its door side, standing on the ground at y = 0, its rear wall at x = 0; centimetres. `plain` leaves out what opens; `wall` says whose windows give way to it. */
export function RigSide({ rig, plain = false, wall = "right" }: { readonly rig: Rig; readonly plain?: boolean; readonly wall?: "left" | "right" }) {
  const { behind, body, glass, lines, wheels } = profileOf(rig);
  return (
    <g>
      {behind.map((d) => <path key={d} className={styles.behind} d={d} />)}
      {body.map((d) => <path key={d} className={styles.body} d={d} />)}
      {lines.map((d) => <path key={d} className={styles.thin} d={d} />)}
      {glass.filter(({ from, to }) => !rig.parts.some((p) => p.side === wall && p.kind !== "awning" && p.span[0] < to && p.span[1] > from)).map(({ path }) => <path key={path} className={styles.glass} d={path} />)}
      {!plain && <DoorSide rig={rig} />}
      {wheels.map(({ u, radius }) => (
        <g key={u}>
          <circle className={styles.tire} cx={cm(u)} cy={cm(-radius)} r={cm(radius)} />
          <circle className={styles.hub} cx={cm(u)} cy={cm(-radius)} r={cm(radius * 0.45)} />
        </g>
      ))}
    </g>
  );
}

/** Door, rolled awning and slides of that side, where the rig has them. */
function DoorSide({ rig }: { readonly rig: Rig }) {
  const sill = rig.body.floor + 150, eaves = rig.body.height - 480;
  return boxesOf(rig).filter(({ id }) => rig.parts.some((p) => p.id === id && p.side === "right")).map(({ id, kind, u0, u1, from, to }) => {
    const [x, width] = [cm(u0), cm(u1 - u0)];
    if (kind === "awning") return <rect key={id} className={styles.roll} x={x} y={cm(-to)} width={width} height={13} rx={6} />;
    if (kind === "entry") {
      const low = Math.max(from, sill), high = Math.min(Math.max(to, low + 1750), eaves);
      return (
        <g key={id}>
          <rect className={styles.panel} x={x} y={cm(-high)} width={width} height={cm(high - low)} rx={4} />
          <line className={styles.thin} x1={x + width * 0.8} x2={x + width * 0.8} y1={cm(-low) - 95} y2={cm(-low) - 80} />
        </g>
      );
    }
    // The nose of a trailer slopes: a slide that far forward would be drawn past it.
    const right = Math.min(u1, rig.body.length * 0.93), high = Math.min(to, eaves);
    const wide = cm(right - u0), inset = Math.min(30, wide / 5);
    return (
      <g key={id}>
        <rect className={styles.panel} x={x} y={cm(-high)} width={wide} height={cm(high - from)} rx={3} />
        <rect className={styles.glass} x={x + inset} y={cm(-high) + 32} width={wide - 2 * inset} height={62} rx={7} />
      </g>
    );
  });
}

/** Ground as a surveyor draws it: a line with earth below. */
export function GroundLine({ x0, x1 }: { readonly x0: number; readonly x1: number }) {
  const strokes = Array.from({ length: Math.max(0, Math.floor((x1 - x0 - 10) / 26)) }, (_, i) => `M${x0 + 18 + 26 * i} 0l-14 16`);
  return (
    <g>
      <path className={styles.earth} d={strokes.join("")} />
      <line className={styles.ground} x1={x0} y1={0} x2={x1} y2={0} />
    </g>
  );
}
