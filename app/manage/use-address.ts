"use client";

import { useEffect, useRef } from "react";

/** A person who types rests about as long between words. Milliseconds. */
const TYPING_REST = 250;

/**
 * Keeps the browser's address at `href`, in place of the present one: sorting a table is not a page to go back to.
 * While `typed` is what changes it waits until the typing rests, as browsers refuse an address that changes with each key.
 */
export function useAddress(href: string, typed: string): void {
  const written = useRef(typed);
  useEffect(() => {
    const write = () => {
      written.current = typed;
      if (location.pathname + location.search !== href) history.replaceState(null, "", href);
    };
    if (typed === written.current) return write();
    const timer = setTimeout(write, TYPING_REST);
    return () => clearTimeout(timer);
  }, [href, typed]);
}
