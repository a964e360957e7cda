import { turns } from "@/lib/insight";
import type { SiteEffects, StayEffect } from "@/lib/jobs/site-effects";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { StayAhead } from "@/lib/store/stays-ahead";
import { bringSentence, catalogueOf, sentence, unbroken } from "@/lib/wording";
import styles from "./change.module.css";

const { siteChanges: { effects: words }, settings: { effects: shared }, stays: stayWords, verdicts } = catalogueOf();

interface EffectsProps {
  readonly effects: SiteEffects;
  readonly stays: readonly StayAhead[];
  readonly before: Site | null;
  readonly after: Site | null;
  readonly units: Units;
}

/** The stays that would change, each with its verdict before and after and the reason. */
export function StayEffects({ effects: { stays: turned, staysAsked, notWorkedOut }, stays, before, after, units }: EffectsProps) {
  const byId = new Map(stays.map((stay) => [stay.id, stay]));
  return (
    <>
      <p className={styles.told} role="status">{turned.length === 0 ? words.none(staysAsked) : words.some(turned.length, staysAsked)}</p>
      {turns.filter((turn) => turned.some((effect) => effect.turn === turn)).map((turn) => {
        const those = turned.filter((effect) => effect.turn === turn);
        return (
          <div key={turn}>
            <h3>{shared.stayTurns[turn]} ({those.length})</h3>
            <ul className={styles.stays}>{those.map((effect) => <li key={effect.id}><StayLine stay={byId.get(effect.id)!} /> <Why effect={effect} stay={byId.get(effect.id)!} before={before} after={after} units={units} /></li>)}</ul>
          </div>
        );
      })}
      {notWorkedOut.length > 0 && <div><h3>{shared.notWorkedOut} ({notWorkedOut.length})</h3><ul className={styles.stays}>{notWorkedOut.map(({ id, why }) => <li key={id}><StayLine stay={byId.get(id)!} /> {shared.whys[why]}.</li>)}</ul></div>}
      {turned.some(({ turn }) => turn === "shut" || turn === "opened") && <p className={styles.note}>{words.desk}</p>}
    </>
  );
}

function StayLine({ stay: { id, reference, guest, site, nights, state, overridden } }: { readonly stay: StayAhead }) {
  return (
    <>
      <a href={`/desk/stays/${id}`}>{guest ?? shared.nameless}, {reference}</a>, {stayWords.span(nights)}. {stayWords.states[state]}{site === null && <>, {shared.anySite}</>}.{overridden && <> ({shared.overridden})</>}
    </>
  );
}

/** So many reasons are read at a glance. */
const mostReasons = 2;

function Why({ effect: { was, now }, stay: { rig }, before, after, units }: { readonly effect: StayEffect; readonly stay: StayAhead; readonly before: Site | null; readonly after: Site | null; readonly units: Units }) {
  if (!was || !now || !rig) return null;
  const [result, site] = now.verdict === "fits" ? [was, before] : [now, after];
  const reasons = site ? [...result.reasons.map((reason) => sentence(reason, site, rig, units, result)), ...(result.verdict === "gear" ? result.bring.map((item) => bringSentence(item, rig, units)) : [])] : [];
  return (
    <>
      {was.verdict !== now.verdict && <strong>{words.verdicts(verdicts[was.verdict].label, verdicts[now.verdict].label)}</strong>}{" "}
      {[...new Set(reasons)].slice(0, mostReasons).map((line) => <span key={line}>{unbroken(line)} </span>)}
    </>
  );
}
