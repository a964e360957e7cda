import { createHash } from "node:crypto";

/**
 * A key that two records share exactly where they hold the same: the hash of their canonical JSON, in which the order
 * of an object's fields says nothing and a field that is undefined is one that is not there. Objects are hashed once,
 * so a record must not be altered after it was asked about (none here is: they come out of their schemas and are copied to
 * be changed).
 */
export function contentKey(value: object): string {
  const known = keys.get(value);
  if (known !== undefined) return known;
  const key = createHash("sha256").update(canonicalJson(value)).digest("base64url").slice(0, KEY_LENGTH);
  keys.set(value, key);
  return key;
}

/** JSON that does not depend on the order in which the fields of an object were written. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((item: unknown) => (item === undefined ? "null" : canonicalJson(item))).join(",")}]`;
  if (typeof value !== "object" || value === null) return JSON.stringify(value) ?? "null";
  const fields = Object.entries(value).filter(([, held]) => held !== undefined).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${fields.map(([name, held]) => `${JSON.stringify(name)}:${canonicalJson(held)}`).join(",")}}`;
}

/** 132 bits: two different records of all the parks there are will not share one. */
const KEY_LENGTH = 22;

/** By identity, so that a record asked about with a hundred rigs is read through once. */
const keys = new WeakMap<object, string>();
