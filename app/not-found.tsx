import Link from "next/link";
import { catalogueOf } from "@/lib/wording";
import styles from "./not-found.module.css";

export default function NotFound() {
  const { notFound } = catalogueOf().pages;
  return (
    <main className={styles.main}>
      <div className={styles.head}>
        <h1>{notFound.title}</h1>
        <p className={styles.lead}>{notFound.line}</p>
        <p><Link href="/" prefetch={false}>{notFound.home}</Link></p>
      </div>
    </main>
  );
}
