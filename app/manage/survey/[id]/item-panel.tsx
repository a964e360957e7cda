import { useMemo, useRef, useState } from "react";
import type { Site, SiteInput } from "@/lib/park";
import type { Units } from "@/lib/measure";
import { soundSite, takeReading, type Found, type Reading, type Step, type SurveyItem, type SurveyNote } from "@/lib/survey";
import { numbersIn } from "@/lib/wording/format";
import { surveyNotes } from "@/lib/wording/en/survey";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { freshId } from "./fresh-id";
import { faultText, MeasureFields } from "./measure-fields";
import { methodsFor, type Method } from "./methods";
import { nameOf, pointName, thingName, valueOf } from "./naming";
import { isAgain, lastAgain, readForm, type FieldFault, type Form } from "./reading";
import { startForm } from "./start-form";
import styles from "./walk.module.css";

interface ItemPanelProps {
  readonly item: SurveyItem;
  readonly record: SiteInput;
  readonly site: Site;
  readonly units: Units;
  readonly by: string;
  readonly today: string;
  readonly take: (step: Step) => Promise<void>;
  /** Told what is being measured as it is typed, for the plan. */
  readonly show: (form: Form | null, found: Found | null) => void;
}

/** One thing to measure: what is on record, how it is to be measured, and what the readings come to as they are typed. */
export function ItemPanel({ item, record, site, units, by, today, take, show }: ItemPanelProps) {
  const { of } = item, methods = methodsFor(of), name = nameOf(of, site);
  const [form, setForm] = useState(() => startForm(site, of));
  const [faults, setFaults] = useState<Readonly<Record<string, FieldFault>>>({});
  const [again, setAgain] = useState("");
  const panel = useRef<HTMLFormElement>(null);
  const id = useMemo(() => freshId(), []);
  const trial = useMemo(() => tryOut(form, record, units, { id, on: today, ...(by ? { by } : {}) }), [form, record, units, id, today, by]);
  const change = (next: Form) => {
    setForm(next);
    setFaults({});
    const tried = tryOut(next, record, units, { id, on: today });
    show(next, tried?.ok ? tried.value.found : null);
  };
  const keep = async () => {
    const read = readForm(form, units), day = panel.current?.querySelector<HTMLInputElement>("#measure-again");
    const wrong: Readonly<Record<string, FieldFault>> = { ...(read.ok ? {} : read.faults), ...(day?.validity.badInput || (again && !isAgain(again, today)) ? { again: "day" } : {}) };
    setFaults(wrong);
    if (!read.ok || wrong.again) {
      const first = panel.current?.querySelector<HTMLInputElement>(`#measure-${Object.keys(wrong)[0]}`);
      first?.closest("details")?.setAttribute("open", "");
      first?.focus();
      return;
    }
    if (!trial?.ok || !soundSite(trial.value.record)) return;
    await take({ do: "read", reading: { ...read.reading, id, on: today, ...(by ? { by } : {}), ...(again ? { again } : {}) } });
  };
  return (
    <form ref={panel} className={styles.panel} noValidate onSubmit={(event) => { event.preventDefault(); void keep(); }}>
      <OnRecord item={item} site={site} units={units} />
      {methods.length === 0 ? <p>{words.inEditor} <a href={`/manage/sites/${encodeURIComponent(site.id)}/edit`}>{words.editor}</a></p> : (
        <>
          {methods.length > 1 && <p className={styles.box}><label htmlFor="how">{words.how}</label><select id="how" value={form.method} onChange={(event) => change(startForm(site, of, event.target.value as Method))}>{methods.map((method) => <option key={method} value={method}>{words.methods[method]}</option>)}</select></p>}
          <p className={styles.help}>{words.helps[form.method]}</p>
          <MeasureFields form={form} site={site} units={units} faults={faults} change={change} />
          <Result trial={trial} form={form} site={site} units={units} />
          <Again value={again} today={today} fault={faults.again} change={setAgain} />
          <button type="submit" className={styles.keep} aria-label={`${words.keep}: ${name}`}>{words.keep}</button>
        </>
      )}
      <Gone of={of} site={site} take={take} />
    </form>
  );
}

function Again({ value, today, fault, change }: { readonly value: string; readonly today: string; readonly fault: FieldFault | undefined; readonly change: (day: string) => void }) {
  return (
    <details className={styles.more}>
      <summary>{words.again}</summary>
      <p className={styles.box}>
        <label htmlFor="measure-again">{words.againHint}</label>
        <input id="measure-again" type="date" value={value} min={today || undefined} max={today ? lastAgain(today) : undefined} onChange={(event) => change(event.target.value)} aria-invalid={fault ? true : undefined} aria-describedby={fault ? "measure-again-fault" : undefined} />
        {fault && <span id="measure-again-fault" className={styles.fault}>{faultText(fault)}</span>}
      </p>
    </details>
  );
}

function OnRecord({ item: { of, state, measurement }, site, units }: { readonly item: SurveyItem; readonly site: Site; readonly units: Units }) {
  const value = valueOf(of, site, units), slope = of.startsWith("ground");
  const error = measurement && (slope ? `${measurement.error}%` : of.endsWith("pressure") ? numbersIn(units, ",").pressure(measurement.error) : numbersIn(units, ",").measured(measurement.error));
  return (
    <p className={styles.record}>
      <span className={styles[state]}>{words.states[state]}</span> {value === null ? (state === "missing" ? words.nothing : null) : words.now(value)}
      {measurement && <span className={styles.last}> {words.lastTime(words.said[measurement.how], measurement.on, error!)}</span>}
    </p>
  );
}

function tryOut(form: Form, record: SiteInput, units: Units, who: Pick<Reading, "id" | "on" | "by">) {
  const read = readForm(form, units);
  return read.ok ? takeReading(record, { ...read.reading, ...who }) : null;
}

/** What the readings come to, how well, and what of them does not come together. */
function Result({ trial, form, site, units }: { readonly trial: ReturnType<typeof tryOut>; readonly form: Form; readonly site: Site; readonly units: Units }) {
  const nameAgain = (name: string) => nameReading(name, form, site);
  return (
    <div className={styles.result} role="status">
      {!trial && <p>{words.reading}</p>}
      {trial && !trial.ok && <ul className={styles.bad}>{trial.faults.map((note) => <li key={note.code}>{noteText(note, nameAgain, units)}</li>)}</ul>}
      {trial?.ok && !soundSite(trial.value.record) && <p className={styles.bad}>{words.unsound}</p>}
      {trial?.ok && <><p><strong>{words.result}</strong> {foundText(trial.value.found, form, site, units)}</p>{trial.warnings.length > 0 && <ul className={styles.warned}>{trial.warnings.map((note) => <li key={note.code}>{noteText(note, nameAgain, units)}</li>)}</ul>}</>}
    </div>
  );
}

export function noteText({ code, again, by }: SurveyNote, name: (name: string) => string, units: Units): string {
  return surveyNotes[code]({ again: again.map(name), by: by === null ? "" : numbersIn(units, ",").lacking(by) });
}

/** Tapes go by their numbers, sides and diagonals by their corners, spots by their places. */
function nameReading(name: string, form: Form, site: Site): string {
  if (form.method === "tapes" && /^\d+$/.test(name)) { const tape = form.tapes[Number(name)]; return tape ? pointName(tape.from, site) : name; }
  return pointName(name, site);
}

function foundText(found: Found, form: Form, site: Site, units: Units): string {
  const n = numbersIn(units, ","), slope = form.of.startsWith("ground.");
  switch (found.type) {
    case "place": {
      const { at: [x, y], ellipse, misfit } = found.placement;
      const place = words.place(n.measured(Math.abs(x)), x >= 0, n.measured(Math.abs(y)), y >= 0);
      return [`${place}; ${words.within(n.measured(2 * ellipse.major))}.`, ...(typeof misfit === "number" ? [words.misfit(n.measured(misfit))] : [])].join(" ");
    }
    case "number": {
      const { value, error } = found.value;
      if (slope) return `${value}%; ${words.within(`${Math.round(200 * error) / 100}%`)}.`;
      return form.of.endsWith("pressure") ? `${n.pressure(value)}; ${words.within(n.pressure(2 * error))}.` : `${n.measured(value)}; ${words.within(n.measured(2 * error))}.`;
    }
    case "outline": return found.ring.closing === null ? words.unchecked : words.closing(n.measured(found.ring.closing));
    case "ground": {
      const { along, across, worst } = found.fit, percent = (value: number) => `${Math.round(value * 100) / 100}%`;
      return `${words.slopes(percent(along.value), percent(across.value))} ${words.unevenTold}: ${n.measured(Math.abs(worst.by))}.`;
    }
  }
}

function Gone({ of, site, take }: { readonly of: string; readonly site: Site; readonly take: (step: Step) => Promise<void> }) {
  const [sure, setSure] = useState(false);
  const [list, ...rest] = of.split("."), id = rest.slice(0, -1).join(".");
  if ((list !== "obstacles" && list !== "hookups") || !of.endsWith(".at") && !of.endsWith(".outline")) return null;
  if (!sure) return <p><button type="button" className={styles.quiet} onClick={() => setSure(true)}>{words.gone}</button></p>;
  return (
    <p className={styles.buttons} role="alert">
      <span>{words.goneSure(thingName(id, site))}</span>
      <button type="button" className={styles.quiet} onClick={() => void take({ do: "gone", id, list, step: freshId() })}>{words.yes}</button>
      <button type="button" className={styles.quiet} onClick={() => setSure(false)}>{words.no}</button>
    </p>
  );
}
