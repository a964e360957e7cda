import { policySchema, type FitResult } from "@/lib/fit";
import { rankInPool } from "@/lib/jobs/fit-pool";
import { siteSchema, type Site } from "@/lib/park";
import { rigSchema, type Rig } from "@/lib/rig";
import parkFile from "@/seed/quillback-meadow/park.json";
import rigsFile from "@/seed/quillback-meadow/rigs.json";
import sitesFile from "@/seed/quillback-meadow/sites.json";

/** A back-in with a tree, a stall and all three services, where the gap to the tree is the one to watch. */
const SITE = "d05", RIG = "demo-tt-27";

export interface Sample {
  readonly park: string;
  readonly name: string;
  readonly site: Site;
  readonly rig: Rig;
  readonly result: FitResult;
}

/** The site, rig and park that the page explains a plan with: of the demo park, whichever park is loaded. */
export function sampleInputs() {
  const site = sitesFile.sites.find((s) => s.id === SITE), rig = rigsFile.rigs.find((r) => r.rig.id === RIG);
  if (!site || !rig) throw new Error(`the demo park lacks site ${SITE} or rig ${RIG}, which the page that explains a plan shows`);
  return { park: parkFile.name, name: rig.name, site: siteSchema.parse(site), rig: rigSchema.parse(rig.rig), policy: policySchema.parse(parkFile.policy) };
}

let found: Promise<Sample> | null = null;

/** The sample with its answer, worked out once: nothing in it changes. */
export function sample(): Promise<Sample> {
  found ??= solve().catch((error: unknown) => {
    found = null;
    throw error;
  });
  return found;
}

async function solve(): Promise<Sample> {
  const { policy, ...inputs } = sampleInputs();
  const [result] = await rankInPool([inputs.site], inputs.rig, policy);
  return { ...inputs, result: result! };
}
