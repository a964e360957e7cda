"use client";

import type { MouseEvent, ReactNode } from "react";

/**
 * A drawing of a wall that can be tapped: on a part its numbers unfold, on the bare wall what is chosen above is put
 * there. It presses the button that does the same without a place, so nothing here is out of a keyboard's reach.
 */
export function TapWall({ side, children }: { readonly side: "left" | "right"; readonly children: ReactNode }) {
  return <div onClick={(event) => tap(event, side)}>{children}</div>;
}

function tap(event: MouseEvent<HTMLDivElement>, side: "left" | "right"): void {
  const target = event.target as Element, link = target.closest("a");
  if (link) return unfold(link.getAttribute("href")?.slice(1) ?? "");
  const wall = target.closest("[data-wall]"), form = event.currentTarget.closest("form");
  const at = form?.elements.namedItem("addAt"), button = form?.querySelector<HTMLButtonElement>(`button[name="add"][value="${side}"]`);
  if (!wall || !(at instanceof HTMLInputElement) || !button) return;
  const { left, width } = wall.getBoundingClientRect();
  const share = Math.min(1, Math.max(0, (event.clientX - left) / width));
  // On the driver's side the front is at the left; places are told from the rear.
  at.value = String(Math.round(100 * (side === "left" ? 1 - share : share)));
  button.click();
  at.value = "";
}

function unfold(id: string): void {
  const part = document.getElementById(id);
  if (part instanceof HTMLDetailsElement) part.open = true;
}
