import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { stepText } from "./step-text";
import type { Steps } from "./use-steps";
import styles from "./walk.module.css";

/** How what was measured stands: sent, on its way, or kept on the phone; and the way on to saving it. */
export function SendingLine({ steps: { waiting, refused, sending, draft, send, drop }, site, units }: { readonly steps: Steps; readonly site: Site; readonly units: Units }) {
  const here = `/manage/survey/${encodeURIComponent(site.id)}`;
  return (
    <section className={styles.sending} aria-label={words.keptHere}>
      <p role="status"><strong>{lineOf(sending, waiting)}</strong> {waiting === 0 && sending === "idle" && !draft && words.keptHere}</p>
      <p className={styles.buttons}>
        {sending === "signed-out" && <a href={`/sign-in?next=${encodeURIComponent(here)}`}>{words.signIn}</a>}
        {waiting > 0 && sending === "waiting" && <button type="button" className={styles.quiet} onClick={send}>{words.sendNow}</button>}
        {draft && waiting === 0 && <a className={styles.save} href={`/manage/sites/${encodeURIComponent(site.id)}/change?draft=${draft}`}>{words.save}</a>}
        {draft && waiting > 0 && <span>{words.saveWait}</span>}
      </p>
      {refused.length > 0 && (
        <div role="alert">
          <h2>{words.refused.title}</h2>
          <ul>{refused.map(({ key, step }) => <Refused key={key} {...stepText(step, site, units)} drop={() => void drop(key!)} />)}</ul>
        </div>
      )}
    </section>
  );
}

function Refused({ what, read, drop }: { readonly what: string; readonly read: string; readonly drop: () => void }) {
  return <li><strong>{what}</strong>: {read}. {words.refused.line} <button type="button" className={styles.quiet} aria-label={`${words.refused.drop}: ${what}`} onClick={drop}>{words.refused.drop}</button></li>;
}

function lineOf(sending: Steps["sending"], waiting: number): string {
  switch (sending) {
    case "signed-out": return words.sending.signedOut(waiting);
    case "gone": return words.sending.gone;
    case "no-store": return words.sending.noStore;
    case "sending": return words.sending.sending;
    case "waiting": return words.sending.waiting(waiting);
    case "idle": return waiting > 0 ? words.sending.waiting(waiting) : words.sending.idle;
  }
}
