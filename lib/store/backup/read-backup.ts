import { createHash, type Hash } from "node:crypto";
import { createReadStream } from "node:fs";
import { open, type FileHandle } from "node:fs/promises";
import { pipeline } from "node:stream/promises";
import { createGunzip } from "node:zlib";
import type { z } from "zod";
import { Fault, explainSystemError } from "../fault";
import { endSchema, firstLine, frameLimit, headerLimit, headerSchema, kinds, lastLineLength, lastLinePattern, otherVersion, sequencesSchema, tableSchema, tallySchema, type Header, type Sequences, type TableStart, type Tally } from "./format";
import { sameTally, tallying, type Tallying } from "./tallying";

/** What a backup holds, in the order of the file. A table's rows come between its start and its end. */
export type Part =
  | { readonly kind: "header"; readonly header: Header }
  | ({ readonly kind: "table" } & TableStart)
  | { readonly kind: "rows"; readonly rows: Buffer }
  | { readonly kind: "table-end"; readonly name: string; readonly tally: Tally }
  | { readonly kind: "sequences"; readonly sequences: Sequences };

/** What a whole and undamaged backup holds. */
export interface Checked {
  readonly header: Header;
  readonly tables: readonly { readonly name: string; readonly tally: Tally }[];
  readonly sequences: Sequences;
  readonly rows: number;
  /** Bytes on the disk. */
  readonly size: number;
}

/** Reads a backup from its first byte to its last and says what it holds. A Fault names what is wrong with one that is not whole. */
export async function checkBackup(file: string): Promise<Checked> {
  const tables: { name: string; tally: Tally }[] = [];
  let header: Header | undefined, sequences: Sequences = [];
  const size = await sizeOf(file);
  for await (const part of readBackup(file)) {
    if (part.kind === "header") header = part.header;
    if (part.kind === "table-end") tables.push({ name: part.name, tally: part.tally });
    if (part.kind === "sequences") sequences = part.sequences;
  }
  if (!header) throw damaged(file, "it has no description");
  return { header, tables, sequences, rows: tables.reduce((sum, { tally }) => sum + tally.rows, 0), size };
}

/**
 * The parts of a backup, one after the other. Every count and checksum is compared on the way, that of the whole
 * last: only when this ends is all that it gave known to be right.
 */
export async function* readBackup(file: string): AsyncGenerator<Part> {
  const handle = await openBackup(file);
  try {
    const { size } = await handle.stat();
    const start = await readStart(handle, file, size);
    const expected = await readLastLine(handle, file, size);
    yield { kind: "header", header: start.header };
    const hash = createHash("sha256").update(start.bytes);
    yield* readTables(unpack(file, start.bytes.length, size - lastLineLength, hash), start.header, file);
    if (hash.digest("hex") !== expected) throw damaged(file, "its checksum does not match");
  } finally {
    await handle.close();
  }
}

async function sizeOf(file: string): Promise<number> {
  const handle = await openBackup(file);
  try {
    return (await handle.stat()).size;
  } finally {
    await handle.close();
  }
}

async function openBackup(file: string): Promise<FileHandle> {
  try {
    const handle = await open(file, "r");
    if ((await handle.stat()).isFile()) return handle;
    await handle.close();
  } catch (error) {
    if (error instanceof Error && "code" in error && error.code === "ENOENT") throw new Fault(`There is no file ${file}.`, { cause: error });
    throw explainSystemError(error, file);
  }
  throw new Fault(`${file} is not a file.`);
}

function damaged(file: string, what: string, cause?: unknown): Fault {
  return new Fault(`${file} is damaged: ${what}. Use another backup; nothing was changed.`, { cause });
}

async function readStart(handle: FileHandle, file: string, size: number): Promise<{ header: Header; bytes: Buffer }> {
  const bytes = Buffer.alloc(Math.min(size, firstLine.length + headerLimit));
  await handle.read(bytes, 0, bytes.length, 0);
  const first = bytes.subarray(0, firstLine.length).toString("latin1");
  if (first !== firstLine) {
    if (otherVersion.test(bytes.subarray(0, 40).toString("latin1"))) throw new Fault(`${file} was written by a newer Padwright. Update Padwright; nothing was changed.`);
    throw new Fault(`${file} is no backup made by Padwright, or its first line is damaged. Nothing was changed.`);
  }
  const end = bytes.indexOf(10, firstLine.length);
  if (end < 0) throw damaged(file, size < bytes.length + 1 ? "it ends within its second line: it was cut short" : "its second line has no end");
  const header = parse(headerSchema, bytes.subarray(firstLine.length, end), file, "its second line cannot be read");
  return { header, bytes: bytes.subarray(0, end + 1) };
}

async function readLastLine(handle: FileHandle, file: string, size: number): Promise<string> {
  const bytes = Buffer.alloc(lastLineLength);
  const at = size - lastLineLength;
  if (at > 0) await handle.read(bytes, 0, lastLineLength, at);
  const digest = lastLinePattern.exec(bytes.toString("latin1"))?.[1];
  if (!digest) throw damaged(file, "its last line is not the checksum: it was cut short, or its end was changed");
  return digest;
}

/** The packed part between `from` and `to`, unpacked; what was read of it goes into `hash`. */
async function* unpack(file: string, from: number, to: number, hash: Hash): AsyncGenerator<Buffer> {
  // A frame in few chunks: they are put together again.
  const gunzip = createGunzip({ chunkSize: 256 * 1024 });
  const flow = pipeline(
    createReadStream(file, { start: from, end: Math.max(from, to - 1) }),
    async function* (packed: AsyncIterable<Buffer>) {
      for await (const chunk of packed) {
        hash.update(chunk);
        yield chunk;
      }
    },
    gunzip,
  );
  // Whoever takes the chunks is told by the stream.
  flow.catch(() => undefined);
  for await (const chunk of gunzip) yield chunk as Buffer;
  await flow;
}

interface Place {
  /** Of the tables that the second line names, how many have begun. */
  begun: number;
  rows: number;
  open: { name: string; tally: Tallying } | null;
  sequenced: boolean;
  ended: boolean;
}

async function* readTables(chunks: AsyncIterable<Buffer>, header: Header, file: string): AsyncGenerator<Part> {
  const place: Place = { begun: 0, rows: 0, open: null, sequenced: false, ended: false };
  const where = () => (place.open ? `in the table ${place.open.name}` : place.begun > 0 ? `after the table ${header.tables[place.begun - 1]}` : "where the tables begin");
  try {
    for await (const { kind, payload } of readFrames(chunks)) {
      const part = place.ended ? null : readPart(kind, payload, place, header, file);
      if (part === null) throw damaged(file, `something stands ${where()} that does not belong there`);
      if (part !== "end") yield part;
    }
  } catch (error) {
    if (error instanceof FrameFault || isPackingFault(error)) throw damaged(file, `it cannot be unpacked ${where()}`, error);
    throw error;
  }
  if (!place.ended) throw damaged(file, `it ends ${where()}`);
}

/** The part that a frame is, "end" for the last one, null for one that has no business there. */
function readPart(kind: number, payload: Buffer, place: Place, header: Header, file: string): Part | "end" | null {
  const { open } = place;
  if (kind === kinds.rows && open) {
    open.tally.add(payload);
    return { kind: "rows", rows: payload };
  }
  if (kind === kinds.table && !open) {
    const start = parse(tableSchema, payload, file, "the start of a table cannot be read");
    if (start.name !== header.tables[place.begun]) return null;
    place.begun += 1;
    place.open = { name: start.name, tally: tallying() };
    return { kind: "table", ...start };
  }
  if (kind === kinds.tableEnd && open) {
    const told = parse(tallySchema, payload, file, `the end of the table ${open.name} cannot be read`);
    const tally = open.tally.close();
    if (!sameTally(tally, told)) throw damaged(file, `the rows of the table ${open.name} are not those that were written`);
    place.open = null;
    place.rows += tally.rows;
    return { kind: "table-end", name: open.name, tally };
  }
  if (kind === kinds.sequences && !open && !place.sequenced && place.begun === header.tables.length) {
    place.sequenced = true;
    return { kind: "sequences", sequences: parse(sequencesSchema, payload, file, "its sequences cannot be read") };
  }
  if (kind === kinds.end && place.sequenced) {
    const told = parse(endSchema, payload, file, "its end cannot be read");
    if (told.tables !== place.begun || told.rows !== place.rows) throw damaged(file, "tables or rows are missing");
    place.ended = true;
    return "end";
  }
  return null;
}

class FrameFault extends Error {}

/** Takes frames out of chunks that are cut anywhere. */
async function* readFrames(chunks: AsyncIterable<Buffer>): AsyncGenerator<{ kind: number; payload: Buffer }> {
  let rest: Buffer = Buffer.alloc(0);
  for await (const chunk of chunks) {
    rest = rest.length === 0 ? chunk : Buffer.concat([rest, chunk]);
    let at = 0;
    while (rest.length - at >= 5) {
      const length = rest.readUInt32BE(at + 1);
      if (length > frameLimit) throw new FrameFault("a frame is longer than any may be");
      if (rest.length - at - 5 < length) break;
      yield { kind: rest.readUInt8(at), payload: rest.subarray(at + 5, at + 5 + length) };
      at += 5 + length;
    }
    rest = rest.subarray(at);
  }
  if (rest.length > 0) throw new FrameFault("it ends within a frame");
}

function isPackingFault(error: unknown): boolean {
  return error instanceof Error && "code" in error && typeof error.code === "string" && error.code.startsWith("Z_");
}

function parse<T>(schema: z.ZodType<T>, bytes: Buffer, file: string, what: string): T {
  try {
    return schema.parse(JSON.parse(bytes.toString("utf8")));
  } catch (error) {
    throw damaged(file, what, error);
  }
}
