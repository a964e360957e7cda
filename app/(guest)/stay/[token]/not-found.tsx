import Link from "next/link";
import { catalogueOf } from "@/lib/wording";
import styles from "../stay.module.css";

/** A link that is mistyped, was revoked, or never was: all the same. */
export default function NoStay() {
  const { missing: words } = catalogueOf().guestStay;
  return (
    <main className={styles.main}>
      <h1>{words.title}</h1>
      <p>{words.line}</p>
      <p><Link href="/" prefetch={false}>{words.home}</Link></p>
    </main>
  );
}
