import type { ReactNode } from "react";
import { VerdictMark } from "../../../components/verdict/mark";
import { readRigForm } from "../../../components/rig-form/read";
import { startOf } from "../../../components/rig-form/start";
import type { Policy, Verdict } from "@/lib/fit";
import { fitMatrix } from "@/lib/jobs/fit-matrix";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { lengthClassesOf, typicalKinds, type RigKind } from "@/lib/rig/typical";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { Soon } from "../../soon";
import styles from "./site.module.css";

interface TypicalFitsProps {
  readonly site: Site;
  readonly policy: Policy;
  readonly units: Units;
}

/** Which typical rigs the site takes: kind by length, each a link to the plan a guest with such a rig would see. */
export function TypicalFits(props: TypicalFitsProps) {
  const { site: words } = catalogueOf().staff;
  return (
    <section aria-labelledby="fits" className={styles.part}>
      <h2 id="fits">{words.fits}</h2>
      <p className={styles.note}>{words.fitsLead}{keptFor(props) && <> {words.fitsForAccessible}</>}</p>
      <Soon work={makeTable(props)} waiting={<p className={styles.note} role="status">{words.fitsWaiting}</p>} />
    </section>
  );
}

/** No page waits longer for this. Milliseconds. */
const TIME_LIMIT = 10_000;

/** Where accessible sites are kept, everyone else is refused whatever they drive: then it is asked for those it is kept for. */
function keptFor({ site, policy }: TypicalFitsProps): boolean {
  return policy.keepAccessible && site.rules?.accessible === true;
}

interface Entry {
  readonly kind: RigKind;
  readonly overall: number;
  readonly query: string;
  readonly verdict: Verdict;
}

async function makeTable(props: TypicalFitsProps): Promise<ReactNode> {
  try {
    const asked = typicalKinds.flatMap((kind) => lengthClassesOf(kind).map((overall) => typicalAsked(kind, overall, keptFor(props))));
    const { cells } = await fitMatrix([props.site], asked.map(({ rig }) => rig), props.policy, { timeLimit: TIME_LIMIT });
    const entries = asked.map((one, r) => ({ ...one, verdict: cells[0]![r]!.verdict }));
    return <FitsTable rows={typicalKinds.map((kind) => entries.filter((entry) => entry.kind === kind))} units={props.units} site={props.site} />;
  } catch (error) {
    if (!(error instanceof RankingStopped)) throw error;
    return <p className={styles.note}>{catalogueOf().staff.site.fitsStopped}</p>;
  }
}

/** The rig as the guest's page reads it from its address, so that both judge the same one. */
function typicalAsked(kind: RigKind, overall: number, accessible: boolean): Omit<Entry, "verdict"> & { readonly rig: Rig } {
  const params = { kind, length: `${Math.round(overall / 304.8)} ft` };
  const start = startOf(params, [], "ft-in")!;
  const { rig, query } = readRigForm(accessible ? { ...params, accessible: "1" } : params, start, "ft-in");
  return { kind, overall, rig: rig ?? start.base, query };
}

function FitsTable({ rows, units, site }: { readonly rows: readonly (readonly Entry[])[]; readonly units: Units; readonly site: Site }) {
  const { staff: { site: words }, things, verdicts } = catalogueOf();
  const n = numbersFor(units);
  const most = Math.max(...rows.map((entries) => entries.length));
  return (
    <div className={styles.region} role="region" aria-label={words.fitsRegion} tabIndex={0}>
      <table className={styles.fits}>
        <thead><tr><th scope="col">{words.fitsKind}</th><th scope="colgroup" colSpan={most}>{words.fitsLengths}</th></tr></thead>
        <tbody>
          {rows.map((entries) => {
            const kind = things.rigKinds[entries[0]!.kind];
            return (
              <tr key={kind}>
                <th scope="row">{kind}</th>
                {entries.map(({ overall, query, verdict }) => (
                  <td key={overall} data-verdict={verdict}>
                    <a href={`/sites/${encodeURIComponent(site.id)}?${query}&units=${units}`} aria-label={words.fitsLink(kind, n.measured(overall), verdicts[verdict].label)}>
                      <span className={styles.length}>{unbroken(n.measured(overall))}</span>
                      <span className={styles.verdict}><VerdictMark verdict={verdict} /> {words.verdict[verdict]}</span>
                    </a>
                  </td>
                ))}
                {entries.length < most && <td colSpan={most - entries.length} className={styles.rest} />}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
