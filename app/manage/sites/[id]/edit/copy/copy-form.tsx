"use client";

import { useActionState, useEffect, useRef } from "react";
import { siteEditor } from "@/lib/wording/en/site-editor";
import { copySiteAction, type Copying } from "./actions";
import fields from "../../../../editing/fields.module.css";
import styles from "../../../../editing/editor.module.css";

const { copy: words } = siteEditor;

/** What a new site is called. Works without script; faults come back beside their fields with what was typed. */
export function CopyForm({ from, start }: { readonly from: string; readonly start: Copying }) {
  const [copying, send, sending] = useActionState(copySiteAction.bind(null, from), start);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (copying !== start) form.current?.querySelector<HTMLElement>("[aria-invalid=true]")?.focus();
  }, [copying, start]);
  const { faults } = copying;
  return (
    <form ref={form} action={send} noValidate className={styles.plainForm} key={JSON.stringify(copying)}>
      <Text name="id" label={words.id} value={copying.id} fault={faults.id} hint={words.idHint} />
      <Text name="label" label={words.label} value={copying.label} fault={faults.label} />
      <Text name="loop" label={words.loop} value={copying.loop} fault={faults.loop} />
      <label className={fields.tick}><input type="checkbox" name="mirrored" value="yes" defaultChecked={copying.mirrored} aria-describedby="mirrored-hint" /> {words.mirrored}</label>
      <p id="mirrored-hint" className={styles.hint}>{words.mirroredHint}</p>
      <button type="submit" className={styles.look} disabled={sending}>{words.make}</button>
    </form>
  );
}

function Text({ name, label, value, fault, hint }: { readonly name: string; readonly label: string; readonly value: string; readonly fault: string | undefined; readonly hint?: string }) {
  const about = [fault && `${name}-fault`, hint && `${name}-hint`].filter(Boolean).join(" ");
  return (
    <div className={fault ? fields.faulty : fields.field}>
      <label htmlFor={name}>{label}</label>
      {hint && <p id={`${name}-hint`} className={styles.hint}>{hint}</p>}
      <input id={name} name={name} defaultValue={value} autoComplete="off" aria-invalid={fault ? true : undefined} aria-describedby={about || undefined} />
      {fault && <p id={`${name}-fault`} className={fields.fault}>{fault}</p>}
    </div>
  );
}
