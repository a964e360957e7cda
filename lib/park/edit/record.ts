import type { Point } from "@/lib/plane";
import type { SiteInput } from "../schema";

/**
 * A site's record while it is edited: as it came in, with the notes that the schema does not know. It may lack what the schema asks
 * for, or hold an outline that crosses itself; `faults.ts` says so. Nothing here changes a record in place.
 */
export type Draft = SiteInput;

/** The way to a value of a record: `["obstacles", 2, "at"]`. */
export type Path = readonly (string | number)[];

/** The same as one text, by which fields, handles and faults find each other: `obstacles.2.at`. */
export function keyOf(path: Path): string {
  return path.join(".");
}

/** What a record holds there; undefined where it holds nothing. */
export function readAt(draft: Draft, path: Path): unknown {
  let at: unknown = draft;
  for (const step of path) {
    if (typeof at !== "object" || at === null) return undefined;
    at = (at as Record<string | number, unknown>)[step];
  }
  return at ?? undefined;
}

/** The record with another value there; undefined takes the field out, and an entry of a list with all that stands behind it moving up. */
export function writeAt(draft: Draft, path: Path, value: unknown): Draft {
  return write(draft, path, value) as Draft;
}

/** A place in plan, mm, from a point or a spot height; null where there is none. */
export function pointAt(draft: Draft, path: Path): Point | null {
  const found = readAt(draft, path);
  if (!Array.isArray(found) || found.length < 2 || !found.slice(0, 2).every((n) => typeof n === "number")) return null;
  return [found[0] as number, found[1] as number];
}

/** Lengths are kept in whole millimetres. No minus zero: it would make two equal records differ. */
export function whole(mm: number): number {
  const rounded = Math.round(mm);
  return rounded === 0 ? 0 : rounded;
}

function write(at: unknown, [step, ...rest]: Path, value: unknown): unknown {
  if (step === undefined) return value;
  const list = Array.isArray(at) || ((at === undefined || at === null) && typeof step === "number");
  const held: Record<string | number, unknown> = list ? ([...((at as unknown[] | null | undefined) ?? [])] as never) : { ...(at as object | null | undefined) };
  const next = write(held[step], rest, value);
  if (next !== undefined) held[step] = next;
  else if (Array.isArray(held)) held.splice(Number(step), 1);
  else Reflect.deleteProperty(held, step);
  return held;
}
