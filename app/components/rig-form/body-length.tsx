"use client";

import { useEffect, useState } from "react";
import { parseLength } from "@/lib/measure/parse";
import type { Units } from "@/lib/measure";
import { formatLength, unbroken } from "@/lib/wording/lengths";

interface BodyLengthProps {
  /** Ids of the two fields. */
  readonly length: string;
  readonly hitch: string;
  readonly units: Units;
  /** What counts where a field is empty. */
  readonly standing: { readonly length: string; readonly hitch: string };
  /** The difference as the server worked it out. */
  readonly told: string;
  readonly unclear: string;
}

/** What is left for the body while the two are being typed. */
export function BodyLength({ length, hitch, units, standing, told, unclear }: BodyLengthProps) {
  const [now, setNow] = useState(told);
  useEffect(() => {
    const fields = [length, hitch].map((id) => document.getElementById(id) as HTMLInputElement | null);
    const work = () => {
      const [whole, ahead] = fields.map((field, i) => parseLength(field?.value.trim() || (i === 0 ? standing.length : standing.hitch), units === "metric" ? "m" : "ft"));
      if (!whole?.ok || !ahead?.ok || ahead.mm >= whole.mm) setNow(unclear);
      else setNow(unbroken(formatLength(whole.mm - ahead.mm, units, "nearest")));
    };
    for (const field of fields) field?.addEventListener("input", work);
    return () => { for (const field of fields) field?.removeEventListener("input", work); };
  }, [length, hitch, units, standing.length, standing.hitch, unclear]);
  return <output htmlFor={`${length} ${hitch}`}>{now}</output>;
}
