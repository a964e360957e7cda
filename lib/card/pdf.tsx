import { Circle, Document, G, Page, Polygon, Polyline, renderToBuffer, StyleSheet, Svg, Text, View } from "@react-pdf/renderer";
import QRCode from "qrcode";
import type { FitResult } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { Lendable } from "@/lib/stays";
import { arrival as words } from "@/lib/wording/en/arrival";
import { drawPlan, type PlanPicture, type PlanShape } from "./plan-shapes";
import type { WayIn } from "./way";
import { planSetUp } from "./set-up";
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
  /** The card's own address, for another phone. */
  readonly address: string;
  readonly paper: Paper;
}

/** The arrival card as a PDF of one or two pages; null where the rig stands nowhere on the site. */
export async function renderCard(card: PdfCard): Promise<Buffer | null> {
  const setUp = planSetUp(card.site, card.rig, card.result);
  if (!setUp) return null;
  const text = cardInWords(card, setUp, card.lends, card.way);
  return renderToBuffer(<CardDocument card={card} text={text} />);
}

const ink = "#1c1a16", accent = "#a3290c", soft = "#575144";
const styles = StyleSheet.create({
  page: { padding: 34, paddingBottom: 40, fontFamily: "Times-Roman", fontSize: 9.6, lineHeight: 1.22, color: ink },
  head: { flexDirection: "row", justifyContent: "space-between", gap: 12 },
  park: { fontFamily: "Courier-Bold", fontSize: 9 },
  h1: { fontFamily: "Times-Bold", fontSize: 21, lineHeight: 1.1, marginTop: 2 },
  h2: { fontFamily: "Times-Bold", fontSize: 12.5, marginTop: 8, marginBottom: 3, paddingBottom: 1, borderBottomWidth: 1.5, borderBottomColor: ink },
  rule: { marginTop: 6, padding: 4, borderWidth: 2, borderColor: accent, fontFamily: "Times-Bold", fontSize: 12.5, textAlign: "center" },
  columns: { flexDirection: "row", gap: 16, marginTop: 6 },
  five: { flex: 1, borderWidth: 1.5, borderColor: ink, padding: 7 },
  fiveTitle: { fontFamily: "Times-Bold", fontSize: 12, marginBottom: 3 },
  row: { flexDirection: "row", gap: 6, paddingVertical: 2.5 },
  name: { width: 48, fontFamily: "Courier-Bold", fontSize: 9 },
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

const papers = { letter: "LETTER", a4: "A4" } as const;

function CardDocument({ card, text }: { readonly card: PdfCard; readonly text: CardText }) {
  return (
    <Document title={text.title} author={card.park} language="en-US">
      <Page size={papers[card.paper]} style={styles.page}>
        <View style={styles.head}>
          <View style={{ flex: 1 }}>
            <Text style={styles.park}>{card.park}</Text>
            <Text style={styles.h1}>{text.title}</Text>
            <Text>{words.lead}</Text>
            <Text style={styles.rule}>{words.stopRule}</Text>
          </View>
          <Qr address={card.address} />
        </View>
        <View style={styles.columns}>
          <View style={styles.five}>
            <Text style={styles.fiveTitle}>{words.five}</Text>
            {text.five.map(({ name, text: said }) => <View key={name} style={styles.row}><Text style={styles.name}>{name}</Text><Text style={styles.said}>{said}</Text></View>)}
            <Text style={[styles.fiveTitle, { marginTop: 5 }]}>{words.wayTitle}</Text>
            {text.way.map((line) => <Text key={line}>{line}</Text>)}
            {text.bring.length > 0 && <><Text style={[styles.fiveTitle, { marginTop: 5 }]}>{words.bring}</Text>{text.bring.map((line) => <Text key={line}>{line}</Text>)}</>}
            {text.lends.length > 0 && <Text style={styles.line}>{words.lends}: {text.lends.join(", ")}. {words.askDesk}</Text>}
          </View>
          <PlanDrawing picture={drawPlan(card.site, card.rig, card.result)} />
        </View>
        <Text style={styles.h2}>{words.setUp}</Text>
        <Steps steps={text.steps} />
        <View style={styles.columns}>
          <View style={styles.half} wrap={false}>
            <Text style={[styles.h2, { marginTop: 0 }]}>{words.leave}</Text>
            {text.leaving.map((line, i) => <Text key={line} style={styles.line}>{i + 1}. {line}</Text>)}
          </View>
          <View style={[styles.half, styles.cautions, { marginTop: 0 }]} wrap={false}>
            <Text style={styles.fiveTitle}>{words.cautionTitle}</Text>
            {[...words.cautions, words.advice].map((line) => <Text key={line} style={styles.line}>{line}</Text>)}
          </View>
        </View>
      </Page>
    </Document>
  );
}

/** Two to a row, read from left to right: a page may end after any row, and the order stays plain. */
function Steps({ steps }: { readonly steps: CardText["steps"] }) {
  return Array.from({ length: Math.ceil(steps.length / 2) }, (_, row) => (
    <View key={row} style={styles.pair} wrap={false}>
      {[2 * row, 2 * row + 1].map((at) => <StepItem key={at} step={steps[at]} number={at + 1} />)}
    </View>
  ));
}

function StepItem({ step, number }: { readonly step: CardText["steps"][number] | undefined; readonly number: number }) {
  return (
    <View style={[styles.half, styles.step]}>
      {step && <Text style={styles.number}>{number}</Text>}
      {step && (
        <View style={styles.half}>
          <Text style={styles.title}>{step.title}</Text>
          {step.lines.map((line) => <Text key={line} style={styles.line}>{line}</Text>)}
        </View>
      )}
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

const planHeight = 235, planWidth = 200;

function PlanDrawing({ picture: { width, height, shapes } }: { readonly picture: PlanPicture }) {
  const scale = Math.min(planWidth / width, planHeight / height);
  return (
    <Svg width={width * scale} height={height * scale} viewBox={`0 0 ${width} ${height}`} style={{ borderWidth: 1, borderColor: ink }}>
      {shapes.map((shape, i) => <Shape key={i} of={shape} pen={1 / scale} />)}
    </Svg>
  );
}

const looks: Readonly<Record<PlanShape["of"], { readonly fill: string; readonly stroke: string; readonly dash?: number; readonly thick?: number }>> = {
  lot: { fill: "none", stroke: soft, dash: 3 },
  pad: { fill: "#efe8d6", stroke: ink },
  obstacle: { fill: "#575144", stroke: ink },
  limb: { fill: "none", stroke: soft, dash: 2 },
  body: { fill: "#fffdf7", stroke: ink, thick: 1.8 },
  part: { fill: "#fffdf7", stroke: ink },
  awning: { fill: "none", stroke: ink, dash: 4 },
  hookup: { fill: accent, stroke: accent },
  power: { fill: "none", stroke: accent, dash: 5, thick: 1.4 },
  water: { fill: "none", stroke: accent, dash: 1.5, thick: 1.4 },
  sewer: { fill: "none", stroke: accent, thick: 2.2 },
};

function Shape({ of: shape, pen }: { readonly of: PlanShape; readonly pen: number }) {
  const { fill, stroke, dash, thick = 0.9 } = looks[shape.of];
  const look = { fill, stroke, strokeWidth: thick * pen, ...(dash ? { strokeDasharray: `${dash * pen} ${dash * pen}` } : {}) };
  if (shape.shape === "disc") return <Circle cx={shape.at[0]} cy={shape.at[1]} r={shape.radius} {...look} />;
  const points = shape.points.map((point) => point.join(",")).join(" ");
  return shape.shape === "line" ? <Polyline points={points} {...look} /> : <Polygon points={points} {...look} />;
}
