import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { catalogueOf } from "@/lib/wording";
import { AccountForm } from "../account/account-form";
import styles from "../account/account.module.css";
import { one, type Params } from "../components/rig-form/params";
import { staffSession } from "../staff-session";
import { signInAction } from "./actions";
import { nextPath } from "./next-path";

const { accounts: { fields, signIn: words } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** For those who run the park. Who is signed in already goes straight on. */
export default async function SignInPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const asked = await searchParams;
  const next = nextPath(typeof asked.next === "string" ? asked.next : undefined);
  if (await staffSession()) redirect(next);
  const notice = one(asked.out) !== undefined ? words.out : one(asked.set) !== undefined ? words.ended : one(asked.next) !== undefined ? words.needed : null;
  return (
    <main className={styles.narrow}>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      {notice && <p className={styles.notice} role="status">{notice}</p>}
      <AccountForm
        id="sign-in" action={signInAction} submit={words.submit} hidden={{ next }}
        fields={[
          { name: "email", label: fields.email, type: "email", autoComplete: "username" },
          { name: "password", label: fields.password, type: "password", autoComplete: "current-password" },
        ]}
      />
      <p className={styles.aside}>{words.forgot}</p>
    </main>
  );
}
