import type { ReactElement } from "react";
import type { ImportPlan, Json } from "@/lib/exchange";
import { turns } from "@/lib/insight";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { weighSites, type SiteEffects } from "@/lib/jobs/site-effects";
import { siteSchema, type Site } from "@/lib/park";
import { getStayContext } from "@/lib/store/park-settings";
import { getPark } from "@/lib/store/parks";
import { listSites } from "@/lib/store/sites";
import { listStaysAhead, type StayAhead } from "@/lib/store/stays-ahead";
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
  const found = await weigh(actor, plan);
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

async function weigh(actor: StaffActor, plan: ImportPlan): Promise<FoundEffects | null> {
  const [park, context, sites] = await Promise.all([getPark(actor.park), getStayContext(actor.park), listSites(actor.park)]);
  if (!park || !context) return null;
  const stays = await listStaysAhead(actor, park.slug, context.today), touched = new Set(plan.sites.map(({ id }) => id));
  const swaps = plan.sites.map(({ id, before, after }) => ({ siteId: id, before: siteOf(before), after: siteOf(after) }));
  try {
    return { effects: await weighSites({ swaps, stays, others: sites.filter(({ id }) => !touched.has(id)) }, park.policy, { timeLimit: PATIENCE }), stays };
  } catch (error) {
    if (error instanceof RankingStopped) return null;
    throw error;
  }
}

function siteOf(record: Json | null): Site | null {
  return siteSchema.safeParse(record).data ?? null;
}
