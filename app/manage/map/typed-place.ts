import type { Units } from "@/lib/measure";
import { printTyped, readTyped } from "../editing/typed";

/** Reads a coordinate on the park's map, mm. Parks reach farther than one site: bare feet and meters are read beyond what a site may measure. */
export function readCoordinate(text: string, units: Units): number | null {
  const read = readTyped(text, "into", units);
  if (read.ok) return read.value ?? null;
  const match = read.fault === "too-long" ? /^[-−]?\s*(\d+(?:\.\d+)?)\s*(ft|m)?$/.exec(text.trim()) : null;
  if (!match) return null;
  const unit = match[2] ?? (units === "metric" ? "m" : "ft");
  return Math.round(Number(match[1]) * (unit === "m" ? 1000 : 304.8)) * (/^[-−]/.test(text.trim()) ? -1 : 1);
}

export function printCoordinate(mm: number, units: Units): string {
  return printTyped(mm, "into", units);
}

/** "118", "118.5°"; null where it is none from 0 to 360. */
export function readBearing(text: string): number | null {
  const plain = text.trim().replace(/\s*°$/, "").replace(",", ".");
  return /^\d+(\.\d+)?$/.test(plain) && Number(plain) <= 360 ? Number(plain) : null;
}
