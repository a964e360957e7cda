import { catalogueOf } from "@/lib/wording";
import type { Outline, OutlinePart } from "../outline";
import { GroundLine, RigSide } from "./rig-side";
import styles from "./drawings.module.css";
import wall from "./wall.module.css";

/** One side of the rig as somebody standing there sees it: on the driver's side the front is at the left. Each part leads to its numbers. */
export function WallDrawing({ outline, side }: { readonly outline: Outline; readonly side: "left" | "right" }) {
  const { guestRig: { opens: words, sides } } = catalogueOf();
  const { rig, parts } = outline;
  const deep = (at: "rear" | "front") => Math.max(0, ...parts.filter(({ part, need }) => part.side === at && need !== "off").map(({ part }) => part.depth / 10));
  const long = rig.body.length / 10, tall = rig.body.height / 10;
  const rear = deep("rear") + 40, front = Math.max(deep("front"), (rig.hitch?.length ?? 0) / 10) + 40;
  const wide = rear + long + front, type = wide / 27, x = (u: number) => (side === "right" ? rear + u / 10 : wide - rear - u / 10);
  return (
    <svg className={`${styles.sheet} ${wall.wall}`} viewBox={`0 ${Math.round(-tall - type)} ${Math.round(wide)} ${Math.round(tall + 3.2 * type)}`} role="group" aria-label={words.drawing(sides[side])}>
      <GroundLine x0={0} x1={Math.round(wide)} />
      <g transform={side === "right" ? `translate(${Math.round(rear)} 0)` : `translate(${Math.round(wide - rear)} 0) scale(-1 1)`}><RigSide rig={rig} plain /></g>
      <rect className={wall.tap} data-wall={side} x={Math.round(Math.min(x(0), x(rig.body.length)))} y={Math.round(-tall)} width={Math.round(long)} height={Math.round(tall - rig.body.floor / 10)} />
      {parts.filter(({ part }) => part.side === side || part.side === "rear" || part.side === "front").map((entry) => <PartMark key={entry.part.id} entry={entry} side={side} x={x} long={rig.body.length} type={type} />)}
      <text className={wall.end} x={Math.round(x(0))} y={Math.round(1.5 * type)} fontSize={Math.round(type)} textAnchor="middle">{words.rear}</text>
      <text className={wall.end} x={Math.round(x(rig.body.length))} y={Math.round(1.5 * type)} fontSize={Math.round(type)} textAnchor="middle">{words.front}</text>
    </svg>
  );
}

interface PartMarkProps {
  readonly entry: OutlinePart;
  readonly side: "left" | "right";
  readonly x: (u: number) => number;
  readonly long: number;
  readonly type: number;
}

function PartMark({ entry: { part, need }, side, x, long, type }: PartMarkProps) {
  const { guestRig: { opens: words, sides }, things } = catalogueOf();
  const onWall = part.side === side;
  const [u0, u1] = onWall ? part.span : part.side === "rear" ? [-part.depth, 0] : [long, long + part.depth];
  const left = Math.min(x(u0), x(u1)), width = Math.abs(x(u1) - x(u0));
  const name = things.label({ type: "part", part });
  const roll = part.kind === "awning" && onWall;
  const top = -part.to / 10, height = roll ? 26 : Math.max(20, (part.to - part.from) / 10);
  const middle = left + width / 2;
  return (
    <a href={`#part-${part.id}`} className={wall.part} aria-label={words.partOn(name, sides[part.side])}>
      <rect className={need === "off" ? wall.off : roll ? wall.roll : wall.box} x={Math.round(left)} y={Math.round(top)} width={Math.round(width)} height={Math.round(height)} />
      {onWall && <text x={Math.round(middle)} y={Math.round(roll ? top + 26 + type * 0.95 : top + Math.min(height / 2, type * 2))} fontSize={Math.round(type)} textAnchor="middle" dominantBaseline={roll ? "auto" : "central"}>{name}</text>}
    </a>
  );
}
