import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { Check, FieldRow, isUntouched } from "./field-row";
import { isEnd } from "./fields";
import { adaptersOf, loadsOf, NONE, plugs, services, type OutlineInlet } from "./outline";
import type { RigForm } from "./read";
import styles from "./step-form.module.css";

const SIDES = ["left", "right", "rear", "front"] as const;
const NEEDS = ["must", "nice", "off"] as const;

/** Where cord and hoses plug in, what is needed of the site, and what the guest carries. */
export function HookupsStep({ form, open }: { readonly form: RigForm; readonly open: string | undefined }) {
  const { guestRig: { hookups: words, skip } } = catalogueOf();
  const { outline: { rig, inlets }, base } = form;
  const gear = form.fields.filter((f) => f.step === "hookups" && f.group === undefined);
  return (
    <>
      <p className={styles.lead}>{words.lead} <span className={styles.quiet}>{skip}</span></p>
      <fieldset className={styles.group}>
        <legend>{words.wants}</legend>
        <input type="hidden" name="want" value={NONE} />
        <div className={styles.checks}>{services.map((s) => <Check key={s} name="want" value={s} on={rig.wants.includes(s)}>{words.wantsNames[s]}</Check>)}</div>
      </fieldset>
      <section className={styles.group} aria-labelledby="gear">
        <h2 id="gear">{words.gear}</h2>
        <div className={styles.columns}>{gear.map((field) => <FieldRow key={field.input} form={form} field={field} />)}</div>
        <p className={styles.caution}>{words.blocksCaution}</p>
      </section>
      <section className={styles.group} aria-labelledby="inlets">
        <h2 id="inlets">{words.where}</h2>
        <div>{inlets.map((entry) => <InletFold key={entry.key} form={form} entry={entry} open={open === entry.key} />)}</div>
      </section>
      <section className={styles.group} aria-labelledby="power">
        <h2 id="power">{words.power}</h2>
        <div className={styles.columns}>
          <div>
            <div className={styles.choice}>
              <label htmlFor="plug">{words.plug}</label>
              <select id="plug" name="plug" defaultValue={rig.electric?.plug ?? NONE}>
                {plugs.map((p) => <option key={p} value={p}>{words.plugs[p]}</option>)}
                <option value={NONE}>{words.noPlug}</option>
              </select>
            </div>
            <fieldset className={styles.group}>
              <legend className={styles.minor}>{words.adapters}</legend>
              <input type="hidden" name="adapter" value={NONE} />
              {adaptersOf(base).map((a) => <Check key={a} name="adapter" value={a} on={rig.gear.adapters.includes(a)}>{words.adapter(...(a.split("-to-") as [string, string]))}</Check>)}
            </fieldset>
            <input type="hidden" name="regulator" value="0" />
            <Check name="regulator" value="1" on={rig.gear.regulator}>{words.regulator}</Check>
          </div>
          <Loads form={form} />
        </div>
        <p className={styles.caution}>{words.caution}</p>
      </section>
    </>
  );
}

function Loads({ form: { base, outline: { rig } } }: { readonly form: RigForm }) {
  const { guestRig: { hookups: words }, things } = catalogueOf();
  const now = new Map((rig.electric?.loads ?? []).map((l) => [l.id, l.need] as const));
  return (
    <fieldset className={styles.group}>
      <legend className={styles.minor}>{words.loads}</legend>
      {loadsOf(base).map(({ id }) => (
        <div key={id} className={styles.load}>
          <label htmlFor={`load-${id}`}>{words.load(things.load(id))}</label>
          <select id={`load-${id}`} name={`load-${id}`} defaultValue={now.get(id) ?? "off"}>{NEEDS.map((need) => <option key={need} value={need}>{words.loadNeeds[need]}</option>)}</select>
        </div>
      ))}
    </fieldset>
  );
}

function InletFold({ form, entry: { key, service, inlet }, open }: { readonly form: RigForm; readonly entry: OutlineInlet; readonly open: boolean }) {
  const { guestRig: { hookups: words, sidesShort, typicalMark } } = catalogueOf();
  const n = numbersFor(form.units), fields = form.fields.filter((f) => f.group === key && f.step === "hookups");
  const faulty = fields.some((f) => form.faults[f.input] !== undefined);
  const told = !inlet ? words.noInlet : isEnd(inlet.side) ? words.atEnd(sidesShort[inlet.side], n.measured(inlet.height)) : words.at(sidesShort[inlet.side], n.measured(inlet.u ?? 0), n.measured(inlet.height));
  return (
    <details className={styles.fold} id={`inlet-${key}`} open={open || faulty}>
      <summary><b>{words.inletNames[service]}</b><span>{unbroken(told)}{inlet && isUntouched(form, key) && <i>{typicalMark}</i>}</span></summary>
      <div className={styles.folded}>
        <div className={styles.choice}>
          <label htmlFor={`side-${key}`}>{words.side}</label>
          <select id={`side-${key}`} name={`inlet-${key}.side`} defaultValue={inlet?.side ?? NONE}>
            {SIDES.map((side) => <option key={side} value={side}>{sidesShort[side]}</option>)}
            <option value={NONE}>{words.noInlet}</option>
          </select>
        </div>
        {inlet && <div className={styles.columns}>{fields.map((field) => <FieldRow key={field.input} form={form} field={field} inlet={inlet} />)}</div>}
      </div>
    </details>
  );
}
