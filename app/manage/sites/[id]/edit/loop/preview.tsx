import { swapOf, weighInPark } from "@/lib/jobs/site-effects";
import type { StaffActor } from "../../../../../staff-session";
import type { StayAhead } from "@/lib/store/stays-ahead";
import { siteEditor } from "@/lib/wording/en/site-editor";
import { stays as stayWords } from "@/lib/wording/en/stays";
import { giveAction } from "./actions";
import type { Chosen, Given } from "./chosen";
import fields from "../../../../editing/fields.module.css";
import styles from "../../../../editing/editor.module.css";

const { loop: words } = siteEditor;

interface PreviewProps {
  readonly actor: StaffActor;
  readonly from: { readonly id: string; readonly label: string; readonly version: number };
  readonly chosen: Chosen;
  readonly given: readonly Given[];
  /** Somebody saved one of them meanwhile, or the database refused. */
  readonly said: string | null;
}

/** What would change at each site, the stays to come that it would touch, and the button that saves all of it. */
export async function Preview({ actor, from, chosen, given, said }: PreviewProps) {
  const changed = given.filter(({ changes }) => changes.length > 0), faulty = changed.filter(({ faults }) => faults > 0);
  const ready = changed.length > 0 && faulty.length === 0;
  return (
    <section id="found" className={styles.preview} aria-labelledby="preview">
      <h2 id="preview">{words.preview}</h2>
      {said && <p role="alert" className={styles.note}>{said}</p>}
      <dl className={styles.changes}>
        {given.map(({ siteId, label, changes, faults }) => (
          <div key={siteId}>
            <dt><a href={`/manage/sites/${encodeURIComponent(siteId)}`}>{words.site(label)}</a></dt>
            <dd>{changes.length === 0 ? words.same : words.changes(changes.map((part) => words.parts[part]))}{faults > 0 && <p className={fields.fault}>{words.faults(label, faults)}. {words.cannot}</p>}</dd>
          </div>
        ))}
      </dl>
      {changed.length === 0 && <p>{words.nothing}</p>}
      {ready && <Effects actor={actor} changed={changed} />}
      {ready && (
        <form action={giveAction.bind(null, from.id)} className={styles.plainForm}>
          {chosen.parts.map((part) => <input key={part} type="hidden" name="part" value={part} />)}
          {changed.map(({ siteId }) => <input key={siteId} type="hidden" name="to" value={siteId} />)}
          {[{ siteId: from.id, version: from.version }, ...changed].map(({ siteId, version }) => <input key={siteId} type="hidden" name="at" value={`${version} ${siteId}`} />)}
          <div className={fields.field}><label htmlFor="why">{words.why}</label><p id="why-hint" className={styles.hint}>{words.whyHint}</p><input id="why" name="why" maxLength={300} autoComplete="off" aria-describedby="why-hint" /></div>
          <button type="submit" className={styles.look}>{words.save(changed.length)}</button>
        </form>
      )}
    </section>
  );
}

/** Nobody waits longer for the page; what is not known by then is told so. Milliseconds. */
const PATIENCE = 15_000;

async function Effects({ actor, changed }: { readonly actor: StaffActor; readonly changed: readonly Given[] }) {
  const found = await weighInPark(actor, actor.park, changed.map(({ siteId, before, after }) => swapOf(siteId, before, after)), PATIENCE);
  if (!found) return <div><h3>{words.effects}</h3><p>{words.unweighed}</p></div>;
  const { effects, stays } = found, byId = new Map(stays.map((stay) => [stay.id, stay]));
  const of = (turn: string) => effects.stays.filter((one) => one.turn === turn).flatMap(({ id }) => byId.get(id) ?? []);
  const shut = of("shut"), rest = effects.stays.filter(({ turn }) => turn !== "shut").flatMap(({ id }) => byId.get(id) ?? []);
  return (
    <div>
      <h3>{words.effects}</h3>
      {effects.stays.length === 0 && <p>{words.noEffects}</p>}
      {shut.length > 0 && <><p>{words.worse(shut.length)}</p><Stays stays={shut} /></>}
      {rest.length > 0 && <><p>{words.other(rest.length)}</p><Stays stays={rest} /></>}
      {effects.notWorkedOut.length > 0 && <><p>{words.unknown(effects.notWorkedOut.length)}</p><Stays stays={effects.notWorkedOut.flatMap(({ id }) => byId.get(id) ?? [])} /></>}
    </div>
  );
}

function Stays({ stays }: { readonly stays: readonly StayAhead[] }) {
  return <ul>{stays.map(({ id, reference, guest, nights }) => <li key={id}><a href={`/desk/stays/${id}`}>{[guest, reference].filter(Boolean).join(", ")}</a>, {stayWords.span(nights)}</li>)}</ul>;
}
