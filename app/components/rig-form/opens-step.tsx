import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { partKinds } from "./added-parts";
import { WallDrawing } from "./drawings/wall-drawing";
import { FieldRow, isUntouched } from "./field-row";
import { fromWall, isEnd } from "./fields";
import type { OutlinePart } from "./outline";
import type { RigForm } from "./read";
import { TapWall } from "./tap-wall";
import styles from "./step-form.module.css";

const SIDES = ["left", "right", "rear", "front"] as const;
const NEEDS = ["must", "nice", "off"] as const;

/** What opens out, on a drawing of either side and in numbers. */
export function OpensStep({ form, open }: { readonly form: RigForm; readonly open: string | undefined }) {
  const { guestRig: { opens: words } } = catalogueOf();
  const { parts } = form.outline;
  return (
    <>
      <p className={styles.lead}>{words.lead} <span className={styles.quiet}>{words.facing}</span></p>
      <div className={styles.walls}>
        <Wall form={form} side="left" /><Wall form={form} side="right" />
      </div>
      <fieldset className={styles.group}>
        <legend>{words.addTitle}</legend>
        <p className={styles.quiet}>{words.tapHelp}</p>
        <div className={styles.chips}>
          {partKinds.map((kind, i) => <label key={kind}><input type="radio" name="addKind" value={kind} defaultChecked={i === 0} />{words.kinds[kind]}</label>)}
        </div>
        <input type="hidden" name="addAt" value="" />
        <div className={styles.adds}>{SIDES.map((side) => <AddButton key={side} side={side} />)}</div>
      </fieldset>
      <section className={styles.group} aria-labelledby="parts">
        <h2 id="parts">{words.parts}</h2>
        {parts.length === 0 ? <p className={styles.quiet}>{words.none}</p> : <div>{parts.map((entry) => <PartFold key={entry.part.id} form={form} entry={entry} open={open === entry.part.id} />)}</div>}
      </section>
    </>
  );
}

function Wall({ form, side }: { readonly form: RigForm; readonly side: "left" | "right" }) {
  const { guestRig: words } = catalogueOf();
  return (
    <figure className={styles.wall}>
      <figcaption>{words.sidesShort[side]}</figcaption>
      <TapWall side={side}><WallDrawing outline={form.outline} side={side} /></TapWall>
    </figure>
  );
}

function AddButton({ side }: { readonly side: "left" | "right" | "rear" | "front" }) {
  const { guestRig: { opens, sides } } = catalogueOf();
  return <button type="submit" name="add" value={side} className={styles.plain} aria-label={opens.addTo(sides[side])}>{opens.wall(sides[side])}</button>;
}

function PartFold({ form, entry: { part, need, added }, open }: { readonly form: RigForm; readonly entry: OutlinePart; readonly open: boolean }) {
  const { guestRig: { opens: words, sidesShort, typicalMark }, things } = catalogueOf();
  const name = things.label({ type: "part", part }), n = numbersFor(form.units);
  const fields = form.fields.filter((f) => f.group === part.id && f.step === "opens");
  const [start, end] = fromWall(form.outline.rig, part.side, part.span).map(n.measured);
  const faulty = fields.some((f) => form.faults[f.input] !== undefined);
  const summary = need === "off" ? words.staysIn : isEnd(part.side) ? words.placeOnEnd(n.measured(part.depth)) : words.place(start!, end!, n.measured(part.depth));
  return (
    <details className={styles.fold} id={`part-${part.id}`} open={open || faulty}>
      <summary><b>{words.partOn(name, sidesShort[part.side])}</b><span>{unbroken(summary)}{isUntouched(form, part.id) && need !== "off" && <i>{typicalMark}</i>}</span></summary>
      <div className={styles.folded}>
        <div className={styles.choice}>
          <label htmlFor={`need-${part.id}`}>{words.need}</label>
          <select id={`need-${part.id}`} name={`part-${part.id}`} defaultValue={need}>{NEEDS.map((n) => <option key={n} value={n}>{words.needs[n]}</option>)}</select>
        </div>
        {need !== "off" && <div className={styles.columns}>{fields.map((field) => <FieldRow key={field.input} form={form} field={field} part={part} />)}</div>}
        <button type="submit" name="drop" value={part.id} className={styles.remove} aria-label={words.removeOf(name)}>{added ? words.remove : words.notMine}</button>
      </div>
    </details>
  );
}
