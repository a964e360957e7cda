"use client";

import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import { KeptPage } from "../../../components/kept-page/kept-page";
import type { SiteInput } from "@/lib/park";
import type { Units } from "@/lib/measure";
import { placesOf, progressOf, soundSite, type Found, type Step } from "@/lib/survey";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { AddThing } from "./add-thing";
import { ItemPanel } from "./item-panel";
import { nameOf } from "./naming";
import type { Form } from "./reading";
import { SendingLine } from "./sending-line";
import { SurveyPlan } from "./survey-plan";
import { useSteps } from "./use-steps";
import styles from "./walk.module.css";

interface SurveyWalkProps {
  /** Whose measurements these are: nobody else's phone sends them. */
  readonly account: string;
  readonly by: string;
  readonly siteId: string;
  readonly label: string;
  readonly record: SiteInput;
  readonly draft: string | null;
  readonly units: Units;
}

/** A site walked with a tape: one thing after the other, the plan growing as numbers go in. */
export function SurveyWalk({ account, by, siteId, label, record: begun, draft, units }: SurveyWalkProps) {
  const steps = useSteps({ account, site: siteId, record: begun, draft });
  const { record } = steps, site = useMemo(() => soundSite(record), [record]);
  const items = useMemo(() => (site ? progressOf(site).items : []), [site]);
  const [at, setAt] = useState(0);
  const [shown, setShown] = useState<{ form: Form | null; found: Found | null }>({ form: null, found: null });
  const [told, setTold] = useState("");
  const day = useSyncExternalStore(noChange, today, () => "");
  const heading = useRef<HTMLHeadingElement>(null), moved = useRef(false);
  const index = Math.min(at, Math.max(0, items.length - 1)), item = items[index];
  useEffect(() => { if (moved.current) heading.current?.focus(); }, [index]);
  const kept = <KeptPage folder="/manage/survey/" lines={words.page} anew={steps.sent} />;
  if (!site || !item) return kept;
  const go = (next: number) => { moved.current = true; setAt(Math.max(0, Math.min(items.length - 1, next))); setShown({ form: null, found: null }); };
  const take = async (step: Step) => {
    await steps.take(step);
    setTold(words.keptOne(step.do === "add" ? step.name : nameOf(step.do === "gone" ? `${step.list}.${step.id}.at` : step.reading.of, site)));
    if (step.do === "read") go(index + 1);
  };
  const known = placesOf(site).known;
  const now = { at: shown.found?.type === "place" ? shown.found.placement.at : (known.get(item.of)?.at ?? null), from: shown.form?.method === "tapes" ? shown.form.tapes.flatMap(({ from }) => { const held = known.get(from); return held ? [held.at] : []; }) : [], ellipse: shown.found?.type === "place" ? shown.found.placement.ellipse : null };
  return (
    <div className={styles.walk}>
      <SendingLine steps={steps} site={site} units={units} />
      <div className={styles.columns}>
        <SurveyPlan record={record} site={site} units={units} label={words.plan(label)} now={now} />
        <section className={styles.current} aria-labelledby="item">
          <p className={styles.count}>{words.itemOf(index + 1, items.length)}</p>
          <h2 id="item" tabIndex={-1} ref={heading}>{nameOf(item.of, site)}</h2>
          <p role="status" className={styles.told}>{told}</p>
          <ItemPanel key={`${item.of} ${item.measurement?.id ?? ""}`} item={item} record={record} site={site} units={units} by={by} today={day} take={take} show={(form, found) => setShown({ form, found })} />
          <p className={styles.buttons}>
            <button type="button" className={styles.quiet} disabled={index === 0} onClick={() => go(index - 1)}>{words.previous}</button>
            <button type="button" className={styles.quiet} disabled={index === items.length - 1} onClick={() => go(index + 1)}>{words.next}</button>
          </p>
          <AddThing record={record} site={site} units={units} by={by} today={day} take={take} />
        </section>
      </div>
      <details className={styles.items}>
        <summary>{words.items}</summary>
        <ol>{items.map(({ of, state }, i) => <li key={of}><button type="button" aria-current={i === index ? "step" : undefined} onClick={() => go(i)}><span>{nameOf(of, site)}</span> <span className={styles[state]}>{words.states[state]}</span></button></li>)}</ol>
      </details>
      {kept}
    </div>
  );
}

/** A walk ends on the day it began. */
const noChange = () => () => undefined;

/** The day on the phone, which the office's clock may not have come to. */
function today(): string {
  const now = new Date(), two = (n: number) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
