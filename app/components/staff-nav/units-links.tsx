import { unitSystems, type Units } from "@/lib/measure/parse";
import styles from "./staff-nav.module.css";

interface UnitsLinksProps {
  readonly units: Units;
  readonly names: Readonly<Record<Units, string>> & { readonly label: string };
  readonly hrefOf: (units: Units) => string;
}

/** Links, so that the choice of units is in the address. Takes its words: it also stands in parts that go to the browser. */
export function UnitsLinks({ units, names, hrefOf }: UnitsLinksProps) {
  return (
    <nav className={styles.units} aria-label={names.label}>
      {unitSystems.map((system) => <a key={system} href={hrefOf(system)} aria-current={system === units ? "true" : undefined}>{names[system]}</a>)}
    </nav>
  );
}
