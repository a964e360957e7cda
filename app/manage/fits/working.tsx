"use client";

import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";

interface WorkingProps {
  /** Where the work goes on and tells how far it is, a line of JSON at a time. */
  readonly href: string;
  /** The page itself, for starting again. */
  readonly here: string;
  readonly done: number;
  readonly total: number;
  /** "{done} of {total} pairs done", with those two in braces. */
  readonly line: string;
  /** How numbers are written. */
  readonly language: string;
  readonly failed: string;
  readonly again: string;
  readonly className: string | undefined;
}

/**
 * Has the work done and shows how far it is; when it is done the page is asked for again, and finds everything known. Leaving
 * the page ends the connection, and with it the work.
 */
export function Working({ href, here, done, total, line, language, failed, again, className }: WorkingProps) {
  const router = useRouter();
  const [progress, setProgress] = useState({ done, total });
  const [broken, setBroken] = useState(false);
  useEffect(() => {
    const asker = new AbortController();
    // Whoever follows a link meanwhile is let go: asking for this page again would call them back.
    const leave = () => asker.abort();
    window.addEventListener("beforeunload", leave);
    follow(href, asker.signal, setProgress).then(
      (complete) => { if (asker.signal.aborted) return; if (complete) router.refresh(); else setBroken(true); },
      () => { if (!asker.signal.aborted) setBroken(true); },
    );
    return () => {
      window.removeEventListener("beforeunload", leave);
      asker.abort();
    };
  }, [href, router]);
  if (broken) return <div role="alert" className={className}><p>{failed}</p><p><a href={here}>{again}</a></p></div>;
  const text = line.replace("{done}", progress.done.toLocaleString(language)).replace("{total}", progress.total.toLocaleString(language));
  return <div className={className}><progress aria-label={text} value={progress.done} max={progress.total} /><p>{text}</p></div>;
}

/** Whether the work came to its end. */
async function follow(href: string, signal: AbortSignal, tell: (progress: { done: number; total: number }) => void): Promise<boolean> {
  const answer = await fetch(href, { signal, cache: "no-store" });
  const reader = answer.ok ? answer.body?.pipeThrough(new TextDecoderStream()).getReader() : undefined;
  if (!reader) return false;
  let rest = "", complete = false;
  for (let chunk = await reader.read(); !chunk.done; chunk = await reader.read()) {
    const lines = (rest + chunk.value).split("\n");
    rest = lines.pop() ?? "";
    const last = lines.at(-1);
    if (last === undefined) continue;
    const said = JSON.parse(last) as { done: number; total: number; complete?: boolean };
    complete = said.complete === true;
    tell(said);
  }
  return complete;
}
