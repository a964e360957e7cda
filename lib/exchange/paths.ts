import type { Json } from "./cells";
import type { Path } from "./tables";

/** What stands at a path of a record; undefined where there is nothing. */
export function valueAt(record: Json, path: Path): Json | undefined {
  let held: unknown = record;
  for (const key of path) {
    if (typeof held !== "object" || held === null || !Object.hasOwn(held, key)) return undefined;
    held = (held as Record<string | number, unknown>)[key];
  }
  return held as Json | undefined;
}

/** Puts a value at a path of a record that is ours alone, making what has to lie around it. */
export function putAt(record: Json, path: Path, value: Json): void {
  let holder = record as Record<string | number, unknown>;
  path.forEach((key, i) => {
    if (i === path.length - 1) return void (holder[key] = value);
    const next = holder[key];
    if (typeof next !== "object" || next === null) holder[key] = typeof path[i + 1] === "number" ? [] : {};
    holder = holder[key] as Record<string | number, unknown>;
  });
}

/** Takes away what stands at a path, and what lies around it where nothing else is left in there. */
export function dropAt(record: Json, path: Path): void {
  const holder = valueAt(record, path.slice(0, -1)), key = path.at(-1);
  if (typeof holder !== "object" || holder === null || key === undefined) return;
  const inner = holder as Record<string | number, unknown>;
  // A hole in a list is no number: the schema says what is missing.
  if (Array.isArray(holder)) inner[key] = null;
  else Reflect.deleteProperty(inner, key);
  const left = Object.values(inner).filter((one) => one !== null && one !== undefined);
  if (left.length === 0 && path.length > 1) dropAt(record, path.slice(0, -1));
}

/** Whether two values hold the same, in whatever order the fields of their objects were written. */
export function sameJson(a: Json | undefined, b: Json | undefined): boolean {
  if (a === b) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a) || Array.isArray(b)) return Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((one: Json, i) => sameJson(one, (b as readonly Json[])[i]));
  const left = a as Readonly<Record<string, Json>>, right = b as Readonly<Record<string, Json>>, keys = Object.keys(left);
  return keys.length === Object.keys(right).length && keys.every((key) => Object.hasOwn(right, key) && sameJson(left[key], right[key]));
}
