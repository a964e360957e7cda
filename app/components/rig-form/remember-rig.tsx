"use client";

import { useEffect } from "react";
import { rememberRig } from "./remembered";

/** Lets this device remember the rig that the page is about. */
export function RememberRig({ name, query }: { readonly name: string; readonly query: string }) {
  useEffect(() => rememberRig({ name, query }), [name, query]);
  return null;
}
