"use client";

import { useEffect, useRef, type MouseEvent, type ReactNode } from "react";

/**
 * A drawing of a wall that can be tapped: on a part its numbers unfold, on the bare wall what is chosen is put there.
 * It presses the button that does the same without a place, so nothing here is out of a keyboard's reach.
 */
export function TapWall({ side, children }: { readonly side: "left" | "right"; readonly children: ReactNode }) {
  const wall = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const form = wall.current?.closest("form");
    // A place tapped before counts no more once a person presses a button: it says none. It stands until then, as the form may be sent a while after the tap.
    const forget = (event: Event) => {
      const place = form && placeIn(form);
      if (event.isTrusted && place && event.target instanceof Element && event.target.closest("button")) place.value = "";
    };
    form?.addEventListener("click", forget);
    // A part that was tapped before this page's script was there has its name in the address by now.
    unfold(location.hash.slice(1));
    return () => form?.removeEventListener("click", forget);
  }, []);
  return <div ref={wall} onClick={(event) => tap(event, side)}>{children}</div>;
}

function tap(event: MouseEvent<HTMLDivElement>, side: "left" | "right"): void {
  const target = event.target as Element, link = target.closest("a");
  if (link) return unfold(link.getAttribute("href")?.slice(1) ?? "");
  const wall = target.closest("[data-wall]"), form = event.currentTarget.closest("form"), place = form && placeIn(form);
  const button = form?.querySelector<HTMLButtonElement>(`button[name="add"][value="${side}"]`);
  if (!wall || !place || !button) return;
  const { left, width } = wall.getBoundingClientRect();
  const share = Math.min(1, Math.max(0, (event.clientX - left) / width));
  // On the driver's side the front is at the left; places are told from the rear.
  place.value = String(Math.round(100 * (side === "left" ? 1 - share : share)));
  button.click();
}

function placeIn(form: HTMLFormElement): HTMLInputElement | null {
  const place = form.elements.namedItem("addAt");
  return place instanceof HTMLInputElement ? place : null;
}

function unfold(id: string): void {
  const part = document.getElementById(id);
  if (part instanceof HTMLDetailsElement) part.open = true;
}
