import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import type { Steps } from "./use-steps";
import styles from "./walk.module.css";

/** How what was measured stands: sent, on its way, or kept on the phone; and the way on to saving it. */
export function SendingLine({ steps: { waiting, refused, sending, draft, send, drop }, siteId, nameOf }: { readonly steps: Steps; readonly siteId: string; readonly nameOf: (of: string) => string }) {
  const here = `/manage/survey/${encodeURIComponent(siteId)}`;
  return (
    <section className={styles.sending} aria-label={words.keptHere}>
      <p role="status"><strong>{lineOf(sending, waiting)}</strong> {waiting === 0 && sending === "idle" && !draft && words.keptHere}</p>
      <p className={styles.buttons}>
        {sending === "signed-out" && <a href={`/sign-in?next=${encodeURIComponent(here)}`}>{words.signIn}</a>}
        {waiting > 0 && sending === "waiting" && <button type="button" className={styles.quiet} onClick={send}>{words.sendNow}</button>}
        {draft && waiting === 0 && <a className={styles.save} href={`/manage/sites/${encodeURIComponent(siteId)}/change?draft=${draft}`}>{words.save}</a>}
        {draft && waiting > 0 && <span>{words.saveWait}</span>}
      </p>
      {refused.length > 0 && (
        <div role="alert">
          <h2>{words.refused.title}</h2>
          <ul>{refused.map(({ key, step }) => <li key={key}>{words.refused.line(step.do === "add" ? step.name : nameOf(step.do === "gone" ? `${step.list}.${step.id}.at` : step.reading.of))} <button type="button" className={styles.quiet} onClick={() => void drop(key!)}>{words.refused.drop}</button></li>)}</ul>
        </div>
      )}
    </section>
  );
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
