import type { ReactNode } from "react";
import type { Units } from "@/lib/measure";
import { unitSystems } from "@/lib/measure";
import { catalogueOf } from "@/lib/wording";
import styles from "./learn.module.css";

type Page = "guest" | "staff" | "words";
const PATHS: Readonly<Record<Page, string>> = { guest: "/learn", staff: "/learn/staff", words: "/learn/words" };

/** What the three pages share: the way between them, the reader's units, and one column of text. */
export function Frame({ page, units, title, lead, children }: { readonly page: Page; readonly units: Units; readonly title: string; readonly lead: ReactNode; readonly children: ReactNode }) {
  const { learn: { nav }, pages } = catalogueOf();
  return (
    <main className={styles.main}>
      <nav className={styles.pages} aria-label={nav.label}>
        {(["guest", "staff", "words"] as const).map((other) => (
          <a key={other} href={`${PATHS[other]}?units=${units}`} aria-current={other === page ? "page" : undefined}>{nav[other]}</a>
        ))}
        <a href={`/?units=${units}`}>{nav.back}</a>
      </nav>
      <h1>{title}</h1>
      <div className={styles.lead}>{lead}</div>
      {page !== "words" && (
        <nav className={styles.units} aria-label={pages.units.label}>
          {unitSystems.map((system) => <a key={system} href={`${PATHS[page]}?units=${system}`} aria-current={system === units ? "true" : undefined}>{pages.units[system]}</a>)}
        </nav>
      )}
      {children}
    </main>
  );
}

/** A list of links to the headings of the page. */
export function OnPage({ to }: { readonly to: readonly { readonly id: string; readonly title: string }[] }) {
  const { nav } = catalogueOf().learn;
  return (
    <nav className={styles.onPage} aria-label={nav.onPage}>
      <ul>{to.map(({ id, title }) => <li key={id}><a href={`#${id}`}>{title}</a></li>)}</ul>
    </nav>
  );
}
