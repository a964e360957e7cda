import type { Metadata } from "next";
import Link from "next/link";
import { catalogueOf } from "@/lib/wording";
import { StaffNav } from "../components/staff-nav/staff-nav";
import { requireDesk } from "../staff-session";
import styles from "./for-managers.module.css";

const { accounts: { managersOnly: words, own } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** Where somebody of the desk lands who asked for a page that is not theirs. A page of its own: it needs no script. */
export default async function ForManagersPage() {
  await requireDesk();
  return (
    <>
      <StaffNav />
      <main className={styles.main}>
        <h1>{words.title}</h1>
        <p className={styles.lead}>{words.line}</p>
        <p className={styles.ways}><Link href="/desk" prefetch={false}>{words.back}</Link> <Link href="/account" prefetch={false}>{own.title}</Link></p>
      </main>
    </>
  );
}
