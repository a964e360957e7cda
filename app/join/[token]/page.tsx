import type { Metadata } from "next";
import { passwordLengths } from "@/lib/store/accounts/auth";
import { readLink } from "@/lib/store/accounts/links";
import { catalogueOf } from "@/lib/wording";
import { AccountForm } from "../../account/account-form";
import styles from "../../account/account.module.css";
import { GoneLink } from "../../account/gone-link";
import { joinAction } from "./actions";

const { accounts: { fields, hints, join: words } } = catalogueOf();

// The address is the secret: no other host learns it as where somebody came from. Ours must, or forms are refused without script.
export const metadata: Metadata = { title: words.title, referrer: "same-origin", robots: { index: false } };

/** An account by a one-time link. Looking at the page uses nothing up: mail programs look at links by themselves. */
export default async function JoinPage({ params }: { readonly params: Promise<{ token: string }> }) {
  const { token } = await params;
  const link = await readLink(token, "join");
  if (!link) return <GoneLink forOperator />;
  return (
    <main className={styles.narrow}>
      <h1>{words.heading(link.parkName)}</h1>
      <p className={styles.lead}>{words.lead[link.role ?? "desk"]}</p>
      <AccountForm
        id="join" action={joinAction} submit={words.submit} hidden={{ token }}
        fields={[
          { name: "name", label: fields.name, type: "text", autoComplete: "name", hint: hints.name },
          { name: "email", label: fields.email, type: "email", autoComplete: "username" },
          { name: "password", label: fields.password, type: "password", autoComplete: "new-password", hint: hints.password(passwordLengths.min) },
        ]}
      />
      <p className={styles.aside}>{words.good} {words.have} <a href="/sign-in">{catalogueOf().accounts.signIn.title}</a></p>
    </main>
  );
}
