"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";

/** Looking is cheap, but not free. Milliseconds. */
const EVERY = 2_000;

/** Asks for the page anew every few seconds, for as long as it says that something is going on; a link for who has no script. */
export function LookAgain({ words }: { readonly words: string }) {
  const router = useRouter();
  useEffect(() => {
    const clock = setInterval(() => router.refresh(), EVERY);
    return () => clearInterval(clock);
  }, [router]);
  return <p><a href="">{words}</a></p>;
}
