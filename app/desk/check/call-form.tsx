import { typicalKinds } from "@/lib/rig/typical";
import { catalogueOf, numbersFor } from "@/lib/wording";
import type { Asked } from "./asked";
import { factIds } from "./facts";
import { shortWords, type CalledKind, type CallFault } from "./read-call";
import styles from "./desk.module.css";

/** The one field a clerk needs, and lists for those who would rather choose. A GET form: the address keeps the caller. */
export function CallForm({ asked }: { readonly asked: Asked }) {
  const { desk: words } = catalogueOf().staff;
  const { text, units, park, loop, loopIds, loops, read, answers } = asked;
  const faults = read && !read.ok ? read.faults : [];
  return (
    <form method="get" action="/desk/check" className={styles.form} noValidate>
      <div className={faults.length > 0 ? styles.faulty : styles.field}>
        <label htmlFor="call">{words.field}</label>
        {/* The page is for one thing, and a clerk with a caller on the line should not have to look for it. */}
        <input
          id="call" name="call" defaultValue={text} key={text} autoFocus autoComplete="off" autoCapitalize="none" spellCheck={false} maxLength={80} enterKeyHint="go" placeholder={words.example(units)}
          aria-invalid={faults.length > 0 || undefined} aria-describedby={faults.length > 0 ? "call-faults call-hint" : "call-hint"}
        />
        {faults.length > 0 && <Faults asked={asked} faults={faults} />}
        <p id="call-hint" className={styles.hint}>{words.hint}</p>
      </div>
      <div className={styles.field}>
        <label htmlFor="loop">{words.loop}</label>
        <select id="loop" name="loop" defaultValue={loop ?? ""} data-submits>
          <option value="">{words.anyLoop}</option>
          {loopIds.map((id) => <option key={id} value={id}>{words.loopName(id, loops.find((l) => l.id === id)?.name)}</option>)}
        </select>
      </div>
      <button type="submit" className={styles.submit}>{words.submit}</button>
      {units !== park.units && <input type="hidden" name="units" value={units} />}
      <input type="hidden" name="was" value={text} />
      {factIds.map((id) => answers[id] !== undefined && <input key={id} type="hidden" data-answered name={id} value={answers[id] ? "yes" : "no"} />)}
      <Lists />
    </form>
  );
}

function Faults({ asked: { units }, faults }: { readonly asked: Asked; readonly faults: readonly CallFault[] }) {
  const { desk: words } = catalogueOf().staff;
  const n = numbersFor(units);
  return (
    <div id="call-faults" className={styles.faults} role="alert">
      {faults.map((fault) => <p key={fault.code}>{words.fault(fault, (kind) => shortWords[kind as CalledKind], units, n)}</p>)}
    </div>
  );
}

/** Used where the line above is left empty. */
function Lists() {
  const { staff: { desk: words }, things } = catalogueOf();
  return (
    <details className={styles.lists}>
      <summary>{words.choose}</summary>
      <div className={styles.choices}>
        <div className={styles.field}>
          <label htmlFor="kind">{words.kind}</label>
          <select id="kind" name="kind" defaultValue="">
            <option value="" />
            {typicalKinds.map((kind) => <option key={kind} value={kind}>{things.rigKinds[kind]}</option>)}
          </select>
        </div>
        <div className={styles.field}>
          <label htmlFor="length">{words.length}</label>
          <input id="length" name="length" autoComplete="off" maxLength={40} />
        </div>
      </div>
      <p className={styles.hint}>{words.kinds}: {typicalKinds.map((kind) => `${shortWords[kind]} ${things.rigKinds[kind].toLowerCase()}`).join(", ")}.</p>
    </details>
  );
}
