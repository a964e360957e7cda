import { linkHours } from "@/lib/store/accounts/links";
import { catalogueOf } from "@/lib/wording";
import styles from "./account.module.css";

/** A link that was used, replaced, ended or mistyped: which, nobody learns. */
export function GoneLink({ forOperator = false }: { readonly forOperator?: boolean }) {
  const { join: words, signIn } = catalogueOf().accounts;
  return (
    <main className={styles.narrow}>
      <h1>{words.goneTitle}</h1>
      <p className={styles.lead}>{words.gone(linkHours)}{forOperator && ` ${words.goneOperator}`}</p>
      <p className={styles.aside}>{words.have} <a href="/sign-in">{signIn.title}</a></p>
    </main>
  );
}
