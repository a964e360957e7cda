import type { Units } from "@/lib/measure";
import { elevationsOf, type Elevation } from "@/lib/card/elevation";
import type { PdfCard } from "@/lib/card/pdf";
import { planSetUp } from "@/lib/card/set-up";
import { cardInWords, type StepText } from "@/lib/card/words";
import { numbersFor, unbroken } from "@/lib/wording";
import { arrival as words } from "@/lib/wording/en/arrival";
import { KeptPage } from "../kept-page/kept-page";
import { Plan } from "../plan/plan";
import { ElevationDrawing } from "./elevation";
import { PrintButton } from "./print-button";
import { QrCode } from "./qr";
import { WayDrawing } from "./way-drawing";
import styles from "./arrival-card.module.css";

interface ArrivalCardProps extends Omit<PdfCard, "paper"> {
  /** The address of the same as a PDF, ready for the paper to be added. */
  readonly pdf: string;
  /** The folder of the address, under which cards are kept on the phone; none where they are not. */
  readonly keptIn?: string;
  /** What who opened it should know besides. */
  readonly note?: string;
}

/** One sheet that sets a rig up on a site in the right order, with this site's numbers on it. */
export function ArrivalCard({ site, rig, result, units, lends, way, park, address, pdf, keptIn, note }: ArrivalCardProps) {
  const setUp = planSetUp(site, rig, result);
  if (!setUp) return <p>{words.noStand}</p>;
  const { before, five, steps, leaving, bring, lends: lent, way: wayLines } = cardInWords({ site, rig, result, units }, setUp, lends, way);
  const elevations = elevationsOf(site, rig, setUp);
  return (
    <article className={styles.card}>
      <header className={styles.head}>
        <div>
          <p className={styles.park}>{park}</p>
          <h1>{words.title(site.label ?? site.id)}</h1>
          <p className={styles.lead}>{words.lead}</p>
          <p className={styles.ways}><PrintButton label={words.print} /> <a href={`${pdf}paper=letter`}>{words.pdfLetter}</a> <a href={`${pdf}paper=a4`}>{words.pdfA4}</a></p>
          {keptIn && <KeptPage folder={keptIn} />}
          {note && <p className={styles.small}>{note}</p>}
        </div>
        {address !== null && <QrCode address={address} label={words.qr} className={styles.qr} />}
      </header>
      {before !== null && <p className={styles.rule}>{unbroken(before)}</p>}
      <p className={styles.rule}>{words.stopRule}</p>
      <section className={styles.five} aria-labelledby="five">
        <h2 id="five">{words.five}</h2>
        <dl>{five.map(({ name, text }) => <div key={name}><dt>{name}</dt><dd>{unbroken(text)}</dd></div>)}</dl>
      </section>
      <section aria-labelledby="way">
        <h2 id="way">{words.wayTitle}</h2>
        {(!way || way.way) && <ul className={styles.lines}>{wayLines.map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>}
        {way && <WayDrawing site={site} way={way} units={units} />}
      </section>
      <section className={styles.where} aria-labelledby="where">
        <h2 id="where">{words.whereToStop}</h2>
        <Plan site={site} rig={rig} result={result} units={units} />
      </section>
      <section aria-labelledby="set-up">
        <h2 id="set-up">{words.setUp}</h2>
        <ol className={styles.steps}>{steps.map((step) => <StepItem key={step.does} step={step} elevations={elevations} units={units} />)}</ol>
      </section>
      <section aria-labelledby="bring">
        <h2 id="bring">{words.bring}</h2>
        <ul className={styles.lines}>{bring.map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>
        {lent.length > 0 && <><h3>{words.lends}</h3><ul className={styles.lines}>{lent.map((line) => <li key={line}>{line}</li>)}</ul><p className={styles.small}>{words.askDesk}</p></>}
      </section>
      <section aria-labelledby="leave">
        <h2 id="leave">{words.leave}</h2>
        <ol className={styles.leave}>{leaving.map((line) => <li key={line}>{line}</li>)}</ol>
      </section>
      <aside className={styles.cautions} aria-labelledby="safe">
        <h2 id="safe">{words.cautionTitle}</h2>
        <ul>{words.cautions.map((line) => <li key={line}>{line}</li>)}</ul>
      </aside>
    </article>
  );
}

function StepItem({ step: { does, title, lines }, elevations, units }: { readonly step: StepText; readonly elevations: readonly Elevation[]; readonly units: Units }) {
  const shown = elevations.find(({ seen }) => (does === "level-side" && seen === "from-behind") || (does === "level-along" && seen === "from-left"));
  return (
    <li>
      <h3>{title}</h3>
      <ul>{lines.map((line) => <li key={line}>{unbroken(line)}</li>)}</ul>
      {shown && <ElevationDrawing elevation={shown} liftText={numbersFor(units).lacking(shown.lift)} />}
    </li>
  );
}
