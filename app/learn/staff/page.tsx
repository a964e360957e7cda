import type { Metadata } from "next";
import type { ReactNode } from "react";
import type { Units } from "@/lib/measure";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import type { Params } from "../../components/rig-form/params";
import { VerdictMark } from "../../components/verdict/mark";
import { learnContext } from "../context";
import { Run, Sewer } from "../drawings/checked";
import { Headings, Heights, RigFrame, SiteFrame } from "../drawings/frames";
import { Frame, OnPage } from "../frame";
import { Text } from "../text";
import { policyRows } from "./policy-rows";
import styles from "../learn.module.css";

const { learn, verdicts } = catalogueOf();

export const metadata: Metadata = { title: learn.staff({ n: numbersFor("ft-in") }).title };

type Words = ReturnType<typeof learn.staff>;
interface PartProps {
  readonly words: Words;
  readonly units: Units;
}

/** Frames, constraints, needs, rules, settings, verdicts and proofs: for those who measure sites and answer for what is said. */
export default async function StaffPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { units, policy } = await learnContext(searchParams);
  const words = learn.staff({ n: numbersFor(units) });
  const parts = [
    { id: "frames", title: words.framesTitle }, { id: "hard", title: words.hardTitle }, { id: "needs", title: words.needsTitle }, { id: "rules", title: words.rulesTitle },
    { id: "settings", title: words.policyTitle }, { id: "verdicts", title: words.verdictsTitle }, { id: "proof", title: words.proofTitle }, { id: "undecided", title: words.undecidedTitle },
  ];
  return (
    <Frame page="staff" units={units} title={words.title} lead={<p>{words.lead}</p>}>
      <OnPage to={parts} />
      <Frames words={words} units={units} />
      <Hard words={words} units={units} />
      <Needs words={words} units={units} continuous={policy.continuous} />
      <Part id="rules" title={words.rulesTitle}>
        <Lines lines={[words.rulesLead]} units={units} />
        <Table head={[words.columns.rule, words.columns.met]} rows={words.rules.map(({ id, means }) => ({ id, cells: [<Text key="m" units={units}>{means}</Text>] }))} />
      </Part>
      <Settings words={words} rows={policyRows(policy, units)} />
      <Verdicts words={words} units={units} />
      <Proof words={words} units={units} />
      <Part id="undecided" title={words.undecidedTitle}><ul className={styles.list}>{words.undecided.map((line) => <li key={line}>{line}</li>)}</ul></Part>
    </Frame>
  );
}

function Frames({ words, units }: PartProps) {
  return (
    <Part id="frames" title={words.framesTitle}>
      <Lines lines={words.frames} units={units} />
      <div className={styles.pairs}>
        <Beside title={words.siteFrameTitle} drawing={<SiteFrame />}><Lines lines={words.siteFrame} units={units} /></Beside>
        <Beside title={words.rigFrameTitle} drawing={<RigFrame />}><Lines lines={words.rigFrame} units={units} /></Beside>
        <Beside title={words.headingsTitle} drawing={<Headings />}><Lines lines={words.headings} units={units} /></Beside>
      </div>
    </Part>
  );
}

function Hard({ words, units }: PartProps) {
  return (
    <Part id="hard" title={words.hardTitle}>
      <Lines lines={words.hard} units={units} />
      <Asked head={[words.columns.constraint, words.columns.meaning]} rows={words.constraints} setting={words.columns.setting} units={units} />
      <div className={styles.pairs}><Beside title={words.heightsTitle} drawing={<Heights />}><Lines lines={words.heights} units={units} /></Beside></div>
    </Part>
  );
}

function Needs({ words, units, continuous }: PartProps & { readonly continuous: number }) {
  const { columns, powerColumns } = words;
  const n = numbersFor(units);
  return (
    <Part id="needs" title={words.needsTitle}>
      <Lines lines={[words.needsLead]} units={units} />
      <Asked head={[columns.constraint, columns.needs]} rows={words.needs} setting={columns.setting} units={units} />
      <Lines lines={[words.water]} units={units} />
      <div className={styles.cards}><div className={styles.card}><Run units={units} /></div><div className={styles.card}><Sewer /></div></div>
      <h3>{words.powerTitle}</h3>
      <table className={styles.table}>
        <thead><tr>{[powerColumns.supply, powerColumns.legs, powerColumns.gives, powerColumns.hours].map((title) => <th key={title} scope="col">{title}</th>)}</tr></thead>
        <tbody>
          {SUPPLIES.map(({ amperes, lines }) => (
            <tr key={amperes}><th scope="row">{words.powerRow(amperes)}</th><td>{lines}</td><td>{n.powerOver(amperes * 120 * lines)}</td><td>{n.powerOver(amperes * 120 * lines * continuous)}</td></tr>
          ))}
        </tbody>
      </table>
      <Lines lines={[words.powerNote]} units={units} />
    </Part>
  );
}

/** A 50 A service has two lines of 120 V, every other one. */
const SUPPLIES = [{ amperes: 50, lines: 2 }, { amperes: 30, lines: 1 }, { amperes: 20, lines: 1 }, { amperes: 15, lines: 1 }] as const;

function Settings({ words, rows }: { readonly words: Words; readonly rows: ReturnType<typeof policyRows> }) {
  const { policyColumns: columns } = words;
  const value = (text: string, record: string | null) => <>{unbroken(text)}{record && <span className={styles.record}>{columns.record(record)}</span>}</>;
  return (
    <Part id="settings" title={words.policyTitle}>
      <p>{words.policyLead}</p>
      <table className={styles.table}>
        <thead><tr>{[columns.setting, columns.here].map((title) => <th key={title} scope="col">{title}</th>)}</tr></thead>
        <tbody>
          {rows.map(({ name, meaning, standard, here, standardRecord, hereRecord, differs }) => (
            <tr key={name} id={`setting-${name}`}>
              <th scope="row"><code>{name.split(".").map((piece, i) => <span key={piece}>{i > 0 && <>.<wbr /></>}{piece}</span>)}</code><span className={styles.meaning}>{meaning}</span></th>
              <td className={styles.value}>
                {differs ? <strong>{value(here, hereRecord)}</strong> : value(here, hereRecord)}
                {differs && <span className={styles.standard}>{columns.standard} {value(standard, standardRecord)}</span>}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Part>
  );
}

function Verdicts({ words, units }: PartProps) {
  return (
    <Part id="verdicts" title={words.verdictsTitle}>
      <table className={styles.table}>
        <thead><tr><th scope="col">{words.columns.verdict}</th><th scope="col">{words.columns.when}</th></tr></thead>
        <tbody>
          {(["fits", "gear", "ask", "unsettled", "no"] as const).map((verdict) => (
            <tr key={verdict}><th scope="row"><VerdictMark verdict={verdict} /> {verdicts[verdict].label}<span className={styles.record}><code>{verdict}</code></span></th><td>{words.verdicts[verdict]}</td></tr>
          ))}
        </tbody>
      </table>
      <Lines lines={words.order} units={units} />
    </Part>
  );
}

function Proof({ words, units }: PartProps) {
  const { conflictExample: { constraints, means } } = words;
  return (
    <Part id="proof" title={words.proofTitle}>
      <Lines lines={words.proof} units={units} />
      <h3>{words.conflictTitle}</h3>
      <Lines lines={words.conflict} units={units} />
      <div className={styles.example}><p>{constraints.map((id, i) => <span key={id}>{i > 0 && " + "}<code className={styles.id}>{id}</code></span>)}</p><p>{means}</p></div>
    </Part>
  );
}

function Part({ id, title, children }: { readonly id: string; readonly title: string; readonly children: ReactNode }) {
  return <section aria-labelledby={id} className={styles.part}><h2 id={id}>{title}</h2>{children}</section>;
}

function Beside({ title, drawing, children }: { readonly title: string; readonly drawing: ReactNode; readonly children: ReactNode }) {
  return <div><h3>{title}</h3><div className={styles.beside}><div className={styles.card}>{drawing}</div><div>{children}</div></div></div>;
}

/** What is asked, in words, with the settings that bear on it. */
function Asked({ head, rows, setting, units }: { readonly head: readonly [string, string]; readonly rows: readonly { readonly id: string; readonly means: string; readonly settings: readonly string[] }[]; readonly setting: string; readonly units: Units }) {
  return (
    <Table head={head} rows={rows.map(({ id, means, settings }) => ({ id, cells: [
      <div key="m">
        <Text units={units}>{means}</Text>
        {settings.length > 0 && <span className={styles.settings}>{setting}: {settings.map((name, i) => <span key={name}>{i > 0 && ", "}<a href={`#setting-${name}`}><code>{name}</code></a></span>)}</span>}
      </div>,
    ] }))} />
  );
}

function Table({ head, rows }: { readonly head: readonly string[]; readonly rows: readonly { readonly id: string; readonly cells: readonly ReactNode[] }[] }) {
  return (
    <table className={styles.table}>
      <thead><tr>{head.map((title) => <th key={title} scope="col">{title}</th>)}</tr></thead>
      <tbody>
        {rows.map(({ id, cells }) => (
          <tr key={id}><th scope="row">{id.split(", ").map((one, i) => <span key={one}>{i > 0 && ", "}<code>{one.split(":").map((piece, j) => <span key={piece}>{j > 0 && <>:<wbr /></>}{piece}</span>)}</code></span>)}</th>{cells.map((cell, i) => <td key={head[i + 1]}>{cell}</td>)}</tr>
        ))}
      </tbody>
    </table>
  );
}

function Lines({ lines, units }: { readonly lines: readonly string[]; readonly units: Units }) {
  return lines.map((line) => <p key={line} className={styles.line}><Text units={units}>{line}</Text></p>);
}
