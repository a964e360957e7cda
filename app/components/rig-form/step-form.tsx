import Link from "next/link";
import type { ReactNode } from "react";
import { overallLength } from "@/lib/rig";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { Busy } from "./busy";
import { RigSide, GroundLine } from "./drawings/rig-side";
import drawings from "./drawings/drawings.module.css";
import { FaultSummary } from "./fault-summary";
import { ownInputs } from "./own-inputs";
import type { RigForm } from "./read";
import { hrefOfStep } from "./step-links";
import { steps, type Step } from "./steps";
import styles from "./step-form.module.css";

interface StepFormProps {
  readonly form: RigForm;
  readonly step: Step;
  readonly children: ReactNode;
}

/** One step of the form: a plain GET form that carries the other steps' values along unseen, so that each can be skipped and none is lost. */
export function StepForm({ form, step, children }: StepFormProps) {
  const { guestRig: words } = catalogueOf();
  const at = steps.indexOf(step), next = steps[at + 1];
  return (
    <form method="get" action={`${form.way?.path ?? "/rig"}/go`} className={styles.form} noValidate>
      <Carried form={form} step={step} />
      {/* What Enter does: the first submit button of a form. */}
      <button type="submit" name="go" value="sites" className="visually-hidden" tabIndex={-1} aria-hidden="true" />
      <nav className={styles.steps} aria-label={words.stepsLabel}>
        <p>{words.step(at + 1, steps.length)}</p>
        <ol>
          {steps.map((s) => <li key={s}><button type="submit" name="go" value={s} aria-current={s === step ? "step" : undefined}>{words.steps[s]}</button></li>)}
        </ol>
      </nav>
      <FaultSummary form={form} />
      {children}
      <div className={styles.actions}>
        <Busy className={styles.sites} name="go" value="sites" label={form.way?.submit ?? words.toSites} busy={words.working} />
        {next && <button type="submit" name="go" value={next} className={styles.next}>{words.next(words.steps[next].toLowerCase())}</button>}
      </div>
    </form>
  );
}

function Carried({ form, step }: { readonly form: RigForm; readonly step: Step }) {
  const own = ownInputs(form, step);
  const pairs = [...new URLSearchParams(form.query).entries()].filter(([name]) => !own.has(name));
  return [...pairs, ["units", form.units] as const, ["step", step] as const].map(([name, value], i) => <input key={`${name} ${i}`} type="hidden" name={name} value={value} />);
}

/** What is being told about, drawn as it stands by now. */
export function RigHead({ form, step }: { readonly form: RigForm; readonly step: Step }) {
  const { guestRig: words } = catalogueOf();
  const { rig } = form.outline, n = numbersFor(form.units);
  const other = form.units === "metric" ? "ft-in" : "metric";
  const long = (rig.body.length + (rig.hitch?.length ?? 0)) / 10, tall = rig.body.height / 10;
  const left = rig.kind === "toy-hauler" ? -170 : rig.kind === "folding-trailer" ? -130 : -20;
  const right = rig.kind === "folding-trailer" ? Math.max(long, rig.body.length / 10 + 115) + 20 : long + 20;
  return (
    <div className={styles.head} data-step={step}>
      <div>
        <h1>{unbroken(words.kindLine(form.start.name, n.measured(overallLength(rig))))}</h1>
        <p className={styles.standing}>{form.start.kind ? words.typicalLine : words.keptNumbers}</p>
        <p className={styles.ways}>
          {!form.way && <Link href="/" prefetch={false}>{words.otherKind}</Link>}
          <a href={hrefOfStep({ ...form, units: other }, step)}>{words.useUnits[other]}</a>
        </p>
      </div>
      <svg className={`${drawings.sheet} ${styles.portrait}`} preserveAspectRatio="xMinYMax meet" viewBox={[left, -tall - 12, right - left, tall + 34].map(Math.round).join(" ")} aria-hidden="true" focusable="false">
        <GroundLine x0={Math.round(left)} x1={Math.round(right)} />
        <RigSide rig={rig} />
      </svg>
    </div>
  );
}
