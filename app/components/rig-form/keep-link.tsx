import { headers } from "next/headers";
import { overallLength } from "@/lib/rig";
import { catalogueOf, formatLength } from "@/lib/wording";
import { CopyLink } from "./copy-link";
import type { RigForm } from "./read";
import styles from "./keep-link.module.css";

/** The link that holds the rig, to copy, bookmark or print. It leads to the answer. Nothing where the rig cannot be read yet. */
export async function KeepLink({ form }: { readonly form: RigForm }) {
  const { guestRig: { keep } } = catalogueOf();
  if (!form.rig) return null;
  const query = `${form.query}&units=${form.units}`;
  return (
    <section className={styles.keep} aria-labelledby="keep">
      <h2 id="keep">{keep.title}</h2>
      <p>{keep.line}</p>
      <CopyLink address={`${await origin()}/sites?${query}`} label={keep.label} copy={keep.copy} copied={keep.copied} failed={keep.failed} />
      <p className={styles.hint}>{keep.hint}</p>
    </section>
  );
}

/** "Travel trailer, 31 ft": what a rig is called where it is offered again. */
export function nameOfRig({ start, outline, units }: RigForm): string {
  return catalogueOf().guestRig.kindLine(start.name, formatLength(overallLength(outline.rig), units, "nearest"));
}

/** As the reader's browser reached this page, a proxy's word included: it is written into nothing but this page. */
async function origin(): Promise<string> {
  const sent = await headers();
  const host = sent.get("x-forwarded-host") ?? sent.get("host") ?? "localhost";
  return `${sent.get("x-forwarded-proto") ?? "http"}://${host}`;
}
