import type { ImportPlan } from "@/lib/exchange";
import { inventory as words } from "@/lib/wording/en/inventory";
import styles from "./inventory.module.css";

const { preview } = words;

/** Every fault of an upload, each where it stands in its file. */
export function FaultTable({ plan: { faults, faultCount, files } }: { readonly plan: ImportPlan }) {
  const maps = new Set(files.filter(({ what }) => what === "map").map(({ file }) => file));
  return (
    <div className={styles.faults}>
      <h2 id="faults">{preview.faultsTitle(faultCount)}</h2>
      <p role="alert">{preview.faultsLead}</p>
      <div className={styles.scroll} role="region" aria-labelledby="faults" tabIndex={0}>
        <table className={styles.table}>
          <thead><tr><th scope="col">{preview.file}</th><th scope="col">{preview.place}</th><th scope="col">{preview.fault}</th></tr></thead>
          <tbody>
            {faults.map((fault, i) => (
              <tr key={i}><th scope="row">{fault.file}</th><td>{words.place(fault, maps.has(fault.file))}</td><td>{words.fault(fault)}</td></tr>
            ))}
          </tbody>
        </table>
      </div>
      {faultCount > faults.length && <p>{preview.faultsMore(faults.length)}</p>}
    </div>
  );
}
