import type { FaultCode } from "./faults";

/** A file as it was sent. */
export interface ExchangeFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export type Decoded = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly code: FaultCode };

/**
 * The text of a file: UTF-8, with or without its mark, or UTF-16 with one, as spreadsheets write it. Refused are what is
 * neither (an older encoding would turn names into others), packed files and texts that hold NUL, which no table or record does and no
 * database keeps.
 */
export function decodeText(bytes: Uint8Array): Decoded {
  if (bytes.length === 0) return { ok: false, code: "empty" };
  if (PACKED.some((mark) => mark.every((byte, i) => bytes[i] === byte))) return { ok: false, code: "packed" };
  const encoding = MARKS.find(({ mark }) => mark.every((byte, i) => bytes[i] === byte))?.encoding ?? "utf-8";
  try {
    const text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
    if (text.includes("\0")) return { ok: false, code: "nul" };
    return text.trim() === "" ? { ok: false, code: "empty" } : { ok: true, text };
  } catch {
    return { ok: false, code: "encoding" };
  }
}

/** The byte order marks of Unicode's encodings. */
const MARKS = [
  { mark: [0xef, 0xbb, 0xbf], encoding: "utf-8" },
  { mark: [0xff, 0xfe], encoding: "utf-16le" },
  { mark: [0xfe, 0xff], encoding: "utf-16be" },
] as const;

/** How zip (and so a workbook) and gzip files begin. */
const PACKED = [[0x50, 0x4b, 0x03, 0x04], [0x1f, 0x8b]] as const;
