import { randomUUID } from "node:crypto";
import { defaultPolicy, type Policy } from "@/lib/fit/policy";
import { weighPolicy } from "@/lib/jobs/settings-effects";
import type { Units } from "@/lib/measure/parse";
import { catalogueOf } from "@/lib/wording";
import { Working } from "../../fits/working";
import { ChangeTable } from "../change-table";
import { policyChanges } from "../policy-words";
import { savePolicyAction } from "./actions";
import type { EffectsContext, PolicyContext } from "./context";
import { Effects } from "./effects";
import { valueOf, type PolicyField } from "./fields";
import type { PolicyForm } from "./read-policy";
import { weighSoon, type Weighed } from "../../weigh-soon";
import styles from "../settings.module.css";

const { settings: words, insight, tag } = catalogueOf();

interface PreviewProps {
  readonly context: PolicyContext;
  readonly over: EffectsContext;
  readonly form: PolicyForm;
  readonly policy: Policy;
  readonly units: Units;
  /** The page's own address with these changes, without its path. */
  readonly query: string;
  /** Asked for again by itself, without script. */
  readonly patient: boolean;
}

/** What would be other once it is saved, and the button that saves it. */
export async function Preview({ context, over, form, policy, units, query, patient }: PreviewProps) {
  const weighed = await weighSoon((options) => weighPolicy(over.asked, context.policy, policy, options), patient);
  const { preview } = words;
  return (
    <section id="found" className={styles.preview} aria-labelledby="preview">
      <h2 id="preview">{preview.title}</h2>
      <ChangeTable lines={policyChanges(context.policy, policy, units)} caption={preview.title} columns={preview.columns} />
      {form.changed.filter((field) => isCareless(field, context.policy, policy)).map(({ name }) => <p key={name} className={styles.warning} role="note">{preview.caution(words.policy[name].label)}</p>)}
      {weighed.state === "done" ? <Effects effects={weighed.effects} over={over} units={units} /> : <Open weighed={weighed} over={over} query={query} />}
      <Save context={context} form={form} units={units} seen={weighed.state === "done"} />
    </section>
  );
}

/** Asks for less care than the usual value does, and for less than now. */
function isCareless({ name, careless }: PolicyField, before: Policy, after: Policy): boolean {
  if (!careless) return false;
  const [usual, was, is] = [defaultPolicy, before, after].map((policy) => Number(valueOf(policy, name))) as [number, number, number];
  return careless === "less" ? is < usual && is < was : is > usual && is > was;
}

function Open({ weighed, over, query }: { readonly weighed: Exclude<Weighed<unknown>, { state: "done" }>; readonly over: EffectsContext; readonly query: string }) {
  const { working } = words, here = `/manage/settings/fit?${query}#found`;
  if (weighed.state === "busy") return <div className={styles.warning} role="alert"><p>{working.busy}</p><p><a href={here}>{insight.stopped.again}</a></p></div>;
  const { done, total } = weighed.progress;
  return (
    <div className={styles.working}>
      <h3>{working.title}</h3>
      <p>{working.line(over.sites.length, over.asked.typical.length, over.asked.stays.length)}</p>
      {/* Made anew with every answer: where a stay was booked meanwhile, the work goes on. */}
      <Working key={randomUUID()} className={styles.progress} href={`/manage/settings/fit/progress?${query}`} here={here} done={done} total={total} line={insight.working.done} language={tag} failed={insight.working.failed} again={insight.working.again} />
      {/* Without script nobody follows the progress: the page asks for itself again, and each time more is known. */}
      <noscript><meta httpEquiv="refresh" content={`1;url=/manage/settings/fit?${query}&patient=yes`} /><p>{insight.working.noScript}</p></noscript>
    </div>
  );
}

function Save({ context: { version }, form: { changed, texts }, units, seen }: { readonly context: PolicyContext; readonly form: PolicyForm; readonly units: Units; readonly seen: boolean }) {
  const { preview } = words;
  return (
    <form action={savePolicyAction} className={styles.save}>
      {changed.map(({ name }) => <input key={name} type="hidden" name={name} value={texts[name]} />)}
      <input type="hidden" name="units" value={units} />
      <input type="hidden" name="based" value={version} />
      <p>{seen ? preview.notSaved : preview.unseen}</p>
      <label className={styles.reason}>{preview.reason}<input name="reason" maxLength={300} autoComplete="off" /></label>
      <p className={styles.buttons}>
        <button type="submit" className={seen ? styles.main : undefined}>{seen ? preview.save : preview.saveUnseen}</button>
        <a href={`/manage/settings/fit?units=${units}`}>{preview.drop}</a>
      </p>
    </form>
  );
}
