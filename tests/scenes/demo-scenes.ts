import { readFileSync } from "node:fs";
import { policySchema } from "@/lib/fit/policy";
import { siteSchema } from "@/lib/park/schema";
import { rigSchema } from "@/lib/rig/schema";
import type { Scene } from "./random-scene";

const folder = new URL("../../seed/quillback-meadow/", import.meta.url);

/** Every rig of the demo park on every site, or each rig on every `stride`-th site, starting elsewhere for each. Its numbers are taken as exact: what their errors do to an answer is asked elsewhere. */
export function demoScenes(stride = 1): Scene[] {
  const park = read("park.json") as { policy?: unknown };
  const sites = (read("sites.json") as { sites: unknown[] }).sites.map((s) => ({ ...siteSchema.parse(s), survey: undefined }));
  const rigs = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map((r) => rigSchema.parse(r.rig));
  const policy = policySchema.parse(park.policy ?? {});
  return rigs.flatMap((rig, i) => sites.filter((_, j) => (i + j) % stride === 0).map((site, j) => ({ seed: i * 1000 + j, site, rig, policy })));
}

function read(name: string): unknown {
  return JSON.parse(readFileSync(new URL(name, folder), "utf8"));
}
