import type { Site } from "@/lib/park";
import type { Units } from "@/lib/measure";
import { numbersIn } from "@/lib/wording/format";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { fieldsOf } from "./methods";
import { pointName } from "./naming";
import { AGAIN_WITHIN, type FieldFault, type Form } from "./reading";
import { cornersOf, ringLetter } from "./start-form";
import styles from "./walk.module.css";

interface FieldsProps {
  readonly form: Form;
  readonly site: Site;
  readonly units: Units;
  readonly faults: Readonly<Record<string, FieldFault>>;
  readonly change: (form: Form) => void;
}

/** The fields of the method that is chosen: large, one under the other, each with its own fault. */
export function MeasureFields(props: FieldsProps) {
  const { form: { method } } = props;
  if (method === "tapes") return <TapeFields {...props} />;
  if (method === "ring") return <RingFields {...props} />;
  if (method === "spots") return <SpotFields {...props} />;
  return <PlainFields {...props} />;
}

interface BoxProps {
  readonly name: string;
  readonly label: string;
  readonly value: string;
  readonly fault: FieldFault | undefined;
  readonly hint?: string | undefined;
  readonly change: (text: string) => void;
}

function Box({ name, label, value, fault, hint, change }: BoxProps) {
  const id = `measure-${name}`;
  return (
    <p className={styles.box}>
      <label htmlFor={id}>{label}{hint && <span className={styles.hint}> ({hint})</span>}</label>
      <input id={id} value={value} onChange={(event) => change(event.target.value)} autoComplete="off" inputMode="text" enterKeyHint="next" maxLength={40} aria-invalid={fault ? true : undefined} aria-describedby={fault ? `${id}-fault` : undefined} />
      {fault && <span id={`${id}-fault`} className={styles.fault}>{faultText(fault)}</span>}
    </p>
  );
}

export function faultText(fault: FieldFault): string {
  return fault === "day" ? words.faults.day(AGAIN_WITHIN) : words.faults[fault];
}

interface ChoiceProps<T extends string> {
  readonly name: string;
  readonly title: string;
  readonly options: Readonly<Record<T, string>>;
  readonly value: T;
  readonly change: (value: T) => void;
}

function Choice<T extends string>({ name, title, options, value, change }: ChoiceProps<T>) {
  return (
    <fieldset className={styles.choice}>
      <legend>{title}</legend>
      {(Object.keys(options) as T[]).map((key) => <label key={key}><input type="radio" name={name} checked={value === key} onChange={() => change(key)} /> <span>{options[key]}</span></label>)}
    </fieldset>
  );
}

function PlainFields({ form, faults, change }: FieldsProps) {
  const { of, method, texts } = form, slope = of.startsWith("ground.");
  return (
    <>
      {fieldsOf(method, of).map(({ name, needed }) => (
        <Box key={name} name={name} label={name === "length" && method !== "reach" ? words.fields.length! : (words.fields[name] ?? name)} hint={needed ? undefined : words.optional} value={texts[name] ?? ""} fault={faults[name]} change={(text) => change({ ...form, texts: { ...texts, [name]: text } })} />
      ))}
      {method === "offsets" && <Choice name="side" title={words.fields.across!} options={words.acrossSides} value={form.side} change={(side) => change({ ...form, side })} />}
      {slope && <Choice name="higher" title={words.higherTitle} options={of === "ground.across" ? words.higher.across : words.higher.along} value={form.higher} change={(higher) => change({ ...form, higher })} />}
    </>
  );
}

function TapeFields({ form, site, units, faults, change }: FieldsProps) {
  const { tapes } = form, corners = cornersOf(site), [a, b] = corners;
  const points = [...corners.map(({ name }) => name), ...site.hookups.map(({ id }) => `hookups.${id}.at`), ...site.obstacles.filter(({ at }) => at).map(({ id }) => `obstacles.${id}.at`)].filter((name) => name !== form.of);
  const front = tapes[0]?.from === a!.name && tapes[1]?.from === b!.name, thick = thicknessOf(form.of, site);
  const put = (i: number, row: Partial<Form["tapes"][number]>) => change({ ...form, tapes: tapes.map((tape, k) => (k === i ? { ...tape, ...row } : tape)) });
  return (
    <>
      {tapes.map(({ from, distance }, i) => (
        <fieldset key={i} className={styles.tapeRow}>
          <legend>{words.tape(i + 1)}</legend>
          <p className={styles.box}>
            <label htmlFor={`from-${i}`}>{words.from}</label>
            <select id={`from-${i}`} value={from} onChange={(event) => put(i, { from: event.target.value })}>{points.map((name) => <option key={name} value={name}>{pointName(name, site)}</option>)}</select>
          </p>
          <Box name={`tape-${i}`} label={words.distance} value={distance} fault={faults[`tape-${i}`]} change={(text) => put(i, { distance: text })} />
        </fieldset>
      ))}
      <p className={styles.buttons}>
        <button type="button" className={styles.quiet} onClick={() => change({ ...form, tapes: [...tapes, { from: points.find((name) => !tapes.some(({ from }) => from === name)) ?? points[0]!, distance: "" }] })} disabled={tapes.length >= 8}>{words.oneMore}</button>
        {tapes.length > 2 && <button type="button" className={styles.quiet} onClick={() => change({ ...form, tapes: tapes.slice(0, -1) })}>{words.oneLess}</button>}
      </p>
      <Choice name="side" title={words.side} options={front ? words.sidesFront : words.sides} value={form.side} change={(side) => change({ ...form, side })} />
      {thick > 0 && <label className={styles.tick}><input type="checkbox" checked={form.add > 0} onChange={(event) => change({ ...form, add: event.target.checked ? thick : 0 })} /> <span>{words.face(numbersIn(units, ",").measured(thick))}</span></label>}
    </>
  );
}

/** Half the thickness of what the tape is held to, mm; 0 where that is not known. */
function thicknessOf(of: string, site: Site): number {
  const [list, ...rest] = of.split("."), id = rest.slice(0, -1).join(".");
  if (list === "hookups") return site.hookups.find((one) => one.id === id)?.postRadius ?? 0;
  const obstacle = site.obstacles.find((one) => one.id === id);
  return obstacle?.trunkRadius ?? obstacle?.radius ?? 0;
}

function RingFields({ form, site, faults, change }: FieldsProps) {
  const corners = cornersOf(site), letter = (i: number) => ringLetter(i, corners), n = form.sides.length;
  return (
    <>
      {form.sides.map((side, i) => <Box key={i} name={`side-${i}`} label={words.ringSide(letter(i), letter((i + 1) % n))} value={side} fault={faults[`side-${i}`]} change={(text) => change({ ...form, sides: form.sides.map((one, k) => (k === i ? text : one)) })} />)}
      {form.diagonals.length > 0 && <h4>{words.diagonals}</h4>}
      {form.diagonals.map(({ from, to, length }, i) => <Box key={`${from} ${to}`} name={`diagonal-${i}`} label={words.ringSide(letter(from), letter(to))} hint={i >= n - 3 ? words.optional : undefined} value={length} fault={faults[`diagonal-${i}`]} change={(text) => change({ ...form, diagonals: form.diagonals.map((one, k) => (k === i ? { ...one, length: text } : one)) })} />)}
      {n > 4 && (
        <fieldset className={styles.choice}>
          <legend>{words.inward}</legend>
          {form.sides.map((_, i) => <label key={i}><input type="checkbox" checked={form.inward.includes(i)} onChange={(event) => change({ ...form, inward: event.target.checked ? [...form.inward, i] : form.inward.filter((k) => k !== i) })} /> <span>{letter(i)}</span></label>)}
        </fieldset>
      )}
    </>
  );
}

function SpotFields({ form, site, faults, change }: FieldsProps) {
  const corners = cornersOf(site);
  return form.spots.map(({ height }, i) => (
    <Box key={i} name={`spot-${i}`} label={words.spot(corners[i] ? words.corner(corners[i].letter) : words.middle)} value={height} fault={faults[`spot-${i}`]} change={(text) => change({ ...form, spots: form.spots.map((one, k) => (k === i ? { ...one, height: text } : one)) })} />
  ));
}
