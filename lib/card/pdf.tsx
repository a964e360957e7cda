import { Document, Font, G, Page, Polygon, renderToBuffer, StyleSheet, Svg, Text, View } from "@react-pdf/renderer";
import QRCode from "qrcode";
import type { ReactNode } from "react";
import type { FitResult } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { Lendable } from "@/lib/stays";
import { arrival as words } from "@/lib/wording/en/arrival";
import { numbersFor, unbroken } from "@/lib/wording";
import { elevationsOf, steeper, type Elevation } from "./elevation";
import { accent, ElevationDrawing, ink, PlanDrawing, soft, WayPlanDrawing } from "./pdf-drawings";
import { drawPlan } from "./plan-shapes";
import { planSetUp, type Step } from "./set-up";
import type { WayIn } from "./way";
import { drawWayPlan } from "./way-shapes";
import { cardInWords, type CardText } from "./words";

export type Paper = "letter" | "a4";

export interface PdfCard {
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
  readonly units: Units;
  readonly lends: readonly Lendable[];
  /** Null where nobody has measured it. */
  readonly way: WayIn | null;
  readonly park: string;
  /** The card's own address, for another phone; null where nobody may have it from this sheet. */
  readonly address: string | null;
  readonly paper: Paper;
}

/** The arrival card as a PDF of one or two pages; null where the rig stands nowhere on the site. */
export async function renderCard(card: PdfCard): Promise<Buffer | null> {
  const setUp = planSetUp(card.site, card.rig, card.result);
  if (!setUp) return null;
  const text = cardInWords(card, setUp, card.lends, card.way);
  return renderToBuffer(<CardDocument card={card} text={text} elevations={elevationsOf(card.site, card.rig, setUp)} />);
}

const styles = StyleSheet.create({
  page: { padding: 32, paddingBottom: 30, fontFamily: "Times-Roman", fontSize: 9.4, lineHeight: 1.22, color: ink },
  head: { flexDirection: "row", justifyContent: "space-between", gap: 12 },
  park: { fontFamily: "Courier-Bold", fontSize: 9 },
  h1: { fontFamily: "Times-Bold", fontSize: 21, lineHeight: 1.1, marginTop: 2 },
  h2: { fontFamily: "Times-Bold", fontSize: 12.5, marginTop: 8, marginBottom: 3, paddingBottom: 3, borderBottomWidth: 1.5, borderBottomColor: ink },
  rule: { marginTop: 6, padding: 4, borderWidth: 2, borderColor: accent, fontFamily: "Times-Bold", fontSize: 12.5, textAlign: "center" },
  columns: { flexDirection: "row", gap: 16, marginTop: 6 },
  ways: { flexDirection: "row", gap: 12, marginTop: 7 },
  five: { marginTop: 7, borderWidth: 1.5, borderColor: ink, padding: 7 },
  fiveTitle: { fontFamily: "Times-Bold", fontSize: 12, marginBottom: 3 },
  row: { flexDirection: "row", gap: 6, paddingVertical: 1.4 },
  name: { minWidth: 48, fontFamily: "Courier-Bold", fontSize: 9 },
  said: { flex: 1, fontFamily: "Times-Bold", fontSize: 10.6 },
  half: { flex: 1 },
  pair: { flexDirection: "row", gap: 16, borderBottomWidth: 0.5, borderBottomColor: "#c9c0a8" },
  step: { flexDirection: "row", gap: 6, paddingVertical: 2.6 },
  number: { width: 17, height: 17, borderWidth: 1.2, borderColor: ink, textAlign: "center", fontFamily: "Courier-Bold", fontSize: 9.5, paddingTop: 2.4 },
  title: { fontFamily: "Times-Bold", fontSize: 10.8 },
  line: { marginTop: 0.6 },
  small: { color: soft, fontSize: 8.6 },
  cautions: { marginTop: 8, borderWidth: 2, borderColor: accent, padding: 6 },
});

// Words stay whole: they are read at arm's length, by flashlight.
Font.registerHyphenationCallback((word) => [word]);

const papers = { letter: "LETTER", a4: "A4" } as const;

interface Sheet {
  readonly card: PdfCard;
  readonly text: CardText;
  readonly elevations: readonly Elevation[];
}

function CardDocument({ card, text, elevations }: Sheet) {
  return (
    <Document title={text.title} author={card.park} language="en-US">
      <Page size={papers[card.paper]} style={styles.page}>
        <View style={styles.head}>
          <View style={{ flex: 1 }}>
            <Text style={styles.park}>{card.park}</Text>
            <Text style={styles.h1}>{text.title}</Text>
            <Text>{words.lead}</Text>
            <Text style={styles.rule}>{text.before !== null && `${unbroken(text.before)}\n`}{words.stopRule}</Text>
          </View>
          {card.address !== null && <Qr address={card.address} />}
        </View>
        <View style={styles.five}>
          <Text style={styles.fiveTitle}>{words.five}</Text>
          {text.five.map(({ name, text: said }) => <View key={name} style={styles.row}><Text style={styles.name}>{name}</Text><Text style={styles.said}>{unbroken(said)}</Text></View>)}
          {text.bring.map((line, i) => <View key={line} style={styles.row}><Text style={styles.name}>{i === 0 ? words.fiveNames.cord : ""}</Text><Text style={styles.half}>{unbroken(line)}</Text></View>)}
          {text.lends.length > 0 && <View style={styles.row}><Text style={styles.name} /><Text style={styles.half}>{words.lends}: {text.lends.join(", ")}. {words.askDesk}</Text></View>}
        </View>
        <Ways card={card} text={text} />
        <Text style={styles.h2}>{words.setUp}</Text>
        <Steps card={card} text={text} elevations={elevations} />
        {elevations.length > 0 && <Text style={styles.small}>{words.steeper(steeper)}</Text>}
        <View style={styles.columns}>
          <View style={styles.half} wrap={false}>
            <Text style={[styles.h2, { marginTop: 0 }]}>{words.leave}</Text>
            {text.leaving.map((line, i) => <Text key={line} style={styles.line}>{i + 1}. {line}</Text>)}
          </View>
          <View style={[styles.half, styles.cautions, { marginTop: 0 }]} wrap={false}>
            <Text style={styles.fiveTitle}>{words.cautionTitle}</Text>
            {words.cautions.map((line) => <Text key={line} style={styles.line}>{line}</Text>)}
          </View>
        </View>
      </Page>
    </Document>
  );
}

/** The way in, in words and drawn, and where the rig stands then. */
function Ways({ card: { site, rig, result, units, way }, text }: Omit<Sheet, "elevations">) {
  const shown = way?.way;
  return (
    <View style={styles.ways} wrap={false}>
      <View style={styles.half}>
        <Text style={[styles.h2, { marginTop: 0 }]}>{words.wayTitle}</Text>
        {text.way.map((line) => <Text key={line} style={styles.line}>{unbroken(line)}</Text>)}
        {shown && <Text style={[styles.small, styles.line]}>{words.wayKey}</Text>}
        <Text style={[styles.small, styles.line]}>{words.planKey}</Text>
      </View>
      {shown && <View><Text style={styles.name}>{words.wayDrawn}</Text><WayPlanDrawing picture={drawWayPlan(site, shown)} units={units} room={[200, 225]} gap={numbersFor(units).spare(shown.gap.gap ?? 0)} /></View>}
      <View><Text style={styles.name}>{words.stopDrawn}</Text><PlanDrawing picture={drawPlan(site, rig, result)} units={units} room={shown ? [165, 225] : [240, text.before === null ? 225 : 190]} /></View>
    </View>
  );
}

/** Two to a row, read from left to right: a page may end after any row, and the order stays plain. */
function Steps({ card, text: { steps }, elevations }: Sheet) {
  const drawnAt = ({ does }: { readonly does: Step["does"] }) => elevations.find(({ seen }) => (does === "level-side" && seen === "from-behind") || (does === "level-along" && seen === "from-left"));
  return Array.from({ length: Math.ceil(steps.length / 2) }, (_, row) => (
    <View key={row} style={styles.pair} wrap={false}>
      {[2 * row, 2 * row + 1].map((at) => {
        const step = steps[at], elevation = step && drawnAt(step);
        return <StepItem key={at} step={step} number={at + 1} drawing={elevation && <ElevationDrawing elevation={elevation} lift={numbersFor(card.units).lacking(elevation.lift)} room={[92, 58]} />} />;
      })}
    </View>
  ));
}

function StepItem({ step, number, drawing }: { readonly step: CardText["steps"][number] | undefined; readonly number: number; readonly drawing: ReactNode }) {
  return (
    <View style={[styles.half, styles.step]}>
      {step && <Text style={styles.number}>{number}</Text>}
      {step && (
        <View style={styles.half}>
          <Text style={styles.title}>{step.title}</Text>
          {step.lines.map((line) => <Text key={line} style={styles.line}>{unbroken(line)}</Text>)}
        </View>
      )}
      {drawing}
    </View>
  );
}

const qrSide = 84;

function Qr({ address }: { readonly address: string }) {
  const { modules: { size, data } } = QRCode.create(address, { errorCorrectionLevel: "M" });
  const dark = Array.from({ length: size * size }, (_, i) => i).filter((i) => data[i]);
  return (
    <Svg width={qrSide} height={qrSide} viewBox={`-4 -4 ${size + 8} ${size + 8}`}>
      <G>{dark.map((i) => <Polygon key={i} points={square(i % size, Math.floor(i / size))} fill="#000" />)}</G>
    </Svg>
  );
}

function square(x: number, y: number): string {
  return `${x},${y} ${x + 1},${y} ${x + 1},${y + 1} ${x},${y + 1}`;
}
