"use client";

import { useSyncExternalStore } from "react";

const never = () => () => undefined;

/** Prints the page. Where there is no script there is no button: the browser's own does it. */
export function PrintButton({ label }: { readonly label: string }) {
  const scripted = useSyncExternalStore(never, () => true, () => false);
  return scripted ? <button type="button" onClick={() => window.print()}>{label}</button> : null;
}
