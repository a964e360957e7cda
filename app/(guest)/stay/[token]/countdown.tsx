"use client";

import { useEffect, useState } from "react";
import { countdown as words } from "@/lib/wording/en/guest-countdown";

/** Counts a hold down. Said aloud only when it is over: a number that changes each second is noise. */
export function Countdown({ seconds }: { readonly seconds: number }) {
  const [left, setLeft] = useState(seconds);
  useEffect(() => {
    const end = Date.now() + seconds * 1000;
    const clock = setInterval(() => setLeft(Math.max(0, Math.ceil((end - Date.now()) / 1000))), 1000);
    return () => clearInterval(clock);
  }, [seconds]);
  return left > 0 ? <strong>{words.left(left)}</strong> : <strong role="alert">{words.over}</strong>;
}
