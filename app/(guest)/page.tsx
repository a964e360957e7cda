import Link from "next/link";
import { typicalKinds } from "@/lib/rig/typical";
import { catalogueOf } from "@/lib/wording";
import { guestContext } from "./context";
import styles from "./first.module.css";

/** The first page: what do you travel in? */
export default async function FirstPage() {
  const { pages, things } = catalogueOf();
  const context = await guestContext();
  if (!context) return <main className={styles.main}><p className={styles.notice}>{pages.first.noPark}</p></main>;
  return (
    <main className={styles.main}>
      <div className={styles.head}>
        <p className={styles.park}>{context.park.name}</p>
        <h1>{pages.first.title}</h1>
        <p className={styles.lead}>{pages.first.lead}</p>
      </div>
      <ul>{typicalKinds.map((kind) => <li key={kind}><Link href={`/rig?kind=${kind}`} prefetch={false}>{things.rigKinds[kind]}</Link></li>)}</ul>
    </main>
  );
}
