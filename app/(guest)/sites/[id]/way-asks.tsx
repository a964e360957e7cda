import { Busy } from "../../../components/rig-form/busy";
import { TapeSpot } from "../../../components/rig-form/drawings/tape-spot";
import { labelOf } from "../../../components/rig-form/field-row";
import type { RigForm } from "../../../components/rig-form/read";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { wayAsks } from "@/lib/jobs/way-in";
import type { FitResult, Policy } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, numbersFor, unbroken } from "@/lib/wording";
import { wayAsk as words } from "@/lib/wording/en/way-ask";
import { pairsOf, type Standpoint } from "../address";
import styles from "../measure-next.module.css";

interface WayAsksProps {
  readonly form: RigForm;
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
  readonly policy: Policy;
  readonly standpoint: Standpoint;
}

/** What a guest may look up about the vehicle that steers, where the way in hangs on it, with a field to put it in. */
export async function WayAsks({ form, site, rig, result, policy, standpoint }: WayAsksProps) {
  if (!result.pose) return null;
  const asks = await wayAsks({ site, rig, pose: result.pose, policy }).catch((error: unknown) => {
    if (error instanceof RankingStopped) return [];
    throw error;
  });
  const numbers = numbersFor(form.units);
  return asks.map(({ field, turnsAt, below, above }) => {
    const asked = form.fields.find(({ path }) => path === field);
    if (!asked) return <p key={field}>{words.degrees(turnsAt, below === "found")}</p>;
    const label = labelOf(asked), id = `ask-${asked.input}`;
    return (
      <section key={field} className={styles.asked} aria-labelledby={`${id}-title`}>
        <div className={styles.body}>
          <div className={styles.drawing}><TapeSpot what={asked.what} rig={rig} label={catalogueOf().guestRig.tape(label.toLowerCase())} /></div>
          <div>
            <h3 id={`${id}-title`} className={styles.what}>{words.title(label)}</h3>
            <p>{unbroken(words.turns(numbers.measured(turnsAt), below === "found", above === "found"))}</p>
            <form method="get" action={`/sites/${encodeURIComponent(site.id)}#getting-in`} className={styles.form}>
              {pairsOf(standpoint).map(([key, value]) => <input key={`${key} ${value}`} type="hidden" name={key} value={value} />)}
              <label htmlFor={id}>{words.yours}</label>
              <div className={styles.row}>
                <input id={id} name={asked.input} autoComplete="off" maxLength={40} required aria-describedby={`${id}-usual`} />
                <Busy className={styles.submit} label={words.submit} busy={catalogueOf().guestSites.filters.busy} />
              </div>
              <p id={`${id}-usual`} className={styles.taken}>{unbroken(words.usual(numbers.measured(asked.typical)))}</p>
            </form>
          </div>
        </div>
      </section>
    );
  });
}
