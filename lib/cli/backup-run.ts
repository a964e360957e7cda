import { parseArgs, type ParseArgsConfig } from "node:util";
import type { Tally } from "@/lib/store/backup/format";
import { databaseUrl } from "@/lib/store/environment";
import { Fault } from "@/lib/store/fault";
import { StoreError, toStoreError } from "@/lib/store/errors";

export interface Run {
  /** The database's address. */
  readonly url: string;
  readonly force: boolean;
  /** Aborted by Ctrl-C: what was begun is undone. */
  readonly signal: AbortSignal;
}

class Refusal extends Error {}

const exitCodes = { SIGINT: 130, SIGTERM: 143 } as const;

/** Runs a command on the one file it is given and prints what it answers, or in one line why it did not work. */
export async function runOnFile(usage: string, options: NonNullable<ParseArgsConfig["options"]>, work: (file: string, run: Run) => Promise<string>): Promise<void> {
  const stop = new AbortController();
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => {
      process.exitCode = exitCodes[signal];
      stop.abort();
    });
  }
  try {
    const { values, positionals } = parse(usage, options);
    if (values["help"]) return console.log(usage);
    const [file] = positionals;
    if (!file || positionals.length > 1) throw new Refusal(usage);
    console.log(await work(file, { url: databaseUrl(), force: values["force"] === true, signal: stop.signal }));
  } catch (error) {
    if (stop.signal.aborted) return console.error("Stopped; nothing was left half done.");
    console.error(lineOf(error));
    process.exitCode = 2;
  }
}

/** Tells of each table on a terminal; a mail from a timer needs no such lines. */
export function showTables(): (table: string, tally: Tally) => void {
  if (!process.stderr.isTTY) return () => undefined;
  return (table, { rows }) => console.error(`  ${table.padEnd(20)} ${countText(rows, "row")}`);
}

export function countText(count: number, of: string): string {
  return `${count.toLocaleString("en-US")} ${of}${count === 1 ? "" : "s"}`;
}

export function bytesText(bytes: number): string {
  return bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** To the minute, by universal time: the machine's own may be another one than where the backup is read. */
export function dayOf(iso: string): string {
  return `${iso.slice(0, 16).replace("T", " ")} UTC`;
}

function parse(usage: string, options: NonNullable<ParseArgsConfig["options"]>): { readonly values: Readonly<Record<string, unknown>>; readonly positionals: readonly string[] } {
  try {
    return parseArgs({ allowPositionals: true, options: { ...options, help: { type: "boolean", short: "h" } } });
  } catch (error) {
    throw new Refusal(`${error instanceof Error ? error.message : String(error)}\n\n${usage}`);
  }
}

function lineOf(error: unknown): string {
  if (error instanceof Refusal || error instanceof Fault || error instanceof StoreError) return error.message;
  const known = toStoreError(error);
  return known.kind === "unknown" ? (error instanceof Error ? (error.stack ?? error.message) : String(error)) : `It did not work: ${known.message}.`;
}
