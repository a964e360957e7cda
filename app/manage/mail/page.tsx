import type { Metadata } from "next";
import { ownOrigin } from "@/lib/jobs/compose-mail";
import { mailServer } from "@/lib/jobs/send-mail";
import { environment } from "@/lib/store/environment";
import { mostShown, readOutbox } from "@/lib/store/mail-outbox";
import { getPark } from "@/lib/store/parks";
import { catalogueOf } from "@/lib/wording";
import { parkZone } from "../../account/waiting";
import { one, type Params } from "../../components/rig-form/params";
import { requireDesk } from "../../staff-session";
import { OpenRows, SettledRows } from "./rows";
import styles from "./mail.module.css";

const { manageMail: words, accounts: { moment } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** What is told guests by mail: what waits, what could not be sent, what went. */
export default async function MailPage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const { actor } = await requireDesk();
  const [asked, outbox, park, zone] = await Promise.all([searchParams, readOutbox(actor, actor.park), getPark(actor.park), parkZone(actor.park)]);
  const server = mailServer() !== null, way = server ? "server" : "hand";
  const when = (instant: number) => moment(new Date(instant), zone);
  return (
    <main className={styles.page}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead[way]}</p>
      <Said said={one(asked.said)} />
      {server && !environment().PADWRIGHT_URL && <p className={styles.refusal}>{words.noAddress(ownOrigin())}</p>}
      {outbox.failedCount > 0 && (
        <section className={styles.part} aria-labelledby="failed">
          <h2 id="failed">{words.failed} ({outbox.failedCount})</h2>
          <OpenRows mail={outbox.failed} label={words.failed} when={when} byHand server={server} />
          <More count={outbox.failedCount} />
        </section>
      )}
      <section className={styles.part} aria-labelledby="waiting">
        <h2 id="waiting">{words.waiting[way]} ({outbox.waitingCount})</h2>
        {outbox.waitingCount === 0 ? <p>{words.waitingNone[way]}</p> : <OpenRows mail={outbox.waiting} label={words.waiting[way]} when={when} byHand={!server} server={server} />}
        <More count={outbox.waitingCount} />
      </section>
      <section className={styles.part} aria-labelledby="sent">
        <h2 id="sent">{words.sent}</h2>
        {outbox.settled.length === 0 ? <p>{words.sentNone}</p> : <SettledRows mail={outbox.settled} label={words.sent} when={when} />}
        {outbox.settled.length === mostShown && <p>{words.latest(mostShown)}</p>}
      </section>
    </main>
  );
}

function Said({ said }: { readonly said: string | undefined }) {
  if (said === "gone") return <p role="alert" className={styles.refusal}>{words.gone}</p>;
  return said === "marked" || said === "queued" ? <p role="status" className={styles.said}>{words[said]}</p> : null;
}

function More({ count }: { readonly count: number }) {
  return count > mostShown ? <p>{words.more(count - mostShown)}</p> : null;
}
