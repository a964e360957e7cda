import { execFile } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { writeInventory, type Json } from "@/lib/exchange";
import { connect } from "@/lib/store/client";
import { loadPark, readParkFiles } from "@/lib/store/load-park";
import { migrate } from "@/lib/store/migrate";
import { openThrowaway } from "@/lib/store/open-database";
import type { ImportCost } from "./import-run";
import { digits } from "./measure";
import { aim } from "./report";

/** The fewer are what the most are held against: as much for each of them, where the cost grows in line. */
const SITES = [1000, 10_000] as const, QUICK_SITES = [500, 2000] as const;
const FORMATS = ["json", "csv"] as const;
/** Milliseconds for ten thousand sites. */
const AIM = 60_000;

/** How long an inventory takes to be read in, and how much memory, each site with as much on it as those of the demo park. */
export async function benchImport({ quick }: { readonly quick: boolean }): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), "padwright-bench-")), database = await openThrowaway(undefined);
  console.log("\nReading an inventory in, each in a process of its own; memory is the most it ever held.");
  try {
    await migrate(database.url);
    for (const format of FORMATS) {
      const costs: { sites: number; cost: ImportCost }[] = [];
      for (const sites of quick ? QUICK_SITES : SITES) costs.push({ sites, cost: await measure(database.url, folder, format, sites) });
      reportGrowth(format, costs[0]!, costs[1]!);
    }
  } finally {
    await database.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measure(url: string, folder: string, format: (typeof FORMATS)[number], count: number): Promise<ImportCost> {
  const slug = `${format}-${count}`, into = path.join(folder, slug), demo = (readParkFiles("seed/quillback-meadow").sites as { sites: Record<string, Json>[] }).sites;
  const sites = Array.from({ length: count }, (_, i): Json => ({ ...demo[i % demo.length]!, id: `s${i}` }));
  const files = writeInventory({ park: {}, sites: sites.map((record) => ({ record, version: 1 })), rigs: [] }, format)!.filter(({ name }) => !/^(park|rig)/.test(name));
  mkdirSync(into);
  for (const { name, text } of files) writeFileSync(path.join(into, name), text);
  const opened = connect(url, 1);
  await loadPark({ park: { slug, name: slug }, sites: { sites: [{ ...demo[0]!, id: "first" }] }, rigs: { rigs: [] } } as never, opened).finally(() => opened.$disconnect());
  const cost = await run(url, slug, into), { plan, write, cpu, memory } = cost;
  const bytes = files.reduce((sum, { text }) => sum + Buffer.byteLength(text), 0), things = (list: string) => (demo.reduce((sum, site) => sum + ((site[list] as readonly Json[] | null | undefined) ?? []).length, 0) * count) / demo.length;
  console.log(`  ${count.toLocaleString("en-US")} sites with ${Math.round(things("obstacles")).toLocaleString("en-US")} obstacles and ${Math.round(things("hookups")).toLocaleString("en-US")} hookups as ${format}, ${digits(bytes / 1e6)} MB`);
  console.log(`    read and planned ${digits(plan / 1000)} s, written ${digits(write / 1000)} s, CPU of this process ${digits(cpu / 1000)} s; memory ${mb(memory.before)} at first, ${mb(memory.planned)} when planned, ${mb(memory.written)} when written`);
  return cost;
}

function reportGrowth(format: string, few: { sites: number; cost: ImportCost }, many: { sites: number; cost: ImportCost }): void {
  const each = (of: (cost: ImportCost) => number) => digits(of(many.cost) / many.sites / (of(few.cost) / few.sites));
  console.log(`  ${format}: a site of ${many.sites.toLocaleString("en-US")} takes ${each(({ plan, write }) => plan + write)} of what one of ${few.sites.toLocaleString("en-US")} takes, ${each(({ cpu }) => cpu)} by CPU (1 is in line); writing adds ${mb(many.cost.memory.written - many.cost.memory.planned)}`);
  if (many.sites === 10_000) aim(`10,000 sites as ${format} within a minute`, many.cost.plan + many.cost.write <= AIM, `${digits((many.cost.plan + many.cost.write) / 1000)} s on the wall`);
}

const mb = (bytes: number): string => `${digits(bytes / 1e6)} MB`;

function run(url: string, park: string, folder: string): Promise<ImportCost> {
  const loader = pathToFileURL(path.resolve("node_modules/tsx/dist/loader.mjs")).href;
  return new Promise((resolve, reject) => {
    execFile(process.execPath, ["--import", loader, path.join(import.meta.dirname, "import-run.ts"), park, folder], { env: { ...process.env, DATABASE_URL: url } }, (error, out, err) => {
      if (error) reject(new Error(err || error.message));
      else resolve(JSON.parse(out) as ImportCost);
    });
  });
}
