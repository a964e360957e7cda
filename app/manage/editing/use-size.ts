"use client";

import { useEffect, useState } from "react";
import type { PageSize } from "./view";

/** The size of a drawing on the glass; before it is known, and on the server, that of a phone. */
export function useSize(frame: HTMLElement | null, first: PageSize): PageSize {
  const [size, setSize] = useState(first);
  useEffect(() => {
    if (!frame) return undefined;
    const observer = new ResizeObserver(() => {
      const w = frame.clientWidth, h = frame.clientHeight;
      if (w > 0 && h > 0) setSize((before) => (before.w === w && before.h === h ? before : { w, h }));
    });
    observer.observe(frame);
    return () => observer.disconnect();
  }, [frame]);
  return size;
}
