import { createHash } from "node:crypto";
import type { Tally } from "./format";

/** Counts what COPY writes: rows, bytes and their sha256. */
export interface Tallying {
  add(chunk: Buffer): void;
  close(): Tally;
}

/** In COPY's text a line end within a value is written `\n`, so that each 0x0a ends a row. */
export function tallying(): Tallying {
  const hash = createHash("sha256");
  let rows = 0, bytes = 0;
  return {
    add(chunk) {
      hash.update(chunk);
      bytes += chunk.length;
      for (let at = chunk.indexOf(10); at >= 0; at = chunk.indexOf(10, at + 1)) rows += 1;
    },
    close: () => ({ rows, bytes, sha256: hash.digest("hex") }),
  };
}

export function sameTally(a: Tally, b: Tally): boolean {
  return a.rows === b.rows && a.bytes === b.bytes && a.sha256 === b.sha256;
}
