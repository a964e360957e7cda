import { restore } from "@/lib/store/backup/restore";
import { backUp } from "@/lib/store/backup/write-backup";

/** What one backup or restore took. Milliseconds on the wall, bytes; `memory` the most the process ever held. */
export interface BackupCost {
  readonly ms: number;
  readonly memory: number;
  readonly rows: number;
  readonly bytes: number;
  readonly size: number;
}

const [what, url, file] = process.argv.slice(2) as [string, string, string];
const began = performance.now();
const { rows, size, tables } = await (what === "backup" ? backUp(url, file) : restore(url, file));
const cost: BackupCost = { ms: performance.now() - began, memory: process.resourceUsage().maxRSS * 1024, rows, bytes: tables.reduce((sum, { tally }) => sum + tally.bytes, 0), size };
console.log(JSON.stringify(cost));
