import { execFile } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { openThrowaway } from "@/lib/store/open-database";
import { migrate } from "@/lib/store/migrate";
import { digits } from "./measure";
import { openFilledParks, STAYS_A_SITE } from "./stays-parks";
import type { BackupCost } from "./backup-run";

/** Sites, all parks together, whose backups are measured, each site with its stays of a year. The largest is asked for by what a park group may have. */
const SITES = [500, 5000, 10_000] as const;
const QUICK_SITES = [500, 2000] as const;

/** How long a backup and its restore take, and how much memory: steady, however much there is. */
export async function benchBackup({ quick, seed }: { readonly quick: boolean; readonly seed: number }): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "padwright-bench-"));
  console.log("\nBackup and restore, each in a process of its own; its memory is the most it ever held.");
  try {
    for (const sites of quick ? QUICK_SITES : SITES) await measure(folder, sites, seed);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measure(folder: string, sites: number, seed: number): Promise<void> {
  const source = await openThrowaway(undefined), target = await openThrowaway(undefined);
  const file = path.join(folder, `of-${sites}.backup`);
  try {
    await migrate(source.url);
    await openFilledParks(source.url, shares(sites), seed);
    const made = await run("backup", source.url, file);
    console.log(`  ${sites.toLocaleString("en-US")} sites, ${(sites * STAYS_A_SITE).toLocaleString("en-US")} stays and more: ${made.rows.toLocaleString("en-US")} rows, ${digits(made.bytes / 1e6)} MB of text, ${digits(made.size / 1e6)} MB packed`);
    console.log(`    backup   ${tell(made)}`);
    console.log(`    restore  ${tell(await run("restore", target.url, file))}`);
  } finally {
    await source.close();
    await target.close();
  }
}

/** Some parks that have so many sites together, each of another size, which is its name. */
function shares(sites: number): number[] {
  const parks = Math.ceil(sites / 2000), each = Math.floor(sites / parks), over = sites - parks * each;
  return Array.from({ length: parks }, (_, i) => each + 2 * i - (parks - 1) + (i === parks - 1 ? over : 0));
}

const tell = ({ ms, memory }: BackupCost): string => `${digits(ms / 1000)} s, ${digits(memory / 1e6)} MB`;

function run(what: "backup" | "restore", url: string, file: string): Promise<BackupCost> {
  const loader = pathToFileURL(path.resolve("node_modules/tsx/dist/loader.mjs")).href;
  return new Promise((resolve, reject) => {
    execFile(process.execPath, ["--import", loader, path.join(import.meta.dirname, "backup-run.ts"), what, url, file], (error, out, err) => {
      if (error) reject(new Error(err || error.message));
      else resolve(JSON.parse(out) as BackupCost);
    });
  });
}
