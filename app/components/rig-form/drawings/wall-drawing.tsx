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
  const rear = deep("rear") + 70, front = Math.max(deep("front"), (rig.hitch?.length ?? 0) / 10) + 70;
  const wide = rear + long + front, type = wide / 27, x = (u: number) => (side === "right" ? rear + u / 10 : wide - rear - u / 10);
  return (
    <svg className={`${styles.sheet} ${wall.wall}`} viewBox={`0 ${Math.round(-tall - type)} ${Math.round(wide)} ${Math.round(tall + 3.2 * type)}`} role="group" aria-label={words.drawing(sides[side])}>
      <GroundLine x0={0} x1={Math.round(wide)} />
      <g transform={side === "right" ? `translate(${Math.round(rear)} 0)` : `translate(${Math.round(wide - rear)} 0) scale(-1 1)`}><RigSide rig={rig} plain wall={side} /></g>
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
  return (
    <a href={`#part-${part.id}`} className={wall.part} aria-label={words.partOn(name, sides[part.side])}>
      <rect className={wall.tap} x={Math.round(left)} y={Math.round(top)} width={Math.round(width)} height={Math.round(roll ? height + 1.4 * type : height)} />
      <rect className={need === "off" ? wall.off : roll ? wall.roll : wall.box} x={Math.round(left)} y={Math.round(top)} width={Math.round(width)} height={Math.round(height)} />
      {onWall && <Name name={name} type={type} left={left} top={top} width={width} height={height} below={roll} />}
    </a>
  );
}

interface NameProps {
  readonly name: string;
  readonly type: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Under the part, at its left end, where doors and windows leave room. */
  readonly below: boolean;
}

/** A letter's width in its height, in the typed face. */
const LETTER = 0.62;

/** In one line where it is narrow enough, else a line a word, else upright. */
function Name({ name, type, left, top, width, height, below }: NameProps) {
  const size = Math.round(type), r = Math.round;
  if (below) return <text x={r(left + type * 0.3)} y={r(top + height + type)} fontSize={size}>{name}</text>;
  const words = name.split(" "), wide = (text: string) => text.length * type * LETTER;
  const x = left + width / 2, y = top + height / 2;
  if (words.some((word) => wide(word) > width)) return <text transform={`translate(${r(x)} ${r(y)}) rotate(-90)`} fontSize={size} textAnchor="middle" dominantBaseline="central">{name}</text>;
  const lines = wide(name) <= width ? [name] : words;
  return (
    <text fontSize={size} textAnchor="middle" dominantBaseline="central">
      {lines.map((line, i) => <tspan key={line} x={r(x)} y={r(y + (i - (lines.length - 1) / 2) * type * 1.15)}>{line}</tspan>)}
    </text>
  );
}
