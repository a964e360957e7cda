import { readFileSync } from "node:fs";
import path from "node:path";
import { fitSite, policySchema, type FitResult } from "@/lib/fit";
import { siteSchema, type Site } from "@/lib/park";
import { rigSchema, type Rig } from "@/lib/rig";

const seed = path.join(import.meta.dirname, "../../../seed/quillback-meadow");
const read = (file: string) => JSON.parse(readFileSync(path.join(seed, file), "utf8")) as { sites: unknown[]; rigs: { rig: unknown }[] };

const sites = read("sites.json").sites.map((site) => siteSchema.parse(site));
const rigs = read("rigs.json").rigs.map(({ rig }) => rigSchema.parse(rig));
const policy = policySchema.parse({});

export interface Stood {
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
}

export function stand(site: Site, rig: Rig): Stood {
  return { site, rig, result: fitSite(site, rig, policy) };
}

export function demo(siteId: string, rigId: string): Stood {
  return stand(sites.find(({ id }) => id === siteId)!, rigs.find(({ id }) => id === rigId)!);
}

/** Every rig of the demo park on every third site, where it stands. */
export function everyStand(): Stood[] {
  return sites.filter((_, i) => i % 3 === 0).flatMap((site) => rigs.map((rig) => stand(site, rig))).filter(({ result }) => result.pose !== null);
}
