import type { Metadata } from "next";
import { passwordLengths } from "@/lib/store/accounts/auth";
import { readLink } from "@/lib/store/accounts/links";
import { catalogueOf } from "@/lib/wording";
import { AccountForm } from "../../account/account-form";
import styles from "../../account/account.module.css";
import { GoneLink } from "../../account/gone-link";
import { resetAction } from "./actions";

const { accounts: { fields, hints, reset: words } } = catalogueOf();

export const metadata: Metadata = { title: words.title, referrer: "same-origin", robots: { index: false } };

/** A new password by a one-time link from a manager. */
export default async function ResetPage({ params }: { readonly params: Promise<{ token: string }> }) {
  const { token } = await params;
  const link = await readLink(token, "reset");
  if (!link) return <GoneLink />;
  return (
    <main className={styles.narrow}>
      <h1>{words.heading}</h1>
      <p className={styles.lead}>{words.lead(link.email ?? "")}</p>
      <AccountForm
        id="reset" action={resetAction} submit={words.submit} hidden={{ token }}
        fields={[{ name: "password", label: fields.newPassword, type: "password", autoComplete: "new-password", hint: hints.password(passwordLengths.min) }]}
      />
    </main>
  );
}
