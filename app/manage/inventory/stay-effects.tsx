import type { ReactElement } from "react";
import type { ImportPlan } from "@/lib/exchange";
import { turns } from "@/lib/insight";
import { swapOf, weighInPark, type SiteEffects } from "@/lib/jobs/site-effects";
import type { StayAhead } from "@/lib/store/stays-ahead";
import { catalogueOf } from "@/lib/wording";
import { inventory as words } from "@/lib/wording/en/inventory";
import type { StaffActor } from "../../staff-session";
import styles from "./inventory.module.css";

const { settings: { effects: told }, stays: stayWords } = catalogueOf();
const { preview } = words;

/** Nobody waits longer for the page; answers are kept, so that who looks again goes on from there. Milliseconds. */
const PATIENCE = 6_000;

/** The stays to come that would no longer fit, or begin to, with these files. */
export async function stayEffects(actor: StaffActor, plan: ImportPlan): Promise<ReactElement> {
  const found = await weighInPark(actor, actor.park, plan.sites.map(({ id, before, after }) => swapOf(id, before, after)), PATIENCE);
  return found ? <Found {...found} /> : <p className={styles.warning}>{preview.staysOpen}</p>;
}

interface FoundEffects {
  readonly effects: SiteEffects;
  readonly stays: readonly StayAhead[];
}

function Found({ effects, stays }: FoundEffects) {
  const byId = new Map(stays.map((stay) => [stay.id, stay]));
  if (effects.stays.length === 0 && effects.notWorkedOut.length === 0) return <p>{preview.staysNone(effects.staysAsked)}</p>;
  return (
    <>
      {turns.map((turn) => {
        const turned = effects.stays.filter((one) => one.turn === turn).flatMap(({ id }) => byId.get(id) ?? []);
        return turned.length > 0 && <div key={turn}><h3>{told.stayTurns[turn]} ({turned.length})</h3><ul className={styles.stays}>{turned.map(({ id, reference, guest, nights, site }) => <li key={id}><a href={`/desk/stays/${id}`}>{guest ?? told.nameless}, {reference}</a>: {site === null ? told.anySite : told.site(site)}, {stayWords.span(nights)}</li>)}</ul></div>;
      })}
      {effects.notWorkedOut.length > 0 && <p>{preview.staysUnknown(effects.notWorkedOut.length)}</p>}
      <p className={styles.soft}>{preview.staysDesk}</p>
    </>
  );
}
