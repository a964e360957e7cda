import type { Units } from "@/lib/measure";
import { unitSystems } from "@/lib/measure";
import { catalogueOf } from "@/lib/wording";
import styles from "./units-switch.module.css";

/** Links, so that the choice is in the address like everything else. */
export function UnitsSwitch({ path, query, units }: { readonly path: string; readonly query: string; readonly units: Units }) {
  const { pages } = catalogueOf();
  return (
    <nav className={styles.units} aria-label={pages.units.label}>
      {unitSystems.map((system) => (
        <a key={system} href={`${path}?${query ? `${query}&` : ""}units=${system}`} aria-current={system === units ? "true" : undefined}>{pages.units[system]}</a>
      ))}
    </nav>
  );
}
