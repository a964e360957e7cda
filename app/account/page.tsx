import type { Metadata } from "next";
import { passwordLengths, sessionEnds } from "@/lib/store/accounts/auth";
import { listSessions, type SignedIn } from "@/lib/store/accounts/sessions";
import { getPark } from "@/lib/store/parks";
import { catalogueOf } from "@/lib/wording";
import { StaffNav } from "../components/staff-nav/staff-nav";
import { requireDesk } from "../staff-session";
import { AccountForm } from "./account-form";
import styles from "./account.module.css";
import { changePasswordAction, endOthersAction, endSessionAction, renameAction, signOutAction } from "./actions";
import { deviceName } from "./device";
import { parkZone } from "./waiting";

const { accounts: { fields, hints, moment, own: words } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** One's own name, password and devices. */
export default async function AccountPage() {
  const { signedIn, name, email } = await requireDesk();
  const park = await getPark(signedIn.park);
  return (
    <>
      <StaffNav />
      <main className={styles.narrow}>
        <h1>{words.title}</h1>
        <p className={styles.lead}>{words.about(email, signedIn.role, park?.name ?? signedIn.park)}</p>
        <section className={styles.part} aria-labelledby="name">
          <h2 id="name">{words.name}</h2>
          <AccountForm id="own" action={renameAction} submit={words.saveName} fields={[{ name: "name", label: fields.name, type: "text", autoComplete: "name", hint: hints.name, value: name }]} />
        </section>
        <section className={styles.part} aria-labelledby="password">
          <h2 id="password">{words.password}</h2>
          <p>{words.passwordLead}</p>
          <AccountForm
            id="change" action={changePasswordAction} submit={words.changePassword}
            fields={[
              { name: "present", label: fields.present, type: "password", autoComplete: "current-password" },
              { name: "password", label: fields.newPassword, type: "password", autoComplete: "new-password", hint: hints.password(passwordLengths.min) },
            ]}
          />
        </section>
        <Sessions signedIn={signedIn} />
      </main>
    </>
  );
}

async function Sessions({ signedIn }: { readonly signedIn: SignedIn }) {
  const [sessions, zone] = await Promise.all([listSessions(signedIn), parkZone(signedIn.park)]);
  return (
    <section className={styles.part} aria-labelledby="sessions">
      <h2 id="sessions">{words.sessions}</h2>
      <p>{words.sessionsLead(sessionEnds.idle / 3600, sessionEnds.absolute / 86_400)}</p>
      <ul className={styles.rows}>
        {sessions.map(({ id, agent, began, used }) => (
          <li key={id}>
            <div>
              <p><strong>{deviceName(agent)}</strong>{id === signedIn.session && ` (${words.thisOne})`}</p>
              <p>{words.used(moment(began, zone), moment(used, zone))}</p>
            </div>
            {id !== signedIn.session && (
              <form action={endSessionAction}>
                <input type="hidden" name="session" value={id} />
                <button type="submit" className={styles.quiet} aria-label={words.end(deviceName(agent))}>{words.endShort}</button>
              </form>
            )}
          </li>
        ))}
      </ul>
      <div className={`${styles.buttons} ${styles.below}`}>
        <form action={signOutAction}><button type="submit" className={styles.quiet}>{words.signOut}</button></form>
        {sessions.length > 1 && <form action={endOthersAction}><button type="submit" className={styles.quiet}>{words.endOthers}</button></form>}
      </div>
    </section>
  );
}
