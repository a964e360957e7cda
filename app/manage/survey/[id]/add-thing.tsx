import { useState } from "react";
import type { Site, SiteInput } from "@/lib/park";
import type { Units } from "@/lib/measure";
import { isHookup, newKinds, takeStep, type NewKind, type Step } from "@/lib/survey";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { freshId } from "./fresh-id";
import { noteText } from "./item-panel";
import { MeasureFields } from "./measure-fields";
import { pointName } from "./naming";
import { readForm, type FieldFault, type Form } from "./reading";
import { startForm } from "./start-form";
import styles from "./walk.module.css";

interface AddThingProps {
  readonly record: SiteInput;
  readonly site: Site;
  readonly units: Units;
  readonly by: string;
  readonly today: string;
  readonly take: (step: Step) => Promise<void>;
}

/** Something that stands there and is not on the plan: what it is, its name, and two tapes. The rest is guessed until it is measured. */
export function AddThing({ record, site, units, by, today, take }: AddThingProps) {
  const [open, setOpen] = useState(false);
  const [kind, setKind] = useState<NewKind>("tree");
  const [name, setName] = useState("");
  const [form, setForm] = useState<Form>(() => startForm(site, "obstacles..at"));
  const [faults, setFaults] = useState<Readonly<Record<string, FieldFault>>>({});
  const [told, setTold] = useState<readonly string[]>([]);
  if (!open) return <p><button type="button" className={styles.quiet} onClick={() => setOpen(true)}>{words.add.title}</button></p>;
  const add = async () => {
    const read = readForm(form, units);
    setFaults(read.ok ? {} : read.faults);
    const wrong = name.trim() === "" ? [words.add.noName] : [];
    if (!read.ok || wrong.length > 0) return setTold(wrong);
    const { of: _of, ...place } = read.reading;
    const step: Step = { do: "add", kind, name, place: { ...place, id: freshId(), on: today, ...(by ? { by } : {}) } };
    const done = takeStep(record, step);
    if (!done.ok) return setTold(done.why.code === "reading" ? done.why.notes.map((note) => noteText(note, (one) => pointName(/^\d+$/.test(one) ? (form.tapes[Number(one)]?.from ?? one) : one, site), units)) : [words.add.taken]);
    await take(step);
    setOpen(false);
    setName("");
    setTold([]);
  };
  return (
    <section className={styles.add} aria-labelledby="add-title">
      <h3 id="add-title">{words.add.title}</h3>
      <p className={styles.box}><label htmlFor="add-kind">{words.add.kind}</label><select id="add-kind" value={kind} onChange={(event) => setKind(event.target.value as NewKind)}>{newKinds.map((one) => <option key={one} value={one}>{words.add.kinds[one]}</option>)}</select></p>
      <p className={styles.box}><label htmlFor="add-name">{words.add.name} <span className={styles.hint}>({words.add.nameHint})</span></label><input id="add-name" value={name} maxLength={60} autoComplete="off" onChange={(event) => setName(event.target.value)} /></p>
      <p className={styles.help}>{words.helps.tapes}</p>
      <MeasureFields form={{ ...form, of: isHookup(kind) ? "hookups..at" : "obstacles..at" }} site={site} units={units} faults={faults} change={(next) => { setForm(next); setFaults({}); setTold([]); }} />
      <p>{words.add.guessed}</p>
      {told.length > 0 && <ul className={styles.bad} role="alert">{told.map((line) => <li key={line}>{line}</li>)}</ul>}
      <p className={styles.buttons}><button type="button" className={styles.keep} onClick={() => void add()}>{words.add.open}</button><button type="button" className={styles.quiet} onClick={() => setOpen(false)}>{words.add.cancel}</button></p>
    </section>
  );
}
