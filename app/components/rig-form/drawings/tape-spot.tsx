import type { Inlet, Rig, RigPart } from "@/lib/rig";
import type { What } from "../fields";
import { Frame, Tape, Witness } from "./frame";
import { Blocks, CarSide, FRONT_AXLE, Hose, REAR_AXLE, RearView, TurningCircle } from "./ink";
import { GroundLine, RigSide } from "./rig-side";
import styles from "./drawings.module.css";

interface Spot {
  readonly rig: Rig;
  readonly label: string;
  readonly part?: RigPart;
  readonly inlet?: Inlet;
}

/** Where to hold the tape for one number, drawn on the guest's own rig. */
export function TapeSpot({ what, ...spot }: Spot & { readonly what: What }) {
  const { rig, label, part, inlet } = spot;
  switch (what) {
    case "length": return <Along {...spot} from={0} to={rig.body.length + (rig.hitch?.length ?? 0)} />;
    case "hitch": return <Along {...spot} from={rig.body.length} to={rig.body.length + (rig.hitch?.length ?? 0)} />;
    case "height": return <Up {...spot} from={0} to={rig.body.height} />;
    case "floor": return <Up {...spot} from={0} to={rig.body.floor} />;
    case "width": return <Across {...spot} />;
    case "start": case "end": return part ? <OnWall {...spot} side={part.side} span={part.span} from={part.from} to={part.to} end={what === "end"} /> : null;
    case "depth": return part ? <Out {...spot} part={part} /> : null;
    case "from": case "to": return part ? <Raised {...spot} part={part} to={what === "to" ? part.to : part.from} /> : null;
    case "inletAt": case "inletHeight": return inlet ? <Plug {...spot} inlet={inlet} up={what === "inletHeight"} /> : null;
    case "powerCord": case "waterHose": case "sewerHose": return <Hose what={what} label={label} />;
    case "liftSide": case "liftAlong": return <Blocks rig={rig} along={what === "liftAlong"} label={label} />;
    case "towLength": return <CarSide length={rig.tow?.length ?? 5000} label={label} />;
    case "wheelbase": return <CarSide length={rig.tow?.length ?? 5000} label={label} tape={[REAR_AXLE, FRONT_AXLE]} />;
    case "hitchBehind": return <CarSide length={rig.tow?.length ?? 5000} label={label} tape={[0, REAR_AXLE]} />;
    case "turningCircle": return <TurningCircle label={label} />;
  }
}

interface Extent {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly tick: number;
}

/** Round the whole rig, with room for a tape below and behind; centimetres. */
function extentOf({ body, hitch, kind }: Rig): Extent {
  const wings = kind === "folding-trailer" ? 120 : 0;
  const length = (body.length + (hitch?.length ?? 0)) / 10;
  return { left: -Math.max(wings, kind === "toy-hauler" ? 160 : 20) - 20, right: Math.max(length, body.length / 10 + wings) + 30, top: -body.height / 10 - 20, tick: length / 36 };
}

function Along({ rig, label, from, to }: Spot & { readonly from: number; readonly to: number }) {
  const { left, right, top, tick } = extentOf(rig), below = 3.4 * tick;
  return (
    <Frame box={[left, top, right, below + tick + 4]} label={label}>
      <line className={styles.ground} x1={left} y1={0} x2={right} y2={0} />
      <g className={styles.faint}><RigSide rig={rig} /></g>
      {[from, to].map((u, i) => <Witness key={i} from={[u / 10, -rig.body.floor / 10]} to={[u / 10, below]} />)}
      <Tape from={[from / 10, below]} to={[to / 10, below]} tick={tick} />
    </Frame>
  );
}

function Up({ rig, label, from, to }: Spot & { readonly from: number; readonly to: number }) {
  const { left, right, top, tick } = extentOf(rig), x = left - 2.4 * tick;
  return (
    <Frame box={[x - 2 * tick, top, right, 20]} label={label}>
      <GroundLine x0={x - 2 * tick} x1={right} />
      <g className={styles.faint}><RigSide rig={rig} /></g>
      <Witness from={[x, -to / 10]} to={[rig.body.length / 20, -to / 10]} />
      <Tape from={[x, -from / 10]} to={[x, -to / 10]} tick={tick} />
    </Frame>
  );
}

function Across({ rig, label }: Spot) {
  const half = rig.body.width / 20, top = -rig.body.height / 10, y = top - 34;
  return (
    <Frame box={[-half - 130, y - 20, half + 130, 20]} label={label}>
      <GroundLine x0={-half - 130} x1={half + 130} />
      <g className={styles.faint}><RearView rig={rig} /></g>
      {[-half, half].map((x) => <Witness key={x} from={[x, y]} to={[x, top / 2]} />)}
      <Tape from={[-half, y]} to={[half, y]} tick={14} />
    </Frame>
  );
}

interface WallProps extends Spot {
  readonly side: RigPart["side"];
  readonly span: readonly [number, number];
  readonly from: number;
  readonly to: number;
  readonly end: boolean;
}

/** A part on its wall, seen from outside that wall: the front is at the left on the driver's side. */
function OnWall({ rig, label, side, span, from, to, end }: WallProps) {
  if (side === "rear" || side === "front") return <OnEndWall rig={rig} label={label} side={side} span={span} from={from} to={to} end={end} />;
  const { left, right, top, tick } = extentOf(rig), below = 3.4 * tick, mirror = side === "left" ? -1 : 1;
  const at = (end ? span[1] : span[0]) / 10;
  const box = mirror < 0 ? [-right, -left] as const : [left, right] as const;
  return (
    <Frame box={[box[0], top, box[1], below + tick + 4]} label={label}>
      <line className={styles.ground} x1={box[0]} y1={0} x2={box[1]} y2={0} />
      <g transform={mirror < 0 ? "scale(-1 1)" : undefined}>
        <g className={styles.faint}><RigSide rig={rig} plain /></g>
        <rect className={styles.out} x={span[0] / 10} y={-to / 10} width={(span[1] - span[0]) / 10} height={(to - from) / 10} />
        {[0, at].map((x, i) => <Witness key={i} from={[x, -60]} to={[x, below]} />)}
        <Tape from={[0, below]} to={[at, below]} tick={tick} />
      </g>
    </Frame>
  );
}

/** From behind the driver's side is at the left, from the front at the right. */
function OnEndWall({ rig, label, side, span, from, to, end }: WallProps) {
  const half = rig.body.width / 20, mirror = side === "rear" ? 1 : -1, below = 30;
  const x = (v: number) => (-v / 10) * mirror;
  const at = x(end ? span[0] : span[1]);
  return (
    <Frame box={[-half - 130, -rig.body.height / 10 - 10, half + 130, below + 20]} label={label}>
      <line className={styles.ground} x1={-half - 130} y1={0} x2={half + 130} y2={0} />
      <g className={styles.faint}><RearView rig={rig} /></g>
      <rect className={styles.out} x={Math.min(x(span[0]), x(span[1]))} y={-to / 10} width={(span[1] - span[0]) / 10} height={(to - from) / 10} />
      <Witness from={[-half * mirror, -40]} to={[-half * mirror, below]} />
      <Witness from={[at, -40]} to={[at, below]} />
      <Tape from={[-half * mirror, below]} to={[at, below]} tick={12} />
    </Frame>
  );
}

/** From above: the body, and the part standing out of it. */
function Out({ rig, label, part }: Spot & { readonly part: RigPart }) {
  const long = rig.body.length / 10, half = rig.body.width / 20, deep = part.depth / 10, [a, b] = [part.span[0] / 10, part.span[1] / 10];
  const onSide = part.side === "left" || part.side === "right", mirror = part.side === "left" ? -1 : 1;
  const tick = long / 40;
  // Driver's side up, rear at the left.
  const rect = onSide ? { x: a, y: mirror < 0 ? -half - deep : half, width: b - a, height: deep } : { x: part.side === "rear" ? -deep : long, y: -b, width: deep, height: b - a };
  const tape = onSide
    ? { from: [b + 3 * tick, half * mirror], to: [b + 3 * tick, (half + deep) * mirror] } as const
    : { from: [rect.x, -b - 3 * tick], to: [rect.x + deep, -b - 3 * tick] } as const;
  const margin = Math.max(deep, 60) + 30;
  return (
    <Frame box={[-margin, -half - margin, long + margin, half + margin]} label={label}>
      <g className={styles.faint}><rect className={styles.body} x={0} y={-half} width={long} height={2 * half} /><path className={styles.thin} d={`M${long - 60} ${-half / 2}L${long - 20} 0L${long - 60} ${half / 2}`} /></g>
      <rect className={styles.out} {...rect} />
      <Tape from={tape.from} to={tape.to} tick={tick} />
    </Frame>
  );
}

/** From behind: how high a part stands above the ground. */
function Raised({ rig, label, part, to }: Spot & { readonly part: RigPart; readonly to: number }) {
  if (part.side === "rear" || part.side === "front") return <RaisedOnEnd rig={rig} label={label} part={part} to={to} />;
  const half = rig.body.width / 20, deep = Math.min(part.depth / 10, 160);
  const mirror = part.side === "left" ? -1 : 1, edge = (half + deep) * mirror, x = edge + 26 * mirror;
  const [x0, x1] = mirror < 0 ? [x - 30, half + 80] : [-half - 80, x + 30];
  return (
    <Frame box={[x0, -rig.body.height / 10 - 10, x1, 20]} label={label}>
      <GroundLine x0={x0} x1={x1} />
      <g className={styles.faint}><RearView rig={rig} /></g>
      <rect className={styles.out} x={Math.min(half * mirror, edge)} y={-part.to / 10} width={deep} height={Math.max(4, (part.to - part.from) / 10)} />
      <Witness from={[edge, -to / 10]} to={[x, -to / 10]} />
      <Tape from={[x, 0]} to={[x, -to / 10]} tick={12} />
    </Frame>
  );
}

/** The same from the side, for what stands out at an end. */
function RaisedOnEnd({ rig, label, part, to }: Spot & { readonly part: RigPart; readonly to: number }) {
  const { left, right, top, tick } = extentOf(rig), deep = part.depth / 10, long = rig.body.length / 10;
  const rear = part.side === "rear", x = rear ? -deep - 2 * tick : long + deep + 2 * tick;
  const [x0, x1] = [Math.min(left, x - 2 * tick), Math.max(right, x + 2 * tick)];
  return (
    <Frame box={[x0, top, x1, 20]} label={label}>
      <GroundLine x0={x0} x1={x1} />
      <g className={styles.faint}><RigSide rig={rig} plain /></g>
      <rect className={styles.out} x={rear ? -deep : long} y={-part.to / 10} width={deep} height={Math.max(4, (part.to - part.from) / 10)} />
      <Witness from={[rear ? -deep : long + deep, -to / 10]} to={[x, -to / 10]} />
      <Tape from={[x, 0]} to={[x, -to / 10]} tick={tick} />
    </Frame>
  );
}

function Plug({ rig, label, inlet, up }: Spot & { readonly inlet: Inlet; readonly up: boolean }) {
  const { left, right, top, tick } = extentOf(rig);
  const onEnd = inlet.side === "rear" || inlet.side === "front";
  const mirror = inlet.side === "left" ? -1 : 1, half = rig.body.width / 20, below = 3.4 * tick;
  const at = onEnd ? (-(inlet.v ?? 0) / 10) * (inlet.side === "rear" ? 1 : -1) : (inlet.u ?? 0) / 10, high = -inlet.height / 10;
  const wall = onEnd ? -half * (inlet.side === "rear" ? 1 : -1) : 0;
  const [x0, x1] = onEnd ? [-half - 130, half + 130] : mirror < 0 ? [-right, -left] : [left, right];
  const size = onEnd ? 12 : tick;
  return (
    <Frame box={[x0, top, x1, below + size + 4]} label={label}>
      <line className={styles.ground} x1={x0} y1={0} x2={x1} y2={0} />
      <g transform={!onEnd && mirror < 0 ? "scale(-1 1)" : undefined}>
        <g className={styles.faint}>{onEnd ? <RearView rig={rig} /> : <RigSide rig={rig} plain />}</g>
        {up ? <Tape from={[at, 0]} to={[at, high]} tick={size} /> : <><Witness from={[wall, high]} to={[wall, below]} /><Witness from={[at, high]} to={[at, below]} /><Tape from={[wall, below]} to={[at, below]} tick={size} /></>}
        <circle className={styles.dot} cx={Math.round(at)} cy={Math.round(high)} r={Math.round(size * 1.1)} />
      </g>
    </Frame>
  );
}
