"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useState, useTransition, type ChangeEvent, type KeyboardEvent, type MouseEvent, type ReactNode, type SubmitEvent } from "react";

interface QuickKeysProps {
  readonly children: ReactNode;
  /** Said where an answer takes longer than half a second. */
  readonly slow: string;
  readonly className: string | undefined;
  readonly slowClassName: string | undefined;
}

/** An answer that takes longer than this is spoken of. Milliseconds. */
const SOON = 500;

/**
 * The desk by keyboard. The form and the links under it work by themselves; with script they change the page in place, so
 * that the answer is announced, and put the focus where the next word of the caller is wanted: on the first question.
 * There y and n answer, arrows go up and down, Esc goes back to the field.
 */
export function QuickKeys({ children, slow, className, slowClassName }: QuickKeysProps) {
  const router = useRouter();
  const board = useRef<HTMLDivElement>(null);
  const [pending, start] = useTransition();
  const late = useLate(pending);
  const asked = useRef(false);
  useEffect(() => {
    if (pending) asked.current = true;
    else if (asked.current && board.current) {
      asked.current = false;
      return focusAfterAnswer(board.current);
    }
    return undefined;
  }, [pending]);
  // Enter may come before this script: then the form went by itself, and the answer is here already.
  useEffect(() => {
    const field = board.current?.querySelector<HTMLInputElement>("#call");
    return board.current && field && field.defaultValue !== "" && field.value === field.defaultValue ? focusAfterAnswer(board.current) : undefined;
  }, []);
  const go = (address: string) => start(() => router.push(address, { scroll: false }));
  const send = (form: HTMLFormElement) => {
    const query = new URLSearchParams();
    for (const [name, value] of new FormData(form)) if (typeof value === "string" && value.trim() !== "") query.set(name, value.trim());
    // Answers were the last caller's where the line is another one: the page passes over them, and the address need not keep them.
    if (query.get("was") !== query.get("call")) for (const { name } of form.querySelectorAll<HTMLInputElement>("input[data-answered]")) query.delete(name);
    query.delete("was");
    go(`/desk/check?${query.toString()}`);
  };
  return (
    <div
      ref={board} className={className} aria-busy={pending || undefined}
      onSubmit={(event: SubmitEvent<HTMLDivElement>) => { event.preventDefault(); if (event.target instanceof HTMLFormElement) send(event.target); }}
      onChange={(event: ChangeEvent<HTMLDivElement>) => { if (event.target instanceof HTMLSelectElement && event.target.form && "submits" in event.target.dataset) send(event.target.form); }}
      onClick={(event: MouseEvent) => {
        const link = answerLink(event.target);
        if (!link || event.metaKey || event.ctrlKey || event.shiftKey || event.button !== 0) return;
        event.preventDefault();
        go(link.pathname + link.search);
      }}
      onKeyDown={(event: KeyboardEvent) => answerByKey(event, board.current)}
    >
      {children}
      <p className={slowClassName} role="status">{late ? slow : ""}</p>
    </div>
  );
}

function useLate(pending: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setLate(pending), pending ? SOON : 0);
    return () => clearTimeout(timer);
  }, [pending]);
  return late && pending;
}

function answerLink(target: EventTarget): HTMLAnchorElement | null {
  return target instanceof Element ? target.closest<HTMLAnchorElement>("a[data-answer]") : null;
}

/**
 * To the field where something is wrong with it, else to the first question. Questions may come after the answer: then
 * they are waited for, unless something is typed in the meantime. Returns what ends the waiting.
 */
function focusAfterAnswer(board: HTMLElement): (() => void) | undefined {
  const field = board.querySelector<HTMLInputElement>("#call");
  const firstQuestion = () => board.querySelector<HTMLElement>("[data-question] a");
  const first = field?.getAttribute("aria-invalid") ? field : firstQuestion();
  (first ?? field)?.focus();
  if (first) return undefined;
  const watch = new MutationObserver(() => {
    const come = firstQuestion();
    if (!come) return;
    end();
    come.focus();
  });
  const end = () => {
    watch.disconnect();
    board.removeEventListener("keydown", end);
  };
  watch.observe(board, { childList: true, subtree: true });
  board.addEventListener("keydown", end);
  return end;
}

/** Keys count only while the focus is on a question, so that no letter typed elsewhere answers anything. */
function answerByKey(event: KeyboardEvent, board: HTMLElement | null): void {
  if (event.metaKey || event.ctrlKey || event.altKey || !(event.target instanceof Element)) return;
  const field = board?.querySelector<HTMLInputElement>("#call");
  if (event.key === "Escape" && field) {
    event.preventDefault();
    field.focus();
    return field.select();
  }
  const question = event.target.closest("[data-question]");
  if (!question || !board) return;
  const key = event.key.toLowerCase();
  const questions = [...board.querySelectorAll("[data-question]")];
  const step = key === "arrowdown" ? 1 : key === "arrowup" ? -1 : 0;
  if (step !== 0) {
    event.preventDefault();
    questions[questions.indexOf(question) + step]?.querySelector("a")?.focus();
  } else if (key === "y" || key === "n") {
    event.preventDefault();
    question.querySelector<HTMLAnchorElement>(`a[data-answer="${key === "y" ? "yes" : "no"}"]`)?.click();
  }
}
