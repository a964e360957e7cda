import type { ReactElement } from "react";
import { catalogueOf } from "@/lib/wording";
import { Dim, Ground, Say, Sheet, TrailerRear, TrailerSide, TrailerTop, Witness } from "./ink";
import styles from "./drawings.module.css";

/** Where to hold the tape, by the id of the measurement. */
export function TapeDrawing({ id }: { readonly id: string }) {
  const Drawing = DRAWINGS[id];
  return Drawing ? <Drawing /> : null;
}

const DRAWINGS: Readonly<Record<string, () => ReactElement>> = {
  "tape-length": Length,
  "tape-height": Height,
  "tape-width": Width,
  "tape-slide": SlideOut,
  "tape-wheels": Wheels,
  "tape-inlets": Inlets,
  "tape-cord": Cord,
  "tape-blocks": Blocks,
};

function Length() {
  const { length } = catalogueOf().learn.drawings;
  return (
    <Sheet words={length} height={176}>
      <Ground y={112} />
      <TrailerSide x={48} y={112} length={216} />
      <rect className={styles.open} x="40" y="84" width="8" height="14" />
      <Witness d="M294 100V164M264 100V142M40 98V164" />
      <Dim from={[264, 134]} to={[294, 134]} />
      <Say x={256} y={134} anchor="end" tone="accentText">{length.hitch}</Say>
      <Dim from={[40, 158]} to={[294, 158]} />
      <Say x={167} y={158} tone="accentText">{length.length}</Say>
    </Sheet>
  );
}

function Height() {
  const { height } = catalogueOf().learn.drawings;
  return (
    <Sheet words={height} height={170}>
      <Ground y={156} />
      <TrailerRear x={150} y={156} />
      <rect className={styles.open} x="126" y="26" width="102" height="6" />
      <Dim from={[220, 32]} to={[220, 156]} text={height.height} dx={10} dy={0} anchor="start" />
      <Say x={236} y={20} anchor="start">{height.board}</Say>
    </Sheet>
  );
}

function Width() {
  const { width } = catalogueOf().learn.drawings;
  return (
    <Sheet words={width} height={176}>
      <Ground y={162} />
      <TrailerRear x={170} y={162} />
      <Witness d="M128 46V24M212 46V24" />
      <Dim from={[128, 28]} to={[212, 28]} text={width.width} dy={-14} />
    </Sheet>
  );
}

function SlideOut() {
  const { slide } = catalogueOf().learn.drawings;
  return (
    <Sheet words={slide} height={186}>
      <TrailerTop x={50} y={136} length={210} />
      <rect className={styles.part} x="120" y="78" width="84" height="27" />
      <Say x={82} y={136}>{slide.rear}</Say><Say x={214} y={136}>{slide.front}</Say>
      <Witness d="M50 104V24M120 77V52M204 77V24" />
      <Dim from={[50, 58]} to={[120, 58]} text={slide.start} dy={-12} />
      <Dim from={[50, 30]} to={[204, 30]} text={slide.end} dy={-13} />
      <Dim from={[218, 78]} to={[218, 105]} text={slide.out} dx={10} dy={0} anchor="start" />
      <Witness d="M205 78H218" />
    </Sheet>
  );
}

function Wheels() {
  const { wheels } = catalogueOf().learn.drawings;
  return (
    <Sheet words={wheels} height={166}>
      <TrailerTop x={50} y={64} length={210} width={72} />
      {[142, 168].flatMap((x) => [32, 88].map((y) => <rect key={`${x}-${y}`} className={styles.ink} x={x - 11} y={y} width="22" height="8" />))}
      {[36, 92].map((y) => <rect key={y} className={styles.open} x="62" y={y - 4} width="8" height="8" />)}
      <rect className={styles.open} x="276" y="60" width="8" height="8" />
      <Witness d="M50 101V156M66 96V132M142 96V156" />
      <Dim from={[50, 124]} to={[66, 124]} /><Say x={74} y={124} anchor="start" tone="accentText">{wheels.jack}</Say>
      <Dim from={[50, 150]} to={[142, 150]} /><Say x={150} y={150} anchor="start" tone="accentText">{wheels.wheel}</Say>
      <Dim from={[168, 36]} to={[168, 92]} text={wheels.across} dx={8} dy={0} anchor="start" />
    </Sheet>
  );
}

/** Seen from the left side, where most inlets are: the rear is at the right. */
function Inlets() {
  const { inlets } = catalogueOf().learn.drawings;
  return (
    <Sheet words={inlets} height={160}>
      <Ground y={112} />
      <TrailerSide x={292} y={112} length={216} mirrored />
      <circle className={styles.dot} cx="262" cy="86" r="4.5" />
      <Dim from={[240, 86]} to={[240, 112]} text={inlets.up} dx={-8} dy={0} anchor="end" />
      <Witness d="M258 86H240M262 90V150M292 96V150" />
      <Dim from={[262, 144]} to={[292, 144]} />
      <Say x={254} y={144} anchor="end" tone="accentText">{inlets.along}</Say>
    </Sheet>
  );
}

function Cord() {
  const { cord } = catalogueOf().learn.drawings;
  return (
    <Sheet words={cord} height={92}>
      <path className={styles.cord} d="M44 30H296" />
      <rect className={styles.ink} x="30" y="22" width="18" height="16" /><path className={styles.thick} d="M22 26h8M22 34h8" />
      <rect className={styles.open} x="292" y="21" width="20" height="18" />
      <Witness d="M22 40V66M312 40V66" />
      <Dim from={[22, 60]} to={[312, 60]} text={cord.length} dy={16} />
    </Sheet>
  );
}

function Blocks() {
  const { blocks } = catalogueOf().learn.drawings;
  return (
    <Sheet words={blocks} height={146}>
      <Ground y={130} />
      <circle className={styles.body} cx="150" cy="62" r="40" /><circle className={styles.line} cx="150" cy="62" r="16" />
      {[102, 111, 120].map((y, i) => <rect key={y} className={styles.open} x={114 - 10 * i} y={y} width={72 + 20 * i} height="9" />)}
      <Witness d="M188 102H236M208 130H236" />
      <Dim from={[230, 102]} to={[230, 130]} text={blocks.lift} dx={10} dy={0} anchor="start" />
    </Sheet>
  );
}
