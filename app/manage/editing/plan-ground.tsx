import { centroid, type Point } from "@/lib/plane";
import { readAt, type Draft } from "@/lib/park/edit/record";
import { pointsOfThing, thingsOf, type Thing } from "@/lib/park/edit/things";
import type { Units } from "@/lib/measure";
import { HookupMark, NorthArrow, ObstacleMark, ScaleBar, scallop } from "../../components/plan/marks";
import { cutAway, lineThrough, scaleBarFor } from "../../components/plan/frame";
import { fixed, pathOf, pointsOf } from "../../components/plan/paths";
import { spread } from "../../components/plan/spread";
import type { ObstacleShape, PagePoint } from "../../components/plan/types";
import { FOOT, toPage, type PageSize, type View } from "./view";
import plan from "../../components/plan/plan.module.css";
import styles from "./editor.module.css";

export interface GroundProps {
  readonly draft: Draft;
  readonly view: View;
  readonly size: PageSize;
  readonly units: Units;
}

/** Everything that is drawn of a site while it is edited, in the same ink as every plan: road, lot, pad, stalls, the way in, what stands about. */
export function PlanGround({ draft, view, size, units }: GroundProps) {
  const page = (p: Point) => toPage(view, size, p);
  const things = thingsOf(draft), of = (kind: Thing["kind"]) => things.filter((thing) => thing.kind === kind);
  const ring = (thing: Thing) => pointsOf(pointsOfThing(draft, thing).map(page));
  const pad = of("pad")[0];
  const loose = /gravel|grit|sand|dirt|grass|chip|shale|stone/i.test(draft.pad.surface ?? "");
  return (
    <g aria-hidden="true">
      <Patterns />
      {of("road").concat(of("exit-road")).map((thing) => <Ribbon key={thing.kind} draft={draft} thing={thing} page={page} scale={view.scale} />)}
      {of("driveable").map((thing) => <polygon key={thing.path.join()} className={styles.driveable} points={ring(thing)} />)}
      {of("lot").map((thing) => <polygon key="lot" className={plan.lot} points={ring(thing)} />)}
      {pad && <g><polygon className={plan.pad} points={ring(pad)} />{loose && <polygon fill="url(#edit-gravel)" points={ring(pad)} />}<polygon className={plan.padEdge} points={ring(pad)} /></g>}
      {of("stall").map((thing) => <polygon key={thing.path.join()} className={plan.stall} points={ring(thing)} />)}
      <RoadSide edge={draft.roadEdge ?? DEFAULT_EDGE} draft={draft} page={page} size={size} drawn={!draft.approach} />
      {draft.entry === "pull-through" && draft.exitEdge && <RoadSide edge={draft.exitEdge} draft={draft} page={page} size={size} drawn={!draft.approach?.exitRoad} />}
      <Axes page={page} size={size} />
      {draft.approach?.gradeBreaks?.map(({ at }, i) => <line key={i} className={styles.grade} {...ends([page([at, 2500]), page([at, -2500])])} />)}
      {of("height-limit").map((thing) => <polyline key={thing.path.join()} className={styles.limit} points={ring(thing)} />)}
      {of("spot-heights").flatMap((thing) => pointsOfThing(draft, thing)).map((p, i) => <path key={i} className={styles.spot} d={cross(page(p))} />)}
      <Obstacles draft={draft} things={of("obstacle")} page={page} scale={view.scale} />
      <Hookups draft={draft} things={of("hookup")} page={page} scale={view.scale} size={size} />
      <Foot draft={draft} view={view} size={size} units={units} />
    </g>
  );
}

type ToPage = (p: Point) => PagePoint;
const DEFAULT_EDGE: readonly [Point, Point] = [[0, -3000], [0, 3000]];

/** Where the symbols of hookups stand: beside each other where their places are too near. */
export function hookupSymbols(draft: Draft, view: View, size: PageSize): PagePoint[] {
  const places = (draft.hookups ?? []).map((h) => toPage(view, size, h.at));
  // What lies off the page stays there: only what is seen is moved apart.
  const seen = places.map(([x, y]) => x > 0 && y > 0 && x < size.w && y < size.h);
  const apart = spread(places.filter((_, i) => seen[i]), 13, { x: 0, y: 0, w: size.w, h: size.h - FOOT }, 7);
  let next = 0;
  return places.map((p, i) => (seen[i] ? apart[next++]! : p));
}

function Patterns() {
  return (
    <defs>
      <pattern id="edit-road" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line className={plan.hatch} x1="0" y1="0" x2="0" y2="7" /></pattern>
      <pattern id="edit-gravel" width="11" height="11" patternUnits="userSpaceOnUse"><circle className={plan.grain} cx="2" cy="3" r=".7" /><circle className={plan.grain} cx="8" cy="8" r=".7" /><circle className={plan.grain} cx="6" cy="1" r=".5" /></pattern>
      <pattern id="edit-solid" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><line className={plan.dense} x1="0" y1="0" x2="0" y2="4" /></pattern>
    </defs>
  );
}

function Ribbon({ draft, thing, page, scale }: { readonly draft: Draft; readonly thing: Thing; readonly page: ToPage; readonly scale: number }) {
  const d = pathOf(pointsOfThing(draft, thing).map(page)), width = Number(readAt(draft, [...thing.path, "width"]) ?? 0) * scale;
  return <g><path className={styles.roadBed} d={d} strokeWidth={fixed(width + 2)} /><path className={styles.roadTop} d={d} strokeWidth={fixed(width)} /><path className={styles.roadMiddle} d={d} /></g>;
}

/** The line that the road begins at; where the way in is not drawn, the road behind it. */
function RoadSide({ edge: [a, b], draft, page, size, drawn }: { readonly edge: readonly [Point, Point]; readonly draft: Draft; readonly page: ToPage; readonly size: PageSize; readonly drawn: boolean }) {
  if (a[0] === b[0] && a[1] === b[1]) return null;
  const box = { x: 0, y: 0, w: size.w, h: size.h - FOOT };
  const area = drawn ? cutAway(box, page(a), page(b), page(centroid(draft.pad.outline))) : [];
  const line = lineThrough(box, page(a), page(b));
  return (
    <g>
      {area.length > 2 && <g><polygon className={plan.road} points={pointsOf(area)} /><polygon fill="url(#edit-road)" points={pointsOf(area)} /></g>}
      <line className={plan.roadEdge} {...ends(line)} />
    </g>
  );
}

/** The line that rigs stand along, and the line of the entry edge: where the two numbers of a place count from. */
function Axes({ page, size }: { readonly page: ToPage; readonly size: PageSize }) {
  const [ox, oy] = page([0, 0]);
  return <g><line className={styles.axis} x1={fixed(ox)} y1="0" x2={fixed(ox)} y2={size.h - FOOT} /><line className={styles.axis} x1="0" y1={fixed(oy)} x2={size.w} y2={fixed(oy)} /><circle className={styles.origin} cx={fixed(ox)} cy={fixed(oy)} r="3" /></g>;
}

function Obstacles({ draft, things, page, scale }: { readonly draft: Draft; readonly things: readonly Thing[]; readonly page: ToPage; readonly scale: number }) {
  const shapes = things.map((thing) => shapeOf(draft, thing, page, scale));
  return <g>{shapes.map((shape, i) => <ObstacleMark key={i} shape={shape} id="edit" />)}{shapes.map((shape, i) => shape.type === "tree" && shape.crown.r > 0 && <path key={`crown ${i}`} className={plan.crown} d={scallop(shape.crown)} />)}</g>;
}

function shapeOf(draft: Draft, thing: Thing, page: ToPage, scale: number): ObstacleShape {
  const id = thing.path.join(), kind = String(readAt(draft, [...thing.path, "kind"]) ?? "");
  const points = pointsOfThing(draft, thing).map(page), long = (field: string) => Math.max(0, Number(readAt(draft, [...thing.path, field]) ?? 0)) * scale;
  const at = points[0] ?? page([0, 0]);
  if (thing.shape === "ring") return { type: "outline", id, kind, points };
  return kind === "tree" ? { type: "tree", id, trunk: { at, r: long("trunkRadius") }, crown: { at, r: long("crownRadius") } } : { type: "disc", id, kind, disc: { at, r: Math.max(long("radius"), 1.5) } };
}

function Hookups({ draft, things, page, scale, size }: { readonly draft: Draft; readonly things: readonly Thing[]; readonly page: ToPage; readonly scale: number; readonly size: PageSize }) {
  const symbols = hookupSymbols(draft, viewFrom(page, scale, size), size);
  return <g>{things.map((thing, i) => {
    const hookup = draft.hookups![i]!;
    return <HookupMark key={thing.path.join()} hookup={{ id: hookup.id, kind: hookup.kind, at: page(hookup.at), symbol: symbols[i]!, post: (hookup.postRadius ?? 0) * scale }} />;
  })}</g>;
}

/** The view that a placing of points on the page comes from. */
function viewFrom(page: ToPage, scale: number, { w, h }: PageSize): View {
  const [ox, oy] = page([0, 0]);
  return { scale, middle: [(oy - (h - FOOT) / 2) / scale, (ox - w / 2) / scale] };
}

function Foot({ draft, view, size: { w, h }, units }: GroundProps) {
  const bar = scaleBarFor(view.scale, units);
  return (
    <g>
      <rect className={styles.foot} x="0" y={h - FOOT} width={w} height={FOOT} />
      <line className={styles.footLine} x1="0" y1={h - FOOT} x2={w} y2={h - FOOT} />
      <ScaleBar bar={{ at: [16, h - 14], length: bar.mm * view.scale, steps: bar.steps, text: bar.text }} />
      {draft.place && <NorthArrow north={{ at: [w - 30, h - 22], turn: -draft.place.bearing }} />}
    </g>
  );
}

function cross([x, y]: PagePoint): string {
  return `M${fixed(x - 4)} ${fixed(y)}h8M${fixed(x)} ${fixed(y - 4)}v8`;
}

function ends([[x1, y1], [x2, y2]]: readonly [PagePoint, PagePoint]) {
  return { x1: fixed(x1), y1: fixed(y1), x2: fixed(x2), y2: fixed(y2) };
}

