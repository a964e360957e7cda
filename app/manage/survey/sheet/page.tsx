import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { unitSystems } from "@/lib/measure";
import { fieldSheet as words } from "@/lib/wording/en/field-sheet";
import { PrintButton } from "../../../components/arrival-card/print-button";
import type { Params } from "../../../components/rig-form/params";
import { staffContext, type StaffContext } from "../../context";
import { ofLoop, ofSite, papers, readChosen, type Chosen } from "./chosen";
import { FieldSheet } from "./field-sheet";
import styles from "./sheet.module.css";

export const metadata: Metadata = { title: words.title };

/** Paper to measure a site, or the sites of a loop, with a tape. On the screen the first sheet is shown; all are printed. */
export default async function FieldSheetsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const [asked, context] = await Promise.all([searchParams, staffContext()]);
  if (!context) notFound();
  const chosen = readChosen(asked, context);
  return (
    <main className={styles.main}>
      <div className={styles.screen}>
        <p className={styles.park}>{context.park.name}</p>
        <h1>{words.title}</h1>
        <p className={styles.lead}>{words.lead}</p>
        {chosen.unknown && <p className={styles.notice} role="status">{words.unknown}</p>}
        <Choice context={context} chosen={chosen} />
        <details className={styles.bring}><summary>{words.bring}</summary><ul>{words.bringLines.map((line) => <li key={line}>{line}</li>)}</ul></details>
        <div className={styles.printRow}><PrintButton label={words.print} /><p>{words.printHint}</p></div>
        {chosen.sheets.length > 1 && <p className={styles.more}>{words.more(chosen.sheets.length - 1)}</p>}
      </div>
      <div className={styles.sheets} data-paper={chosen.paper} role="region" aria-label={words.preview} tabIndex={0}>
        {chosen.sheets.map((sheet) => <FieldSheet key={sheet.id ?? ""} sheet={sheet} park={context.park.name} units={chosen.units} />)}
      </div>
    </main>
  );
}

/** One list of loops and sites, the paper, the units: a form that works without script, its answer in the address. */
function Choice({ context: { surveyed, loops }, chosen }: { readonly context: StaffContext; readonly chosen: Chosen }) {
  const ids = [...new Set(surveyed.map(({ site }) => site.loop ?? ""))];
  const of = (loop: string) => surveyed.filter(({ site }) => (site.loop ?? "") === loop);
  return (
    <form className={styles.choice} method="get" action="/manage/survey/sheet">
      <label>{words.of}
        <select name="of" defaultValue={chosen.of}>
          <option value="">{words.blank}</option>
          <optgroup label={words.wholeLoops}>{ids.filter(Boolean).map((id) => <option key={id} value={ofLoop(id)}>{words.loop(id, loops.find((loop) => loop.id === id)?.name, of(id).length)}</option>)}</optgroup>
          {ids.map((id) => <optgroup key={id} label={id ? words.loopSites(id) : words.noLoop}>{of(id).map(({ site }) => <option key={site.id} value={ofSite(site.id)}>{site.label ?? site.id}</option>)}</optgroup>)}
        </select>
      </label>
      <label>{words.paper}<select name="paper" defaultValue={chosen.paper}>{papers.map((paper) => <option key={paper} value={paper}>{words.papers[paper]}</option>)}</select></label>
      <label>{words.units}<select name="units" defaultValue={chosen.units}>{unitSystems.map((system) => <option key={system} value={system}>{words.unitNames[system]}</option>)}</select></label>
      <button type="submit">{words.show}</button>
    </form>
  );
}
