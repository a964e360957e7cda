import type { WayShown } from "@/lib/card/way";
import { terrainOf, type Site } from "@/lib/park";
import { boundsOf, type Point } from "@/lib/plane";
import { arrival as words } from "@/lib/wording/en/arrival";
import styles from "./arrival-card.module.css";

const margin = 1500;
/** So many moments of a leg are drawn, beside where it ends. */
const moments = 3;

/** The way in to scale, the road at the bottom: ground passed over hatched, the rig at some moments and where it ends, the tightest place dimensioned, a helper's places numbered. */
export function WayDrawing({ site, way: { from, legs, tightest, spotting }, gap }: { readonly site: Site; readonly way: WayShown; readonly gap: string }) {
  const leg = legs[0]!, { pad, barriers } = terrainOf(site), road = site.approach!.road;
  const turned = ([x, y]: Point): Point => [-y, -x];
  const posts = spotting.posts.filter((post) => post.leg === 0);
  const { minX, maxX, minY, maxY } = boundsOf([...leg.swept.flat(), ...pad.outline, ...posts.map(({ at }) => at)].map(turned));
  const width = maxX - minX + 2 * margin, height = maxY - minY + 2 * margin, unit = Math.max(width, height) / 100;
  const path = (points: readonly Point[]) => points.map((point) => turned(point).join(",")).join(" ");
  const shown = leg.frames.filter((_, i) => i % Math.ceil(leg.frames.length / moments) === 0);
  const last = leg.frames.at(-1)!, [gapFrom, gapTo] = [turned(tightest.from), turned(tightest.to)];
  return (
    <figure className={styles.wayPlan}>
      <svg viewBox={`${minX - margin} ${minY - margin} ${width} ${height}`} role="img" aria-label={words.wayPicture(from)}>
        <defs>
          <pattern id="passed-over" width={1.6 * unit} height={1.6 * unit} patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1={0} x2={0} y1={0} y2={1.6 * unit} stroke="var(--ink-soft)" strokeWidth={unit / 4} /></pattern>
        </defs>
        <polyline points={path(road.centreline)} fill="none" stroke="var(--road)" strokeWidth={road.width} strokeLinejoin="round" />
        <polygon points={path(pad.outline)} fill="var(--sheet-deep)" stroke="var(--ink)" strokeWidth={unit / 3} />
        <path d={leg.swept.map((piece) => `M${path(piece)}z`).join("")} fill="url(#passed-over)" />
        {barriers.flatMap(({ id, solids }) => solids.map(({ footprint, nature }, i) => {
          const look = nature === "crown" || nature === "wire" ? { fill: "none", stroke: "var(--ink-soft)", strokeDasharray: `${unit} ${unit}` } : { fill: "var(--ink-soft)", stroke: "var(--ink)" };
          const [cx, cy] = turned([footprint.x, footprint.y]);
          return footprint.shape === "disc" ? <circle key={`${id} ${i}`} cx={cx} cy={cy} r={footprint.radius} {...look} strokeWidth={unit / 4} /> : <polygon key={`${id} ${i}`} points={path(footprint.outline)} {...look} strokeWidth={unit / 4} />;
        }))}
        {shown.map(({ along, bodies }) => bodies.map(({ outline }, i) => <polygon key={`${along} ${i}`} points={path(outline)} fill="none" stroke="var(--ink-soft)" strokeWidth={unit / 4} />))}
        {last.bodies.map(({ outline }, i) => <polygon key={i} points={path(outline)} fill="var(--sheet-bright)" stroke="var(--ink)" strokeWidth={unit / 2} />)}
        <line x1={gapFrom[0]} y1={gapFrom[1]} x2={gapTo[0]} y2={gapTo[1]} stroke="var(--accent)" strokeWidth={unit / 2} />
        <circle cx={gapTo[0]} cy={gapTo[1]} r={unit / 1.6} fill="var(--accent)" />
        <text x={gapTo[0] + 1.4 * unit} y={gapTo[1] + unit} fontSize={3.4 * unit} fontWeight={700} fill="var(--accent-deep)" stroke="var(--sheet)" strokeWidth={unit} paintOrder="stroke">{gap}</text>
        {posts.map(({ at }, i) => {
          const [x, y] = turned(at);
          return <g key={i}><circle cx={x} cy={y} r={2.3 * unit} fill="var(--sheet-bright)" stroke="var(--accent)" strokeWidth={unit / 2} /><text x={x} y={y + 1.2 * unit} fontSize={3.4 * unit} fontWeight={700} textAnchor="middle" fill="var(--accent-deep)">{i + 1}</text></g>;
        })}
      </svg>
      <figcaption>{words.wayPicture(from)}</figcaption>
    </figure>
  );
}
