"use client";

import { useEffect, useRef, useState } from "react";
import { FORM_HELD } from "../connection/watch-connection";

interface BusyProps {
  readonly className: string | undefined;
  readonly label: string;
  readonly busy: string;
}

/**
 * A submit button that says when its form is on the way. A loading page would need script to give way to the answer;
 * this is one line of it, and without script the browser's own progress shows.
 */
export function Busy({ className, label, busy }: BusyProps) {
  const button = useRef<HTMLButtonElement>(null);
  const [sent, setSent] = useState(false);
  useEffect(() => {
    const form = button.current?.form;
    const send = () => setSent(true);
    // Coming back by the browser's history may show the page as it was left.
    const back = () => setSent(false);
    form?.addEventListener("submit", send);
    window.addEventListener("pageshow", back);
    form?.addEventListener(FORM_HELD, back);
    return () => {
      form?.removeEventListener("submit", send);
      window.removeEventListener("pageshow", back);
      form?.removeEventListener(FORM_HELD, back);
    };
  }, []);
  return <button ref={button} type="submit" className={className} aria-live="polite" data-busy={sent || undefined}>{sent ? busy : label}</button>;
}
