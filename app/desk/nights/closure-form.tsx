"use client";

import { useActionState } from "react";
import { nights as words } from "@/lib/wording/en/nights";
import { closeFromForm, type ClosureState } from "./actions";
import styles from "./nights.module.css";

const empty: ClosureState = { values: { site: "", starts: "", ends: "", reason: "" }, faults: {}, done: false };

/** Works without script too: the form is then answered with the page. */
export function ClosureForm({ sites, today }: { readonly sites: readonly { readonly id: string; readonly label: string }[]; readonly today: string }) {
  const [{ values, faults, done }, act, pending] = useActionState(closeFromForm, empty);
  const fault = (name: keyof ClosureState["values"]) => faults[name] && <span id={`closure-${name}`} className={styles.fault}>{faults[name]}</span>;
  const describe = (name: keyof ClosureState["values"]) => (faults[name] ? { "aria-invalid": true, "aria-describedby": `closure-${name}` } : {});
  return (
    <form action={act} className={styles.form} noValidate key={done ? "done" : "open"}>
      <div className={styles.field}><label>{words.closedSite}<select name="site" defaultValue={values.site} {...describe("site")}>{sites.map(({ id, label }) => <option key={id} value={id}>{label}</option>)}</select></label>{fault("site")}</div>
      <div className={styles.field}><label>{words.closedFrom}<input type="date" name="starts" min={today} defaultValue={values.starts} {...describe("starts")} /></label>{fault("starts")}</div>
      <div className={styles.field}><label>{words.closedUntil}<input type="date" name="ends" min={today} defaultValue={values.ends} {...describe("ends")} /></label>{fault("ends")}</div>
      <div className={styles.field}><label>{words.closedWhy}<input name="reason" defaultValue={values.reason} maxLength={200} {...describe("reason")} /></label>{fault("reason")}</div>
      <button type="submit" disabled={pending}>{words.close}</button>
      <p role="status">{done ? words.closed : ""}</p>
    </form>
  );
}
