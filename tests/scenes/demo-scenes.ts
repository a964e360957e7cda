import { readFileSync } from "node:fs";
import { fitSite } from "@/lib/fit";
import { policySchema } from "@/lib/fit/policy";
import { siteSchema } from "@/lib/park/schema";
import { rigSchema } from "@/lib/rig/schema";
import type { Scene } from "./random-scene";
import type { WayScene } from "./way-scenes";

const folder = new URL("../../seed/quillback-meadow/", import.meta.url);

/** Every rig of the demo park on every site, or each rig on every `stride`-th site, starting elsewhere for each. Its numbers are taken as exact: what their errors do to an answer is asked elsewhere. */
export function demoScenes(stride = 1): Scene[] {
  const park = read("park.json") as { policy?: unknown };
  const sites = (read("sites.json") as { sites: unknown[] }).sites.map((s) => ({ ...siteSchema.parse(s), survey: undefined }));
  const rigs = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map((r) => rigSchema.parse(r.rig));
  const policy = policySchema.parse(park.policy ?? {});
  return rigs.flatMap((rig, i) => sites.filter((_, j) => (i + j) % stride === 0).map((site, j) => ({ seed: i * 1000 + j, site, rig, policy })));
}

/** A rig of the demo park on the pose that is best for it on one of the sites: pair `index` of them all, null where it stands nowhere there and beyond the last pair. */
export function demoWayScene(index: number): WayScene | null {
  const scene = (pairs ??= demoScenes())[index];
  if (!scene) return null;
  const { pose } = fitSite(scene.site, scene.rig, scene.policy);
  return pose && { site: scene.site, rig: scene.rig, poses: [pose] };
}

let pairs: Scene[] | undefined;

function read(name: string): unknown {
  return JSON.parse(readFileSync(new URL(name, folder), "utf8"));
}
