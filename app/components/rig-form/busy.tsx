"use client";

import { useEffect, useRef, useState } from "react";
import { FORM_HELD } from "../connection/watch-connection";

interface BusyProps {
  readonly className: string | undefined;
  readonly label: string;
  readonly busy: string;
  readonly name?: string;
  readonly value?: string;
}

/**
 * A submit button that says when its form is on the way. A loading page would need script to give way to the answer;
 * this is one line of it, and without script the browser's own progress shows.
 */
export function Busy({ className, label, busy, name, value }: BusyProps) {
  const button = useRef<HTMLButtonElement>(null);
  const [sent, setSent] = useState(false);
  useEffect(() => {
    const form = button.current?.form;
    // Where a form has several ways on, only the one that was taken is on its way.
    const send = (event: SubmitEvent) => { if (!name || (event.submitter instanceof HTMLButtonElement && event.submitter.name === name && event.submitter.value === value)) setSent(true); };
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
  }, [name, value]);
  return <button ref={button} type="submit" name={name} value={value} className={className} aria-live="polite" data-busy={sent || undefined}>{sent ? busy : label}</button>;
}
