"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useTransition, type ReactNode } from "react";

interface AskAsTypedProps {
  readonly className: string | undefined;
  /** Nothing is asked before these fields are filled in. */
  readonly needs: readonly string[];
  readonly children: ReactNode;
}

/** Typing that rests this long is looked up. Milliseconds. */
const rest = 400;

/**
 * The first form, which also answers while it is typed in. Enter asks for what stands there and goes on to the name, or to
 * the first fault; what is typed under it already stays. Works as a plain form by itself.
 */
export function AskAsTyped({ className, needs, children }: AskAsTypedProps) {
  const router = useRouter();
  const [pending, start] = useTransition();
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const form = useRef<HTMLFormElement>(null);
  const sent = useRef(false);
  useEffect(() => () => clearTimeout(timer.current), []);
  useEffect(() => {
    if (pending || !sent.current) return;
    sent.current = false;
    (form.current?.querySelector<HTMLElement>("[aria-invalid]") ?? document.querySelector<HTMLElement>("input[data-next]"))?.focus();
  }, [pending]);
  const ask = (typing: boolean) => {
    clearTimeout(timer.current);
    const query = new URLSearchParams();
    for (const [name, value] of new FormData(form.current!)) if (typeof value === "string" && value.trim() !== "") query.set(name, value.trim());
    if (typing && needs.some((name) => !query.has(name))) return;
    if (typing) query.set("typing", "yes");
    start(() => {
      sent.current = !typing;
      router.replace(`/desk/new?${query.toString()}`, { scroll: false });
    });
  };
  return (
    <form
      ref={form} action="/desk/new" className={className} aria-busy={pending || undefined}
      onSubmit={(event) => {
        event.preventDefault();
        ask(false);
      }}
      onInput={() => {
        clearTimeout(timer.current);
        timer.current = setTimeout(() => ask(true), rest);
      }}
    >
      {children}
    </form>
  );
}
