"use client";

import { keyOf, type Draft } from "@/lib/park/edit/record";
import { thingAt } from "@/lib/park/edit/things";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { AGAIN, domId, useAround } from "./field";
import { fieldsOf, gradeFields, pointFields, ruleFields, siteFields, slopeFields } from "./fields";
import { nameOf } from "../../../editing/names";
import styles from "../../../editing/editor.module.css";

/** One thing to put right: where it is told beside its field, and in which entry of the list. */
export interface ToPutRight {
  readonly key: string;
  readonly entry: string;
  readonly line: string;
}

/** Everything that keeps the record from being saved, each leading to its field. */
export function FaultList({ toPutRight, onGo }: { readonly toPutRight: readonly ToPutRight[]; readonly onGo: (one: ToPutRight) => void }) {
  if (toPutRight.length === 0) return null;
  return (
    <section className={styles.faults} aria-labelledby="to-put-right">
      <h2 id="to-put-right">{words.faultsTitle(toPutRight.length)}</h2>
      <ul>{toPutRight.map((one) => <li key={`${one.key} ${one.line}`}><button type="button" onClick={() => onGo(one)}>{one.line}</button></li>)}</ul>
    </section>
  );
}

/** Faults of the record and texts that cannot be read, in words. */
export function useToPutRight(): ToPutRight[] {
  const { state: { history, unread }, faults, units } = useAround();
  const draft = history.present;
  const waiting = Object.entries(unread).map(([key, { fault, text }]) => toLine(draft, key, words.unread(fault, text, units)));
  return [...waiting, ...faults.filter(({ key }) => !(key in unread)).map((fault) => toLine(draft, fault.key, words.fault(fault)))];
}

/** The element of the page that tells a fault: its field, else what stands above the corners. */
export function whereTold(key: string): HTMLElement | null {
  return document.getElementById(domId(key)) ?? document.getElementById(`${domId(key)}-fault`);
}

function toLine(draft: Draft, told: string, what: string): ToPutRight {
  const key = told.endsWith(AGAIN) ? told.slice(0, -AGAIN.length) : told;
  const path = key.split(".").map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  const thing = thingAt(draft, path);
  const specs = thing ? [...fieldsOf(draft, thing), ...thing.handles.flatMap((handle) => { const { into, left, height } = pointFields(handle, true); return [into, left, ...(height ? [height] : [])]; })] : [];
  const grade = path[1] === "gradeBreaks" ? gradeFields(Number(path[2])) : [];
  const field = [...specs, ...grade, ...siteFields(draft), ...slopeFields, ...ruleFields].find((spec) => keyOf(spec.path) === key)?.label ?? null;
  const entry = thing && path[1] !== "gradeBreaks" ? keyOf(thing.path) : path[0] === "rules" ? "rules" : path[0] === "ground" ? "slopes" : path[0] === "approach" ? "approach.road" : "site";
  const name = thing ? nameOf(draft, thing) : path[0] === "rules" ? words.rules : path[0] === "ground" ? words.slopes : path[0] === "approach" ? words.kinds.road : words.names;
  return { key: told, entry, line: words.faultLine(name, field, what) };
}
