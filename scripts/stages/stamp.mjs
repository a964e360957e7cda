import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import path from "node:path";
import { inRoot } from "./root.mjs";

/** One hash over files and folders of this clone (names and contents) and over `extra`. What is missing counts as missing. */
export function hashOf(names, { extra = "", skip = [] } = {}) {
  const hash = createHash("sha256").update(extra);
  for (const name of names) add(hash, name, skip);
  return hash.digest("hex");
}

function add(hash, name, skip) {
  const file = inRoot(name);
  if (skip.includes(name) || !existsSync(file)) return;
  if (!statSync(file).isDirectory()) {
    hash.update(`${name}\0`).update(readFileSync(file)).update("\0");
    return;
  }
  for (const entry of readdirSync(file).sort()) add(hash, path.posix.join(name, entry), skip);
}

/** A note of the hash that something was made from. */
export function stampAt(...parts) {
  const file = inRoot(...parts);
  return {
    matches: (hash) => existsSync(file) && readFileSync(file, "utf8") === hash,
    write: (hash) => writeFileSync(file, hash),
    remove: () => rmSync(file, { force: true }),
  };
}
