import { catalogueOf } from "@/lib/wording";
import { Dim, Ground, Say, Sheet, TrailerDown, TrailerSide, TrailerTop, Witness, WIDE } from "./ink";
import styles from "./drawings.module.css";

/** An arrow along an axis of a frame, its letter beyond the head. */
function Axis({ from: [x, y], to: [x1, y1], name }: { readonly from: readonly [number, number]; readonly to: readonly [number, number]; readonly name: string }) {
  const length = Math.hypot(x1 - x, y1 - y), ux = (x1 - x) / length, uy = (y1 - y) / length;
  const head = `M${x1 - 9 * ux + 4 * uy} ${y1 - 9 * uy - 4 * ux}L${x1} ${y1}L${x1 - 9 * ux - 4 * uy} ${y1 - 9 * uy + 4 * ux}`;
  return (
    <g>
      <path className={styles.measure} d={`M${x} ${y}L${x1} ${y1}${head}`} />
      <Say x={x1 + 11 * ux} y={y1 + 11 * uy} tone="axisText">{name}</Say>
    </g>
  );
}

export function SiteFrame() {
  const { siteFrame } = catalogueOf().learn.drawings;
  return (
    <Sheet words={siteFrame} height={270}>
      <path className={styles.road} d={`M0 190L${WIDE} 250V270H0Z`} />
      <path className={styles.lot} d="M76 14H270V237.6L76 203.4Z" />
      <path className={styles.pad} d="M134 44H212V200L224 229.5L122 211.5L134 196Z" />
      <line className={styles.thick} x1="0" y1="190" x2={WIDE} y2="250" />
      <Axis from={[173, 220]} to={[173, 74]} name="x" />
      <Axis from={[173, 220]} to={[62, 220]} name="y" />
      <circle className={styles.dot} cx="173" cy="220" r="5" />
      <Say x={184} y={238} anchor="start">{siteFrame.origin}</Say>
      <Say x={194} y={56}>{siteFrame.pad}</Say>
      <Say x={250} y={26}>{siteFrame.lot}</Say>
      <Say x={286} y={258}>{siteFrame.road}</Say>
    </Sheet>
  );
}

export function RigFrame() {
  const { rigFrame } = catalogueOf().learn.drawings;
  return (
    <Sheet words={rigFrame} height={318}>
      <TrailerTop x={60} y={108} length={190} />
      <rect className={styles.part} x="128" y="50" width="80" height="27" />
      <Axis from={[60, 108]} to={[306, 108]} name="u" />
      <Axis from={[60, 108]} to={[60, 34]} name="v" />
      <circle className={styles.dot} cx="60" cy="108" r="5" />
      <Witness d="M128 49V24M208 49V24M209 50H224" />
      <Dim from={[128, 28]} to={[208, 28]} text={rigFrame.span} dy={-13} />
      <Dim from={[220, 50]} to={[220, 77]} text={rigFrame.depth} dx={9} dy={0} anchor="start" />
      <Say x={222} y={124}>{rigFrame.front}</Say>

      <Ground x0={58} x1={296} y={288} />
      <TrailerSide x={80} y={288} length={170} height={64} />
      <Axis from={[80, 288]} to={[80, 180]} name="w" />
      <Axis from={[80, 288]} to={[306, 288]} name="u" />
      <Witness d="M150 200H42M80 272H60" />
      <Dim from={[48, 200]} to={[48, 288]} /><Say x={10} y={186} anchor="start" tone="accentText">{rigFrame.height}</Say>
      <Dim from={[66, 272]} to={[66, 288]} /><Say x={10} y={306} anchor="start" tone="accentText">{rigFrame.floor}</Say>
    </Sheet>
  );
}

export function Headings() {
  const { headings } = catalogueOf().learn.drawings;
  return (
    <Sheet words={headings} height={230}>
      <rect className={styles.road} x="0" y="176" width={WIDE} height="54" />
      <line className={styles.thick} x1="0" y1="176" x2={WIDE} y2="176" />
      {[92, 248].map((x) => <path key={x} className={styles.pad} d={`M${x - 32} 8H${x + 32}V176H${x - 32}Z`} />)}
      <TrailerDown x={92} y={22} length={118} width={42} />
      <g transform="translate(248 0) rotate(180 0 90)"><TrailerDown x={0} y={22} length={118} width={42} /></g>
      <circle className={styles.dot} cx="92" cy="22" r="5" /><circle className={styles.dot} cx="248" cy="158" r="5" />
      <Say x={92} y={194} tone="accentText">{headings.tailIn}</Say><Say x={248} y={194} tone="accentText">{headings.noseIn}</Say>
      <Say x={170} y={214}>{headings.road}</Say>
    </Sheet>
  );
}

/** The two bands that decide whether a part and an obstacle can meet at all. */
export function Heights() {
  const { heights } = catalogueOf().learn.drawings;
  return (
    <Sheet words={heights} height={250}>
      <Ground y={232} />
      <path className={styles.line} d="M20 44C50 30 66 50 96 40C130 28 150 48 186 42C206 38 220 48 236 38" />
      <Say x={128} y={20}>{heights.crown}</Say>
      <rect className={styles.body} x="60" y="120" width="140" height="62" />
      <Say x={130} y={151}>{heights.part}</Say>
      <rect className={styles.dashed} x="60" y="96" width="140" height="24" />
      <rect className={styles.dashed} x="60" y="66" width="140" height="30" />
      <rect className={styles.dashed} x="60" y="182" width="140" height="16" />
      <path className={styles.open} d="M100 232l6-20 22-6 18 10 6 16Z" /><Say x={168} y={220} anchor="start">{heights.rock}</Say>
      <Dim from={[214, 96]} to={[214, 120]} text={heights.lift} dx={10} dy={0} anchor="start" />
      <Dim from={[214, 66]} to={[214, 96]} text={heights.above} dx={10} dy={0} anchor="start" />
      <Dim from={[214, 182]} to={[214, 198]} text={heights.below} dx={10} dy={0} anchor="start" />
    </Sheet>
  );
}
