import type { Metadata } from "next";
import { getPark } from "@/lib/store/parks";
import { managePark as words } from "@/lib/wording/en/manage-park";
import { requireDesk } from "../../staff-session";
import { entries } from "./entries";
import styles from "./park.module.css";

export const metadata: Metadata = { title: words.title };

/** The pages from which the park is run, as far as they are this person's. */
export default async function RunningThePark() {
  const { actor } = await requireDesk();
  const park = await getPark(actor.park);
  const open = entries.filter(({ desk }) => desk || actor.kind === "manager");
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      <ul className={styles.entries}>
        {open.map(({ href, words: key }) => (
          <li key={href}>
            <a href={href}>{words.entries[key].name}</a>
            <p>{words.entries[key].about}</p>
          </li>
        ))}
      </ul>
    </main>
  );
}
