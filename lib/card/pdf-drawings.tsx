import { Circle, ClipPath, Defs, G, Line, Polygon, Polyline, Rect, Svg, Text } from "@react-pdf/renderer";
import type { ReactNode } from "react";
import type { Units } from "@/lib/measure";
import { contains, type Point } from "@/lib/plane";
import { arrival as words } from "@/lib/wording/en/arrival";
import { elevationShapes, type Elevation } from "./elevation";
import { scaleLength, type PlanPicture, type PlanShape } from "./plan-shapes";
import type { WayPicture } from "./way-shapes";

export const ink = "#1c1a16", accent = "#a3290c", soft = "#575144", paper = "#fffdf7";
const groundTone = "#efe8d6", roadTone = "#ddd3bb";

interface DrawingProps<Picture> {
  readonly picture: Picture;
  readonly units: Units;
  /** The room there is for it, pt; it takes as much as its shape fills. */
  readonly room: readonly [number, number];
}

/** Where the rig stands, with the hookups it uses lettered. */
export function PlanDrawing({ picture, units, room }: DrawingProps<PlanPicture>) {
  return (
    <Sheet picture={picture} units={units} room={room}>
      {(scale) => lettered(picture, scale).map(({ service, at }) => <Label key={service} at={at} text={words.planLetters[service]} />)}
    </Sheet>
  );
}

/** Letters beside the hookups on the side away from the rig, each below the one before. */
function lettered({ hookups, shapes }: PlanPicture, scale: number): { readonly service: keyof typeof words.planLetters; readonly at: Point }[] {
  const rig = shapes.find((shape) => shape.of === "body"), middle = rig && rig.shape === "outline" ? rig.points.reduce((sum, [x]) => sum + x, 0) / rig.points.length : 0;
  let before = -Infinity;
  return [...hookups].sort((a, b) => a.at[1] - b.at[1]).map(({ service, at: [x, y] }) => {
    before = Math.max(before + 9, y * scale + 3);
    return { service, at: [x > middle ? x * scale + 5 : x * scale - 11, before] };
  });
}

/** The way in, its tightest place dimensioned, a helper's places numbered. */
export function WayPlanDrawing({ picture, units, room, gap }: DrawingProps<WayPicture> & { readonly gap: string }) {
  return (
    <Sheet picture={picture} units={units} room={room}>
      {(scale) => {
        const [[ax, ay], [bx, by]] = picture.gap.map(([x, y]): Point => [x * scale, y * scale]) as unknown as [Point, Point];
        return (
          <G>
            <Line x1={ax} y1={ay} x2={bx} y2={by} stroke={accent} strokeWidth={1.6} />
            {[[ax, ay], [bx, by]].map(([x, y], i) => <Circle key={i} cx={x!} cy={y!} r={1.8} fill={accent} />)}
            <Label at={labelSpot(picture, scale, gap)} text={gap} strong />
            {picture.posts.map(([x, y], i) => (
              <G key={i}>
                <Circle cx={x * scale} cy={y * scale} r={6.5} fill={paper} stroke={accent} strokeWidth={1.4} />
                <Text x={x * scale} y={y * scale + 3.2} textAnchor="middle" style={{ fontSize: 9, fontFamily: "Times-Bold" }} fill={accent}>{String(i + 1)}</Text>
              </G>
            ))}
          </G>
        );
      }}
    </Sheet>
  );
}

const foot = 20;

/** Shapes to scale in a frame, a scale bar and a north arrow in the strip below. */
function Sheet({ picture: { width, height, shapes, north }, units, room, children }: Omit<DrawingProps<Omit<WayPicture, "gap" | "posts">>, "gap"> & { readonly children: (scale: number) => ReactNode }) {
  const scale = Math.min(room[0] / width, (room[1] - foot) / height), w = width * scale, h = height * scale, bar = scaleLength(width, units), clip = `frame-${Math.round(width)}-${shapes.length}`;
  return (
    <Svg width={w} height={h + foot} viewBox={`0 0 ${w} ${h + foot}`}>
      <Defs><ClipPath id={clip}><Rect x={0} y={0} width={w} height={h} /></ClipPath></Defs>
      <G clipPath={`url(#${clip})`}>
        {shapes.map((shape, i) => <Shape key={i} of={shape} scale={scale} />)}
        {children(scale)}
      </G>
      <Rect x={0.5} y={0.5} width={w - 1} height={h - 1} fill="none" stroke={ink} strokeWidth={1} />
      <Line x1={1} y1={h + 9} x2={1 + bar.mm * scale} y2={h + 9} stroke={ink} strokeWidth={1.2} />
      {[1, 1 + bar.mm * scale].map((x) => <Line key={x} x1={x} y1={h + 6} x2={x} y2={h + 12} stroke={ink} strokeWidth={1.2} />)}
      <Text x={6 + bar.mm * scale} y={h + 12} style={{ fontSize: 8, fontFamily: "Courier-Bold" }} fill={ink}>{words.scale(bar.count, units)}</Text>
      {north !== null && (
        <G transform={`translate(${w - 12} ${h + 11}) rotate(${north})`}>
          <Polygon points="0,-8 3.4,6.4 0,4" fill={ink} stroke={ink} strokeWidth={0.5} />
          <Polygon points="0,-8 -3.4,6.4 0,4" fill={paper} stroke={ink} strokeWidth={0.5} />
        </G>
      )}
      {north !== null && <Text x={w - 32} y={h + 13} style={{ fontSize: 8, fontFamily: "Courier-Bold" }} fill={ink}>{words.north}</Text>}
    </Svg>
  );
}

/** Text that stands off what lies beneath by a rim of paper. */
function Label({ at: [x, y], text, strong = false }: { readonly at: Point; readonly text: string; readonly strong?: boolean }) {
  const size = strong ? strongSize : 8, wide = widthOf(text, size);
  return (
    <G>
      <Rect x={x - 1.5} y={y - size * 0.78} width={wide + 3} height={size * 1.02} fill={paper} fillOpacity={0.88} />
      <Text x={x} y={y} style={{ fontSize: size, fontFamily: "Times-Bold" }} fill={accent}>{text}</Text>
    </G>
  );
}

const strongSize = 10;

/** About as wide as Times bold sets it. */
function widthOf(text: string, size: number): number {
  return text.length * size * 0.5;
}

/** Where the gap's label covers least of the rig, the helpers' places and the gap itself, within the frame. */
function labelSpot({ gap: [, b], gap, posts, shapes, width, height }: WayPicture, scale: number, text: string): Point {
  const wide = widthOf(text, strongSize), tall = strongSize, [x, y] = [b[0] * scale, b[1] * scale];
  const rigs = shapes.flatMap((shape) => (shape.of === "body" && shape.shape === "outline" ? [shape.points.map(([px, py]): Point => [px * scale, py * scale])] : []));
  const spots = [[6, 3.5], [-wide - 6, 3.5], [-wide / 2, -9], [-wide / 2, 15], [8, -9], [8, 16], [-wide - 8, -9], [-wide - 8, 16], [24, 3.5], [-wide - 24, 3.5]].map(([dx, dy]): Point => [x + dx!, y + dy!]);
  const cost = ([left, base]: Point) => {
    const corners = [0, 0.5, 1].flatMap((i) => [0, 0.5, 1].map((j): Point => [left + wide * i, base - tall * j * 0.8]));
    const outside = corners.filter(([px, py]) => px < 3 || py < 3 || px > width * scale - 3 || py > height * scale - 3).length;
    const near = (p: Point, r: number) => corners.some(([px, py]) => Math.hypot(px - p[0] * scale, py - p[1] * scale) < r);
    return 20 * outside + corners.filter((corner) => rigs.some((rig) => contains(rig, corner))).length + 6 * posts.filter((post) => near(post, 11)).length + 4 * gap.filter((end) => near(end, 4)).length;
  };
  return spots.reduce((best, spot) => (cost(spot) < cost(best) ? spot : best));
}

interface Look {
  readonly fill: string;
  readonly stroke: string;
  readonly dash?: number;
  readonly thick?: number;
}

const looks: Readonly<Record<PlanShape["of"], Look>> = {
  road: { fill: "none", stroke: roadTone },
  apron: { fill: roadTone, stroke: "none", thick: 0 },
  lot: { fill: "none", stroke: soft, dash: 3 },
  pad: { fill: groundTone, stroke: ink },
  edge: { fill: "none", stroke: ink, thick: 1.6 },
  hatch: { fill: "none", stroke: soft, thick: 0.35 },
  obstacle: { fill: soft, stroke: ink },
  limb: { fill: "none", stroke: soft, dash: 2 },
  limit: { fill: "none", stroke: accent, dash: 2, thick: 1.2 },
  moment: { fill: "none", stroke: soft, thick: 0.7 },
  body: { fill: paper, stroke: ink, thick: 1.8 },
  part: { fill: paper, stroke: ink },
  awning: { fill: "none", stroke: ink, dash: 4 },
  hookup: { fill: accent, stroke: accent },
  power: { fill: "none", stroke: accent, dash: 5, thick: 1.4 },
  water: { fill: "none", stroke: accent, dash: 1.5, thick: 1.4 },
  sewer: { fill: "none", stroke: accent, thick: 2.2 },
};

function Shape({ of: shape, scale }: { readonly of: PlanShape; readonly scale: number }) {
  const { fill, stroke, dash, thick = 0.9 } = looks[shape.of];
  const look = { fill, stroke, strokeWidth: thick, ...(dash ? { strokeDasharray: `${dash} ${dash}` } : {}) };
  if (shape.shape === "disc") return <Circle cx={shape.at[0] * scale} cy={shape.at[1] * scale} r={shape.radius * scale} {...look} />;
  const points = shape.points.map(([x, y]) => `${(x * scale).toFixed(2)},${(y * scale).toFixed(2)}`).join(" ");
  if (shape.shape === "strip") return <Polyline points={points} {...look} strokeWidth={shape.width * scale}  />;
  return shape.shape === "line" ? <Polyline points={points} {...look} /> : <Polygon points={points} {...look} />;
}

/** The rig level over the ground it stands on, the lift under its low side. */
export function ElevationDrawing({ elevation, lift, room: [wide, tall] }: { readonly elevation: Elevation; readonly lift: string; readonly room: readonly [number, number] }) {
  const { width, height, body, ground, tires, block, jack, liftAt } = elevationShapes(elevation), scale = Math.min(wide / width, (tall - 11) / height);
  const on = (x: number) => x * scale;
  return (
    <Svg width={width * scale} height={height * scale + 11} viewBox={`0 0 ${width * scale} ${height * scale + 11}`}>
      <Rect x={on(body.x)} y={on(body.y)} width={on(body.width)} height={on(body.height)} fill={paper} stroke={ink} strokeWidth={1} />
      {tires.map(({ at: [x, y], radius }) => <Circle key={x} cx={on(x)} cy={on(y)} r={on(radius)} fill={ink} />)}
      {jack?.map((part, i) => <Rect key={i} x={on(part.x)} y={on(part.y)} width={on(part.width)} height={on(part.height)} fill={ink} />)}
      {block && <Rect x={on(block.x)} y={on(block.y)} width={on(block.width)} height={on(block.height)} fill={accent} />}
      <Line x1={on(ground[0][0])} y1={on(ground[0][1])} x2={on(ground[1][0])} y2={on(ground[1][1])} stroke={ink} strokeWidth={1.4} />
      <Text x={on(liftAt)} y={height * scale + 9} textAnchor={liftAt < width / 3 ? "start" : liftAt > (2 * width) / 3 ? "end" : "middle"} style={{ fontSize: 9, fontFamily: "Times-Bold" }} fill={accent}>{lift}</Text>
    </Svg>
  );
}
