import type { Metadata } from "next";
import { linkHours, listLinks, type OpenLink } from "@/lib/store/accounts/links";
import { listStaff } from "@/lib/store/accounts/people";
import { getPark } from "@/lib/store/parks";
import { catalogueOf } from "@/lib/wording";
import { parkZone } from "../../account/waiting";
import { one, type Params } from "../../components/rig-form/params";
import { requireManager } from "../../staff-session";
import { inviteAction, revokeAction } from "./actions";
import { LinkForm } from "./link-form";
import { People } from "./people";
import styles from "./accounts.module.css";

const { accounts: { manage: words, moment } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** Who may sign in at the park, and as what. */
export default async function AccountsPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor, email } = await requireManager();
  const [asked, people, links, park, zone] = await Promise.all([searchParams, listStaff(actor, actor.park), listLinks(actor, actor.park), getPark(actor.park), parkZone(actor.park)]);
  const refused = one(asked.refused);
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      {refused && <p role="alert" className={styles.refusal}>{refused === "last" ? words.lastManager : words.gone}</p>}
      <People people={people} me={email} when={(date) => moment(date, zone)} />
      <Invite />
      <OpenLinks links={links} zone={zone} />
    </main>
  );
}

function Invite() {
  return (
    <section className={styles.part} aria-labelledby="invite">
      <h2 id="invite">{words.invite}</h2>
      <p>{words.inviteLead(linkHours)}</p>
      <LinkForm action={inviteAction} words={wordsOfLink()}>
        <ul className={styles.invite}>
          <li><button type="submit" name="role" value="desk">{words.inviteDesk}</button> <span>{words.deskMay}</span></li>
          <li><button type="submit" name="role" value="manager">{words.inviteManager}</button> <span>{words.managerMay}</span></li>
        </ul>
      </LinkForm>
    </section>
  );
}

function OpenLinks({ links, zone }: { readonly links: readonly OpenLink[]; readonly zone: string }) {
  return (
    <section className={styles.part} aria-labelledby="open">
      <h2 id="open">{words.open}</h2>
      {links.length === 0 ? <p>{words.openNone}</p> : <ul className={styles.rows}>
        {links.map((link) => (
          <li key={link.id}>
            <div>
              <p><strong>{nameOf(link)}</strong></p>
              <p>{words.until(moment(link.expires, zone))}</p>
            </div>
            <form action={revokeAction}>
              <input type="hidden" name="id" value={link.id} />
              <button type="submit" className={styles.quiet} aria-label={words.actionFor(words.revoke, nameOf(link))}>{words.revoke}</button>
            </form>
          </li>
        ))}
      </ul>}
    </section>
  );
}

function nameOf({ purpose, role, forName }: OpenLink): string {
  return purpose === "reset" ? words.openReset(forName ?? "") : words.openJoin(role ?? "desk");
}

function wordsOfLink() {
  const { linkTitle, linkOnce, linkLabel, copy, copied } = words;
  return { linkTitle, linkOnce, linkLabel, copy, copied };
}
