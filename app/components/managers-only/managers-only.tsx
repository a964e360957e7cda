import Link from "next/link";
import { catalogueOf } from "@/lib/wording";
import styles from "./managers-only.module.css";

/** For somebody of the desk on a page that is not theirs. */
export function ManagersOnly() {
  const { managersOnly: words, own } = catalogueOf().accounts;
  return (
    <main className={styles.main}>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.line}</p>
      <p className={styles.ways}><Link href="/desk" prefetch={false}>{words.back}</Link> <Link href="/account" prefetch={false}>{own.title}</Link></p>
    </main>
  );
}
