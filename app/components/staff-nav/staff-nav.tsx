import { catalogueOf } from "@/lib/wording";
import { managePark } from "@/lib/wording/en/manage-park";
import { signOutAction } from "../../account/actions";
import { entries } from "../../manage/park/entries";
import { staffSession } from "../../staff-session";
import { Links } from "./links";
import styles from "./staff-nav.module.css";

/** The way between the pages of those who run the park, as far as they are this person's, and who they are signed in as. */
export async function StaffNav() {
  const session = await staffSession();
  if (!session) return null;
  const { accounts: { bar }, deskStays: { nav: desk }, staff: { nav } } = catalogueOf();
  const to = [{ href: "/desk", name: desk.today }, { href: "/desk/nights", name: desk.nights }, { href: "/desk/new", name: desk.book }, { href: "/desk/check", name: desk.check }, { href: "/manage", name: nav.sites }, { href: "/manage/fits", name: nav.fits }, { href: "/manage/park", name: managePark.nav, holds: entries.map(({ href }) => href) }];
  return (
    <section className={styles.bar} aria-label={nav.about}>
      <Links label={nav.label} to={to} />
      <div className={styles.person}>
        <a href="/account" aria-label={`${bar.account}: ${session.name}`}>{session.name}</a>
        <form action={signOutAction}><button type="submit">{bar.signOut}</button></form>
      </div>
    </section>
  );
}
