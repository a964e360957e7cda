"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";

/** The key / goes to the field that finds stays, from every page of the desk. Not while something is typed elsewhere. */
export function FindKey() {
  const router = useRouter();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== "/" || event.metaKey || event.ctrlKey || event.altKey || isTyping(event.target)) return;
      event.preventDefault();
      const field = document.querySelector<HTMLInputElement>("input[data-find]");
      if (!field) return router.push("/desk/find");
      field.focus();
      field.select();
    };
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [router]);
  return null;
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && (target.isContentEditable || target.matches("input:not([type=radio], [type=checkbox], [type=submit]), textarea, select"));
}
