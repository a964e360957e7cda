import Link from "next/link";
import { KindDrawing } from "../components/rig-form/drawings/kind-drawing";
import { LastRig } from "../components/rig-form/last-rig";
import { typicalKinds } from "@/lib/rig/typical";
import { catalogueOf } from "@/lib/wording";
import { guestContext } from "./context";
import styles from "./start.module.css";

/** The first page: what do you travel in? */
export default async function FirstPage() {
  const { guestRig: { first, kinds }, things } = catalogueOf();
  const context = await guestContext();
  if (!context) return <main className={styles.main}><h1>{first.title}</h1><p className={styles.notice}>{first.noPark}</p></main>;
  return (
    <main className={styles.main}>
      <p className={styles.park}>{context.park.name}</p>
      <h1>{first.title}</h1>
      <p className={styles.lead}>{first.lead} <Link href="/learn" prefetch={false}>{first.learn}</Link></p>
      <LastRig words={{ again: first.again, againLine: first.againLine, forget: first.forget }} />
      <ul className={styles.kinds}>
        {typicalKinds.map((kind) => (
          <li key={kind}>
            <a className={styles.kind} href={`/rig?kind=${kind}`}>
              <KindDrawing kind={kind} />
              <span className={styles.words}>
                <b>{things.rigKinds[kind]}</b>
                <span className={styles.plain}>{kinds[kind]}</span>
              </span>
            </a>
          </li>
        ))}
      </ul>
      <p className={styles.scale}>{first.scale}</p>
    </main>
  );
}
