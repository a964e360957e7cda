import { catalogueOf } from "@/lib/wording";
import { Links } from "./links";
import styles from "./staff-nav.module.css";

/** The way between the pages of those who run the park, and what they can and cannot do there. */
export function StaffNav() {
  const { nav } = catalogueOf().staff;
  return (
    <section className={styles.bar} aria-label={nav.about}>
      <Links label={nav.label} to={[{ href: "/desk", name: nav.desk }, { href: "/manage", name: nav.sites }, { href: "/manage/fits", name: nav.fits }]} />
      <p className={styles.readOnly}>{nav.readOnly}</p>
    </section>
  );
}
