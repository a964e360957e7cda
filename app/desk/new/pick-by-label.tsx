"use client";

import { useRef, type KeyboardEvent, type ReactNode } from "react";

/** Letters typed one after another within this time belong to one label. Milliseconds. */
const pause = 1500;

/** Radio buttons that are also chosen by typing the label beside them: c07, with or without its hyphen. Arrows go on working. */
export function PickByLabel({ className, children }: { readonly className: string | undefined; readonly children: ReactNode }) {
  const typed = useRef({ text: "", at: 0 });
  const pick = (event: KeyboardEvent<HTMLFieldSetElement>) => {
    const { target, key, timeStamp, currentTarget } = event;
    if (!(target instanceof HTMLInputElement) || target.type !== "radio" || !/^[a-z0-9]$/i.test(key) || event.metaKey || event.ctrlKey || event.altKey) return;
    const text = (timeStamp - typed.current.at < pause ? typed.current.text : "") + key.toLowerCase();
    typed.current = { text, at: timeStamp };
    const found = [...currentTarget.querySelectorAll<HTMLInputElement>("input[data-label]")].find(({ dataset: { label } }) => plain(label!).startsWith(text));
    if (!found) return;
    event.preventDefault();
    found.closest("details")?.setAttribute("open", "");
    found.checked = true;
    found.focus();
  };
  return <fieldset className={className} onKeyDown={pick}>{children}</fieldset>;
}

function plain(label: string): string {
  return label.toLowerCase().replace(/[^a-z0-9]/g, "");
}
