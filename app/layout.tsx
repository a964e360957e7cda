import type { Metadata, Viewport } from "next";
import Link from "next/link";
import { connection } from "next/server";
import type { ReactNode } from "react";
import { catalogueOf } from "@/lib/wording";
import { ConnectionNotice } from "./components/connection/connection-notice";
import "./tokens.css";
import "./base.css";
import styles from "./layout.module.css";

const { guestRig, learn: { nav }, pages, staff, tag } = catalogueOf();

export const metadata: Metadata = {
  title: { default: `${pages.product}: ${pages.tagline}`, template: `%s · ${pages.product}` },
  description: guestRig.first.lead,
};

export const viewport: Viewport = { width: "device-width", initialScale: 1, themeColor: "#f6f1e4" };

export default async function Layout({ children }: { readonly children: ReactNode }) {
  // Every page is rendered per request, the missing one too: scripts run only with the nonce of this one answer.
  await connection();
  return (
    <html lang={tag}>
      <body>
        <header className={styles.header}>
          <div className={styles.bar}>
            <Link href="/" prefetch={false} className={styles.name}>{pages.product}</Link>
            <p className={styles.tagline}>{pages.tagline}</p>
            <Link href="/learn" prefetch={false} className={styles.help}>{nav.guest}</Link>
          </div>
          <div className={styles.tape} aria-hidden="true" />
        </header>
        {children}
        <footer className={styles.footer}>
          <p>{pages.footer}</p>
          <p>
            <Link href="/learn" prefetch={false}>{nav.guest}</Link> · <Link href="/learn/words" prefetch={false}>{nav.words}</Link> · <Link href="/learn/staff" prefetch={false}>{nav.staff}</Link> · <Link href="/docs/api" prefetch={false}>{pages.openInterface}</Link> · <Link href="/desk" prefetch={false}>{staff.nav.link}</Link>
          </p>
        </footer>
        <ConnectionNotice />
      </body>
    </html>
  );
}
