import type { ReactElement } from "react";
import type { ImportPlan } from "@/lib/exchange";
import type { FitResult } from "@/lib/fit";
import { guestMayHave } from "@/lib/jobs/stay-fit";
import { fitStays, listComing, type Coming } from "@/lib/jobs/stays-fits";
import { getPark } from "@/lib/store/parks";
import { catalogueOf, sentence, unbroken } from "@/lib/wording";
import { inventory as words } from "@/lib/wording/en/inventory";
import type { StaffActor } from "../../staff-session";
import styles from "./inventory.module.css";

const { verdicts, settings: { effects: { nameless } } } = catalogueOf();
const { preview, stayWords: { fits: said } } = words;

/** Nobody waits longer for the page; answers are kept, so that who looks again goes on from there. Milliseconds. */
const PATIENCE = 6_000;
/** So many stays that do not fit are named; the rest is counted. */
const MOST_NAMED = 100;

/** Which of the stays that come onto a site would not fit there, each with its verdict and first reason. They come in all the same. */
export async function stayFits(actor: StaffActor, plan: ImportPlan): Promise<ReactElement> {
  const park = (await getPark(actor.park))!, stood = await listComing(actor, plan), results = await fitStays(stood, park.policy, { timeLimit: PATIENCE });
  const poor = stood.flatMap((one, i) => (results[i] && !guestMayHave(results[i].verdict) ? [{ ...one, result: results[i] }] : [])), looked = results.filter((result) => result).length;
  const line = ({ plan: { row, guest }, site, rig, result }: Coming & { readonly result: FitResult }) => {
    const reason = result.reasons[0];
    return said.line(row, guest?.name ?? nameless, site.label ?? site.id, verdicts[result.verdict].label, reason ? sentence(reason, site, rig, park.units, result) : null);
  };
  return (
    <>
      {poor.length === 0 ? looked > 0 || stood.length === 0 ? <p>{said.none(looked)}</p> : null : (
        <>
          <p className={styles.warning}>{said.lead(poor.length, looked)}</p>
          <details className={styles.group} open={poor.length <= 20 || undefined}>
            <summary>{said.which} ({poor.length.toLocaleString("en-US")})</summary>
            <ul className={styles.stays}>{poor.slice(0, MOST_NAMED).map((one) => <li key={one.plan.row}>{unbroken(line(one))}</li>)}</ul>
            {poor.length > MOST_NAMED && <p>{preview.moreRecords(poor.length - MOST_NAMED)}</p>}
          </details>
        </>
      )}
      {looked < stood.length && <p>{said.rest(stood.length - looked)}</p>}
      {stood.length > 0 && <p className={styles.soft}>{said.desk}</p>}
    </>
  );
}
