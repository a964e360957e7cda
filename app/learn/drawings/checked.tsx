import type { Policy } from "@/lib/fit/policy";
import { catalogueOf, numbersFor } from "@/lib/wording";
import type { Units } from "@/lib/measure";
import { Dim, Ground, Say, Sheet, TrailerDown, TrailerRear, TrailerSide, Tree, Witness, WIDE } from "./ink";
import styles from "./drawings.module.css";

/** One drawing for each thing that is checked, by the id of its heading. Water, vehicle and rules need none. */
export function CheckDrawing({ id, units, policy }: { readonly id: string; readonly units: Units; readonly policy: Policy }) {
  switch (id) {
    case "stands": return <Stands />;
    case "above": return <Above />;
    case "opens": return <Opens />;
    case "ground": return <OnPad />;
    case "runs": return <Run units={units} />;
    case "sewer": return <Sewer />;
    case "power": return <Power policy={policy} />;
    case "level": return <Level />;
    default: return null;
  }
}

/** The road along the bottom, hatched. */
function Road({ y, height }: { readonly y: number; readonly height: number }) {
  return (
    <g>
      <rect className={styles.road} x="0" y={y} width={WIDE} height={height - y} />
      <line className={styles.thick} x1="0" y1={y} x2={WIDE} y2={y} />
    </g>
  );
}

function Stands() {
  const { stands, ground, opens } = catalogueOf().learn.drawings;
  return (
    <Sheet words={stands} height={250}>
      <Road y={216} height={250} />
      <path className={styles.pad} d="M122 12H228V190L240 216H110L122 190Z" />
      {[[150, 24], [200, 20], [196, 52], [156, 44]].map(([x, y]) => <TrailerDown key={x} x={x!} y={y!} ghost />)}
      <TrailerDown x={176} y={36} />
      <Tree x={80} y={70} r={34} />
      <circle className={styles.ink} cx="246" cy="60" r="5" />
      <Dim from={[114, 70]} to={[153, 70]} />
      <Dim from={[199, 60]} to={[241, 60]} />
      <Say x={256} y={60} anchor="start">{opens.post}</Say>
      <Say x={176} y={176 + 30}>{ground.pad}</Say>
      <Say x={170} y={234}>{ground.road}</Say>
    </Sheet>
  );
}

function Above() {
  const { above } = catalogueOf().learn.drawings;
  return (
    <Sheet words={above} height={200}>
      <Ground y={184} />
      <TrailerSide x={26} y={184} length={170} height={64} />
      <path className={styles.line} d="M300 184C296 140 302 110 298 30M312 184C312 140 310 110 314 30" />
      <path className={styles.line} d="M298 92C270 70 230 84 178 70C166 66 150 72 140 64C150 52 168 58 180 54C220 44 262 62 299 66" />
      <circle className={styles.ink} cx="40" cy="20" r="4" />
      <Dim from={[40, 26]} to={[40, 103]} text={above.free} dx={9} dy={-14} anchor="start" />
      <Dim from={[182, 75]} to={[182, 103]} text={above.free} dx={9} dy={4} anchor="start" />
      <Say x={52} y={20} anchor="start">{above.wire}</Say>
      <Say x={222} y={34}>{above.limb}</Say>
    </Sheet>
  );
}

function Opens() {
  const { opens } = catalogueOf().learn.drawings;
  return (
    <Sheet words={opens} height={206}>
      <TrailerDown x={186} y={12} length={160} width={56} />
      <rect className={styles.part} x="214" y="70" width="24" height="70" />
      <rect className={styles.part} x="138" y="126" width="20" height="22" />
      <rect className={styles.thin} x="104" y="48" width="54" height="100" />
      <path className={styles.hatch} d={Array.from({ length: 12 }, (_, i) => `M104 ${56 + 8 * i}h54`).join("")} />
      <circle className={styles.ink} cx="266" cy="90" r="6" />
      <circle className={styles.open} cx="30" cy="72" r="13" /><circle className={styles.thin} cx="30" cy="72" r="8" />
      <Dim from={[238, 90]} to={[260, 90]} />
      <Dim from={[43, 72]} to={[104, 72]} />
      <Say x={278} y={90} anchor="start">{opens.post}</Say>
      <Say x={246} y={152} anchor="start">{opens.slide}</Say>
      <Say x={131} y={36}>{opens.awning}</Say>
      <Say x={44} y={102}>{opens.fire}</Say>
      <Say x={96} y={166}>{opens.steps}</Say>
    </Sheet>
  );
}

function OnPad() {
  const { ground } = catalogueOf().learn.drawings;
  const bar = (x: number, y: number) => <rect key={`${x}-${y}`} className={styles.ink} x={x} y={y} width="7" height="22" />;
  const jack = (x: number, y: number) => <rect key={`${x}-${y}`} className={styles.open} x={x - 4} y={y - 4} width="8" height="8" />;
  return (
    <Sheet words={ground} height={240}>
      <Road y={206} height={240} />
      <path className={styles.pad} d="M116 26H224V186L234 206H106L116 186Z" />
      <TrailerDown x={178} y={16} length={146} width={62} />
      {[70, 96].flatMap((y) => [bar(150, y), bar(199, y)])}
      {jack(154, 34)}{jack(202, 34)}{jack(178, 176)}
      <path className={styles.open} d="M170 116l8-6 10 4 2 9-9 6-10-3Z" />
      <Dim from={[116, 94]} to={[150, 94]} />
      <Dim from={[206, 94]} to={[224, 94]} />
      <Dim from={[178, 182]} to={[178, 206]} />
      <Say x={62} y={94}>{ground.tires}</Say><path className={styles.thin} d="M86 90L148 78" />
      <Say x={62} y={34}>{ground.jack}</Say><path className={styles.thin} d="M82 34H149" />
      <Say x={286} y={132}>{ground.rock}</Say><path className={styles.thin} d="M250 130L191 122" />
      <Say x={132} y={166}>{ground.pad}</Say>
      <Say x={170} y={225}>{ground.road}</Say>
    </Sheet>
  );
}

/** The rear end of a rig cut off at the left, its inlet, the cord and the post. */
export function Run({ units }: { readonly units: Units }) {
  const { drawings: { run }, exampleRun } = catalogueOf().learn;
  const n = numbersFor(units);
  return (
    <Sheet words={run} height={188}>
      <Ground y={140} />
      <path className={styles.body} d="M8 36H86V122H8" />
      <circle className={styles.ink} cx="36" cy="126" r="14" /><circle className={styles.open} cx="36" cy="126" r="5" />
      <rect className={styles.open} x="284" y="72" width="18" height="68" />
      <path className={styles.cord} d="M86 100C94 108 90 124 92 136Q93 138 98 138H276Q281 138 281 132V96Q281 90 288 90" />
      <circle className={styles.dot} cx="86" cy="100" r="4.5" /><circle className={styles.dot} cx="291" cy="90" r="4.5" />
      <Dim from={[106, 100]} to={[106, 138]} text={run.drop} dx={9} dy={-8} anchor="start" />
      <Say x={115} y={127} anchor="start">{n.measured(exampleRun.drop)}</Say>
      <Witness d="M90 100H106M291 90H262" />
      <Dim from={[92, 156]} to={[281, 156]} />
      <Say x={182} y={172} anchor="end" tone="accentText">{run.path}</Say><Say x={190} y={172} anchor="start">{n.measured(exampleRun.path)}</Say>
      <Dim from={[262, 90]} to={[262, 138]} text={run.climb} dx={-9} dy={-12} anchor="end" />
      <Say x={253} y={119} anchor="end">{n.measured(exampleRun.climb)}</Say>
      <Say x={186} y={84}>{run.cord}</Say>
    </Sheet>
  );
}

export function Sewer() {
  const { sewer } = catalogueOf().learn.drawings;
  return (
    <Sheet words={sewer} height={244}>
      <Say x={12} y={16} anchor="start">{sewer.yes}</Say>
      <path className={styles.body} d="M8 34H96V72H8" />
      <circle className={styles.ink} cx="40" cy="80" r="12" /><circle className={styles.open} cx="40" cy="80" r="4" />
      <Ground y={92} y1={104} />
      <rect className={styles.open} x="258" y="95" width="16" height="12" />
      <path className={styles.hoseOuter} d="M96 74L266 95" /><path className={styles.hoseInner} d="M96 74L266 95" />
      <path className={styles.measure} d="M150 66l34 4m-7-5l7 5-8 3" />
      <Say x={104} y={58} anchor="start">{sewer.outlet}</Say>
      <Say x={282} y={84} anchor="start">{sewer.drain}</Say>

      <line className={styles.dashed} x1="0" y1="122" x2={WIDE} y2="122" />
      <Say x={12} y={138} anchor="start">{sewer.no}</Say>
      <path className={styles.body} d="M8 156H96V194H8" />
      <circle className={styles.ink} cx="40" cy="202" r="12" /><circle className={styles.open} cx="40" cy="202" r="4" />
      <Ground x1={180} y={214} /><Ground x0={180} x1={240} y={214} y1={176} /><Ground x0={240} y={176} />
      <rect className={styles.open} x="258" y="168" width="16" height="12" />
      <path className={styles.hoseOuter} d="M96 196L176 208L266 168" /><path className={styles.hoseInner} d="M96 196L176 208L266 168" />
      <path className={styles.measure} d="M190 164l24 24m0-24l-24 24" />
      <Say x={104} y={180} anchor="start">{sewer.outlet}</Say>
      <Say x={282} y={158} anchor="start">{sewer.drain}</Say>
    </Sheet>
  );
}

function Power({ policy }: { readonly policy: Policy }) {
  const { drawings: { power }, exampleLoads } = catalogueOf().learn;
  const left = 12, each = 8.8, limit = 30 * policy.continuous;
  const bar = (y: number, loads: readonly (keyof typeof exampleLoads)[]) => {
    let used = 0;
    return loads.map((load) => {
      const x = left + used * each, wide = exampleLoads[load] * each;
      used += exampleLoads[load];
      return (
        <g key={`${y}-${load}`}>
          <rect className={styles.part} x={x} y={y} width={wide} height="36" />
          <Say x={x + wide / 2} y={y + 12}>{power[load]}</Say>
          <Say x={x + wide / 2} y={y + 26}>{power.amps(exampleLoads[load])}</Say>
        </g>
      );
    });
  };
  const edge = left + limit * each;
  return (
    <Sheet words={power} height={150}>
      {bar(38, ["air", "coffee"])}
      {bar(92, ["air", "coffee", "microwave"])}
      <path className={styles.measure} d={`M${edge} 28V140`} />
      <Say x={edge} y={16} tone="accentText">{power.limit(Math.round(limit * 10) / 10)}</Say>
    </Sheet>
  );
}

function Level() {
  const { level } = catalogueOf().learn.drawings;
  return (
    <Sheet words={level} height={180}>
      <Ground y={136} y1={170} x0={40} x1={300} />
      <TrailerRear x={170} y={151} width={104} />
      <rect className={styles.open} x="198" y="151" width="26" height="7" /><rect className={styles.open} x="196" y="158" width="30" height="5" />
      <line className={styles.dashed} x1="60" y1="84" x2="280" y2="84" />
      <Say x={60} y={72} anchor="start">{level.level}</Say>
      <Dim from={[240, 151]} to={[240, 162]} text={level.lift} dx={10} dy={-4} anchor="start" />
      <Say x={252} y={128} anchor="start">{level.blocks}</Say><path className={styles.thin} d="M250 130L226 152" />
    </Sheet>
  );
}
