import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import type { ReactNode } from "react";
import { isOver, type GuestRecord } from "@/lib/store/guests-data";
import { catalogueOf } from "@/lib/wording";
import type { Params } from "../../../components/rig-form/params";
import { requireManager } from "../../../staff-session";
import { fileOf } from "./read-file";
import { RecordLine } from "../record-line";
import styles from "../guests.module.css";

const { manageGuests: { file: words } } = catalogueOf();

export const metadata: Metadata = { title: words.pageTitle, robots: { index: false } };

interface PageProps {
  readonly params: Promise<{ id: string }>;
  readonly searchParams: Promise<Params>;
}

/** All records of one guest, those in doubt apart, to be handed out or erased. */
export default async function GuestPage({ params, searchParams }: PageProps) {
  const { actor } = await requireManager();
  const { id } = await params;
  const [file, asked] = await Promise.all([fileOf(actor, id), searchParams]);
  if (!file) notFound();
  const { seed, theirs, perhaps } = file;
  return (
    <main className={styles.main}>
      <p className={styles.park}><Link href="/manage/guests" prefetch={false}>{words.back}</Link></p>
      <h1>{seed.name}</h1>
      <Contact records={theirs} />
      {asked.none !== undefined && <p role="alert" className={styles.refusal}>{words.none}</p>}
      <form method="get" action={`/manage/guests/${id}/export`}>
        <fieldset className={styles.part}>
          <legend>{words.theirs}</legend>
          <p>{words.theirsLead}</p>
          <ul className={styles.rows}>{theirs.map((record) => <Pick key={record.id} record={record} seed={seed} ticked />)}</ul>
        </fieldset>
        {perhaps.length > 0 && (
          <fieldset className={styles.part}>
            <legend>{words.perhaps}</legend>
            <p>{words.perhapsLead}</p>
            <ul className={styles.rows}>{perhaps.map((record) => <Pick key={record.id} record={record} seed={seed}>{words.sharesOf(record.shares)}</Pick>)}</ul>
          </fieldset>
        )}
        <section className={styles.part} aria-labelledby="chosen">
          <h2 id="chosen">{words.chosen}</h2>
          <ul className={styles.ways2}>
            <li><button type="submit" className={styles.main2}>{words.export}</button> <span>{words.exportHelp}</span></li>
            <li><button type="submit" formAction={`/manage/guests/${id}/erase`} className={styles.quiet}>{words.erase}</button> <span>{words.eraseHelp}</span></li>
          </ul>
        </section>
      </form>
    </main>
  );
}

function Contact({ records }: { readonly records: readonly GuestRecord[] }) {
  const fields = (["email", "phone", "plate"] as const).map((field) => [field, [...new Set(records.flatMap((record) => record[field] || []))]] as const).filter(([, values]) => values.length > 0);
  if (fields.length === 0) return null;
  return <dl className={styles.contact}>{fields.map(([field, values]) => <div key={field}><dt>{words.contact[field]}</dt>{values.map((value) => <dd key={value}>{value}</dd>)}</div>)}</dl>;
}

function Pick({ record, seed, ticked = false, children }: { readonly record: GuestRecord; readonly seed: GuestRecord; readonly ticked?: boolean; readonly children?: ReactNode }) {
  return (
    <li>
      <label className={styles.pick}>
        <input type="checkbox" name={record.kind} value={record.id} defaultChecked={ticked} />
        <span>
          <RecordLine record={record} named={record.name !== seed.name} />
          {children && <strong className={styles.shares}>{children}</strong>}
          {!isOver(record) && <span className={styles.quietly}>{words.notOver}</span>}
          {record.lent.length > 0 && <span className={styles.quietly}>{words.lent(record.lent)}</span>}
        </span>
      </label>
      {record.kind === "stay" && <a href={`/desk/stays/${record.id}`} aria-label={words.open(record.reference ?? "")} className={styles.reference}>{record.reference}</a>}
    </li>
  );
}
