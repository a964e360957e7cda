import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { findMentions, type GuestRecord, type Mention } from "@/lib/store/guests-data";
import { catalogueOf } from "@/lib/wording";
import { AccountForm } from "../../../../account/account-form";
import type { Params } from "../../../../components/rig-form/params";
import { requireManager } from "../../../../staff-session";
import { chosenIn, chosenOf, countOf, recordsOf, referenceOf } from "../../chosen";
import { eraseFromForm } from "../../erase-action";
import { RecordLine } from "../../record-line";
import { fileOf } from "../read-file";
import styles from "../../guests.module.css";

const { manageGuests: { erase: words } } = catalogueOf();

export const metadata: Metadata = { title: words.pageTitle, robots: { index: false } };

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

/** What goes and what stays, before anything does. */
export default async function ErasePage({ params, searchParams }: PageProps) {
  const { actor } = await requireManager();
  const { id } = await params;
  const file = await fileOf(actor, id);
  if (!file) notFound();
  const { seed } = file;
  const { over, open } = recordsOf(file, chosenIn(await searchParams));
  const chosen = chosenOf(over), lent = over.flatMap((record) => record.lent), reference = referenceOf(over);
  const mentions = over.length > 0 ? await findMentions(actor, actor.park, seed.name, chosen.stays) : [];
  return (
    <main className={styles.main}>
      <p className={styles.park}><a href={`/manage/guests/${id}`}>{words.back}</a></p>
      <h1>{words.heading(seed.name)}</h1>
      {over.length === 0 ? <p className={styles.refusal}>{words.nothing}</p> : <Records head={words.from(countOf(chosen))} id="from" records={over} seed={seed} />}
      {open.length > 0 && <Records head={words.left} id="left" lead={words.leftLead} records={open} seed={seed} />}
      {over.length > 0 && (
        <>
          <div className={styles.halves}>
            <Points id="goes" head={words.goesHead} points={words.goes} />
            <Points id="stays" head={words.staysHead} points={words.stays} />
          </div>
          {lent.length > 0 && <p className={styles.refusal}>{words.lent(lent)}</p>}
          <Mentions mentions={mentions} />
          <section className={styles.part}>
            <p>{words.file}</p>
            <p>{words.backups}</p>
            <AccountForm id="erase" action={eraseFromForm} submit={words.submit} hidden={{ of: id, stays: chosen.stays.join(","), unmet: chosen.unmet.join(",") }} fields={[{ name: "typed", label: words.field(seed.name, reference), type: "text", autoComplete: "off" }]} />
          </section>
        </>
      )}
    </main>
  );
}

function Records({ id, head, lead, records, seed }: { readonly id: string; readonly head: string; readonly lead?: string; readonly records: readonly GuestRecord[]; readonly seed: GuestRecord }) {
  return (
    <section className={styles.part} aria-labelledby={id}>
      <h2 id={id}>{head}</h2>
      {lead && <p>{lead}</p>}
      <ul className={styles.rows}>{records.map((record) => <li key={record.id}><span className={styles.line}><RecordLine record={record} named={record.name !== seed.name} /></span>{record.reference && <span className={styles.reference}>{record.reference}</span>}</li>)}</ul>
    </section>
  );
}

function Points({ id, head, points }: { readonly id: string; readonly head: string; readonly points: readonly string[] }) {
  return <section className={styles.part} aria-labelledby={id}><h2 id={id}>{head}</h2><ul>{points.map((point) => <li key={point}>{point}</li>)}</ul></section>;
}

function Mentions({ mentions }: { readonly mentions: readonly Mention[] }) {
  if (mentions.length === 0) return null;
  return (
    <section className={styles.part} aria-labelledby="mentions">
      <h2 id="mentions">{words.mentionsHead}</h2>
      <p>{words.mentionsLead}</p>
      <ul className={styles.rows}>{mentions.map(({ stay, reference, text }) => <li key={`${stay} ${text}`}><span className={styles.line}>{text}</span><a href={`/desk/stays/${stay}`} className={styles.reference}>{reference}</a></li>)}</ul>
    </section>
  );
}
