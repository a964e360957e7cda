"use client";

import { useRouter } from "next/navigation";
import { useCallback, useRef, useTransition, useEffect, type ReactNode } from "react";
import { LiveNotice } from "./live-notice";
import { useLive, type Live } from "./use-live";
import styles from "./live.module.css";

/** Asks the server for the page anew; resolves when it is there. */
export function useFreshPage(): () => Promise<void> {
  const router = useRouter();
  const [pending, start] = useTransition();
  const waiting = useRef<(() => void)[]>([]);
  useEffect(() => {
    if (!pending) waiting.current.splice(0).forEach((done) => done());
  }, [pending]);
  return useCallback(() => new Promise<void>((done) => {
    waiting.current.push(done);
    start(() => router.refresh());
  }), [router]);
}

/** A page of the desk that follows the database. While the connection is lost it is greyed, and says so. */
export function LivePage({ children }: { readonly children: ReactNode }) {
  const live: Live = useLive(useFreshPage());
  return (
    <>
      <LiveNotice live={live} />
      <div className={live.state === "lost" || live.state === "signed-out" ? styles.old : undefined}>{children}</div>
    </>
  );
}
