import type { Units } from "@/lib/measure";
import type { KeptRig } from "@/lib/store/rigs";
import { catalogueOf } from "@/lib/wording";
import { Busy } from "../components/rig-form/busy";
import styles from "./first.module.css";

interface ChooserProps {
  readonly rigs: readonly KeptRig[];
  readonly chosen: KeptRig | undefined;
  readonly units: Units;
}

/** A rig to start from, by its kind. Choosing another one starts over from its own numbers. */
export function Chooser({ rigs, chosen, units }: ChooserProps) {
  const { pages, things } = catalogueOf();
  const kinds = [...new Set(rigs.map((r) => r.rig.kind))];
  return (
    <form method="get" action="/" className={styles.chooser}>
      <input type="hidden" name="units" value={units} />
      <label htmlFor="rig">{pages.first.choose}</label>
      <div className={styles.chooserRow}>
        <select id="rig" name="rig" defaultValue={chosen?.id ?? rigs[0]?.id} key={chosen?.id}>
          {kinds.map((kind) => (
            <optgroup key={kind} label={things.rigKinds[kind]}>
              {rigs.filter((r) => r.rig.kind === kind).map((r) => <option key={r.id} value={r.id}>{r.name}</option>)}
            </optgroup>
          ))}
        </select>
        <Busy className={styles.choose} label={pages.first.chooseButton} busy={pages.first.loading} />
      </div>
    </form>
  );
}
