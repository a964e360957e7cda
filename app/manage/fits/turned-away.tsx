import type { ReactNode } from "react";
import { fitMatrix } from "@/lib/jobs/fit-matrix";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { weighChanges } from "@/lib/jobs/weigh-changes";
import { tallyOf, type FitCell, type Gain, type Hindrance, type Tally } from "@/lib/insight";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { overallLength } from "@/lib/rig";
import { catalogueOf, numbersFor, remedySentence, siteThing, unbroken } from "@/lib/wording";
import { Soon } from "../soon";
import { columnsFor, type Column } from "./columns";
import { fitsContext } from "./context";
import { cellText } from "./make-grid";
import { capital } from "./summary";
import styles from "./fits.module.css";

const { insight: { turnedAway: words, hindrance, working, stopped } } = catalogueOf();

interface TurnedAwayProps {
  readonly site: Site;
  readonly units: Units;
}

/** Changes told, the best first. */
const MOST_GAINS = 4;

/** Which of the park's rigs a site turns away, by which thing, and what one change to the site would let in. */
export function TurnedAway(props: TurnedAwayProps) {
  return (
    <section className={styles.section} aria-labelledby="turned-away">
      <h2 id="turned-away">{words.title}</h2>
      <Soon work={tell(props)} waiting={<p className={styles.waiting} role="status">{working.section}</p>} />
    </section>
  );
}

async function tell({ site, units }: TurnedAwayProps): Promise<ReactNode> {
  const context = await fitsContext();
  if (!context) return null;
  const { park, rigs } = context;
  const columns = columnsFor({ rigs: rigs.length > 0 ? "park" : "all", units }, rigs);
  try {
    const { cells: [row = []] } = await fitMatrix([site], columns.map(({ rig }) => rig), park.policy);
    const refused = columns.flatMap((column, r) => (row[r]!.verdict === "no" ? [{ column, cell: row[r]! }] : []));
    if (refused.length === 0) return <p>{words.none(columns.length)}</p>;
    const gains = await weighChanges(site, refused.map(({ column }) => column.rig), park.policy);
    return (
      <>
        <p>{(rigs.length > 0 ? words.line : words.typicalLine)(refused.length, columns.length)}</p>
        <div className={styles.halves}>
          <div>
            <ByThing tally={tallyOf(row)} site={site} />
            <RefusedRigs refused={refused} site={site} units={units} />
          </div>
          <Gains gains={gains} refused={refused.map(({ column }) => column)} site={site} units={units} />
        </div>
      </>
    );
  } catch (error) {
    if (!(error instanceof RankingStopped)) throw error;
    return <p>{stopped.title} {stopped.why[error.why]}</p>;
  }
}

function ByThing({ tally, site }: { readonly tally: Tally; readonly site: Site }) {
  return (
    <table className={styles.counts}>
      <thead><tr><th scope="col">{words.columns.what}</th><th scope="col">{words.columns.count}</th><th scope="col">{words.columns.alone}</th></tr></thead>
      <tbody>
        {tally.turnedAwayBy.map(({ by, count, alone }) => <tr key={by}><th scope="row">{capital(nameOf(by, site))}</th><td>{words.of(count, tally.all)}</td><td>{alone}</td></tr>)}
      </tbody>
    </table>
  );
}

function nameOf(by: Hindrance, site: Site): string {
  return hindrance(by, by.startsWith("thing:") ? siteThing(by.slice("thing:".length), site) : null);
}

function RefusedRigs({ refused, site, units }: TurnedAwayProps & { readonly refused: readonly { column: Column; cell: FitCell }[] }) {
  return (
    <details className={styles.rigs}>
      <summary>{words.rigs(refused.length)}</summary>
      <ul>
        {refused.map(({ column, cell }) => (
          <li key={column.query}>
            <a href={`/sites/${encodeURIComponent(site.id)}?${column.query}&units=${units}`}>{unbroken(column.name)}</a>
            <p>{unbroken(cellText(cell, site, column.rig, units))}</p>
          </li>
        ))}
      </ul>
    </details>
  );
}

function Gains({ gains, refused, site, units }: TurnedAwayProps & { readonly gains: readonly Gain[]; readonly refused: readonly Column[] }) {
  return (
    <div>
      <h3>{words.changes}</h3>
      {gains.length === 0 ? <p>{words.noGain}</p> : (
        <>
          <p className={styles.help}>{words.changesHelp}</p>
          <ol className={styles.gains}>
            {gains.slice(0, MOST_GAINS).map((gain) => {
              const letIn = gain.letsIn.map((r) => refused[r]!);
              return (
                <li key={JSON.stringify(gain.change)}>
                  <p>{unbroken(changeText(gain, letIn, site, units))}</p>
                  <p className={styles.let}>{unbroken(words.gain(letIn.length, refused.length, letIn.map(({ name }) => `“${name}”`)))}</p>
                </li>
              );
            })}
          </ol>
        </>
      )}
    </div>
  );
}

/** A limit set aside is told as the limit that would do. */
function changeText({ change }: Gain, letIn: readonly Column[], site: Site, units: Units): string {
  if (change.code === "waive" && change.what === "rule:maxLength") {
    return words.raiseLimit(numbersFor(units).lacking(Math.max(...letIn.map(({ rig }) => overallLength(rig)))));
  }
  return remedySentence({ changes: [change], bring: [], verdict: "fits" }, site, letIn[0]!.rig, units);
}
