import type { Metadata } from "next";
import { getRates } from "@/lib/store/rates";
import { manageRates } from "@/lib/wording/en/manage-rates";
import { requireManager } from "../../../staff-session";
import { draftOf, firstDraft } from "../draft";
import { RatesForm } from "../rates-form";
import styles from "../rates.module.css";

const { form: words } = manageRates;

export const metadata: Metadata = { title: words.title };

/** The rates as a form. */
export default async function EditRatesPage() {
  const { actor } = await requireManager();
  const present = await getRates(actor.park);
  return (
    <main className={styles.main}>
      <p className={styles.back}><a href="/manage/rates">{words.back}</a></p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead} {manageRates.agreed}</p>
      <RatesForm start={{ draft: present ? draftOf(present.card) : firstDraft, basedOn: present?.number ?? 0, faults: {}, said: null, review: null }} />
    </main>
  );
}
