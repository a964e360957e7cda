import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { operatorLimits, planImport } from "@/lib/exchange";
import { disconnect } from "@/lib/store/client";
import { applyImport, readInventory } from "@/lib/store/inventory";
import type { Manager } from "@/lib/store/site-changes";

/** What one import took. Milliseconds on the wall, and of CPU; memory is the most that the process ever held by then, bytes. */
export interface ImportCost {
  readonly plan: number;
  readonly write: number;
  readonly cpu: number;
  readonly memory: { readonly before: number; readonly planned: number; readonly written: number };
}

const [park, folder] = process.argv.slice(2) as [string, string], actor: Manager = { kind: "manager", account: "bench", park };
const most = () => process.resourceUsage().maxRSS * 1024;
const before = most(), cpu = process.cpuUsage(), began = performance.now();
const files = readdirSync(folder).map((name) => ({ name, bytes: readFileSync(path.join(folder, name)) }));
const plan = planImport(files, await readInventory(actor, files), "keep", operatorLimits);
if (plan.faultCount > 0) throw new Error(`the files hold ${plan.faultCount} faults`);
const planned = { at: performance.now(), memory: most() };
await applyImport(actor, plan, "");
const spent = process.cpuUsage(cpu);
const cost: ImportCost = { plan: planned.at - began, write: performance.now() - planned.at, cpu: (spent.user + spent.system) / 1000, memory: { before, planned: planned.memory, written: most() } };
await disconnect();
console.log(JSON.stringify(cost));
