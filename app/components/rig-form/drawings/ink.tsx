import type { Rig } from "@/lib/rig";
import { Frame, Tape, Witness } from "./frame";
import { GroundLine } from "./rig-side";
import styles from "./drawings.module.css";

/** The rig from behind, its wheels on y = 0 and its middle at x = 0; centimetres. The driver's side is at the left. */
export function RearView({ rig: { body, supports }, lift = 0 }: { readonly rig: Rig; readonly lift?: number }) {
  const half = body.width / 20, top = -body.height / 10, floor = -body.floor / 10;
  const wheels = Math.max(...supports.filter((s) => s.kind === "tyre").map((s) => Math.abs(s.at[1]))) / 10;
  return (
    <g>
      {[-1, 1].map((side) => <rect key={side} className={styles.tire} x={side * wheels - 14} y={-72 - (side < 0 ? lift : 0)} width={28} height={72} rx={6} />)}
      <rect className={styles.body} x={-half} y={top + 26} width={2 * half} height={floor - top - 32} rx={12} />
      <rect className={styles.panel} x={-36} y={top} width={72} height={26} rx={6} />
      <rect className={styles.glass} x={-half * 0.55} y={top + 80} width={half * 1.1} height={68} rx={8} />
    </g>
  );
}

/** A cord or hose laid out straight, its ends as what they are known by. */
export function Hose({ what, label }: { readonly what: "powerCord" | "waterHose" | "sewerHose"; readonly label: string }) {
  return (
    <Frame box={[0, 0, 240, 96]} label={label}>
      <path className={what === "sewerHose" ? styles.drain : styles.cord} d="M34 34C74 12 110 56 146 34S196 26 206 34" />
      {what === "powerCord" && <><rect className={styles.block} x={14} y={24} width={22} height={20} rx={3} /><path className={styles.cord} d="M6 29h8M6 39h8" /><rect className={styles.block} x={204} y={23} width={26} height={22} rx={10} /></>}
      {what === "waterHose" && <><rect className={styles.block} x={18} y={27} width={18} height={14} /><rect className={styles.block} x={204} y={26} width={20} height={16} rx={3} /></>}
      {what === "sewerHose" && <><path className={styles.block} d="M14 22h22v24h-22z" /><path className={styles.block} d="M204 22h16v36h-16z" /></>}
      <Witness from={[8, 46]} to={[8, 74]} /><Witness from={[230, 46]} to={[230, 74]} />
      <Tape from={[8, 74]} to={[230, 74]} tick={7} />
    </Frame>
  );
}

/** A wheel on a stack of blocks, or a jack foot on one. */
export function Blocks({ rig, along, label }: { readonly rig: Rig; readonly along: boolean; readonly label: string }) {
  const high = 46;
  if (!along) {
    const half = rig.body.width / 20;
    return (
      <Frame box={[-half - 110, -rig.body.height / 10 - 60, half + 60, 20]} label={label}>
        <GroundLine x0={-half - 110} x1={half + 60} />
        <g transform="rotate(5)"><g className={styles.faint}><RearView rig={rig} /></g></g>
        {[0, 1].map((i) => <rect key={i} className={styles.block} x={-half + 4 - 12 * i} y={-30 + 15 * i} width={50 + 24 * i} height={15} />)}
        <Tape from={[-half - 50, 0]} to={[-half - 50, -30]} tick={10} />
      </Frame>
    );
  }
  return (
    <Frame box={[0, -130, 200, 20]} label={label}>
      <GroundLine x0={0} x1={200} />
      <path className={styles.body} d="M14 -112H120V-98H14Z" />
      <path className={styles.cord} d={`M84 -124V${-high - 8}`} />
      <path className={styles.cord} d={`M66 ${-high - 4}H102`} />
      {[0, 1, 2].map((i) => <rect key={i} className={styles.block} x={62 - 9 * i} y={-high + 15.3 * i} width={44 + 18 * i} height={15.3} />)}
      <Witness from={[106, -high]} to={[160, -high]} />
      <Tape from={[152, 0]} to={[152, -high]} tick={8} />
    </Frame>
  );
}

/** A car or pickup from its side, as long as told; millimetres. */
/** Where the drawn axles lie, as shares of the length from the rear. */
export const REAR_AXLE = 0.2, FRONT_AXLE = 0.8;

export function CarSide({ length, label, tape = [0, 1] }: { readonly length: number; readonly label: string; readonly tape?: readonly [from: number, to: number] }) {
  const l = Math.min(Math.max(length, 3000), 8000) / 10, truck = l > 520;
  const cab = truck
    ? `M0 -118V-52H${l}V-92L${l * 0.97} -112L${l * 0.74} -122L${l * 0.66} -186H${l * 0.44}L${l * 0.43} -120Z`
    : `M0 -98V-48H${l}V-82L${l * 0.96} -100L${l * 0.74} -108L${l * 0.6} -162H${l * 0.22}L${l * 0.06} -108Z`;
  return (
    <Frame box={[-20, -200, l + 20, 62]} label={label}>
      <line className={styles.ground} x1={-20} y1={0} x2={l + 20} y2={0} />
      <g className={styles.faint}>
        <path className={styles.body} d={cab} />
        {[REAR_AXLE, FRONT_AXLE].map((share) => <circle key={share} className={styles.tire} cx={Math.round(l * share)} cy={-36} r={36} />)}
      </g>
      {tape.map((share) => <Witness key={share} from={[share * l, -50]} to={[share * l, 40]} />)}
      <Tape from={[tape[0] * l, 40]} to={[tape[1] * l, 40]} tick={14} />
    </Frame>
  );
}

/** From above: a vehicle on the smallest circle it can drive, and the circle's width. */
export function TurningCircle({ label }: { readonly label: string }) {
  const r = 130;
  return (
    <Frame box={[-190, -160, 190, 160]} label={label}>
      <circle className={styles.ground} cx={0} cy={0} r={r} fill="none" strokeDasharray="12 8" />
      <g className={styles.faint}><rect className={styles.body} x={r - 38} y={-46} width={36} height={92} rx={6} /></g>
      <Tape from={[-r, 0]} to={[r, 0]} tick={14} />
    </Frame>
  );
}
