import { parseArgs } from "node:util";
import { findAccess } from "@/lib/access";
import { defaultPolicy } from "@/lib/fit";
import { faultsOfAccess } from "../checker/access-check";
import { searchByShuffling } from "../checker/access-shuffle";
import { barelyScene } from "../scenes/barely-scenes";
import { demoWayScene } from "../scenes/demo-scenes";
import { mirroredScene, randomWayScene, type WayScene } from "../scenes/way-scenes";
import { wildWayScene } from "../scenes/wild-way-scenes";

/**
 * Run by hand: `node scripts/run.mjs tests/long/access.ts --scenes 2000`. Random ways in of every sort against the checker, against their
 * mirror image and, where there is said to be none, against a search that shuffles; prints the seed of every contradiction and what it is; exits 1 on any.
 *   --from N   first seed (0)        --of plain   the narrow back-ins of the laws instead of wild ones
 *   --stop N   stop after so many contradictions (50)      --of barely  such as barely have a way, or barely none
 *                                                          --of demo    the pairs of the demo park: 1944 of them
 */
const { values } = parseArgs({ options: { scenes: { type: "string", default: "2000" }, from: { type: "string", default: "0" }, stop: { type: "string", default: "50" }, of: { type: "string", default: "wild" } } });
const kinds: Readonly<Record<string, (seed: number) => WayScene | null>> = { wild: wildWayScene, plain: randomWayScene, barely: barelyScene, demo: demoWayScene };
const first = Number(values.from), count = Number(values.scenes), stop = Number(values.stop), sceneOf = kinds[values.of];
if (!sceneOf) throw new Error(`--of takes ${Object.keys(kinds).join(", ")}`);
if (![first, count, stop].every((n) => Number.isInteger(n) && n >= 0)) throw new Error("--scenes, --from and --stop take whole numbers");

/** Room beyond what another reading of it may be wrong by, mm; and places gone on from. */
const READING = 30, MOST_PLACES = 4000;
const { comfort } = defaultPolicy, states: Record<string, number> = {}, contradicted: number[] = [];
let slowest = { ms: 0, seed: first }, spent = 0;
for (let seed = first; seed < first + count && contradicted.length < stop; seed++) {
  const faults = faultsOf(seed);
  if (faults.length > 0) contradicted.push(seed);
  for (const fault of faults) console.log(`seed ${seed}: ${fault}`);
  if ((seed - first + 1) % 250 === 0) report(seed - first + 1);
}
report(count);
console.log(contradicted.length > 0 ? `CONTRADICTED: ${contradicted.join(", ")}` : `CLEAN: seeds ${first} to ${first + count - 1}`);
process.exit(contradicted.length > 0 ? 1 : 0);

function faultsOf(seed: number): string[] {
  try {
    const scene = sceneOf!(seed);
    if (!scene?.site.approach) return [];
    const before = performance.now(), access = answered(scene), ms = performance.now() - before;
    spent += ms;
    if (ms > slowest.ms) slowest = { ms, seed };
    states[access.state] = (states[access.state] ?? 0) + 1;
    const mirrored = answered(mirroredScene(scene)), faults = faultsOfAccess(scene, access, defaultPolicy);
    if (mirrored.state !== access.state) faults.push(`${access.state}, ${mirrored.state} in the mirror`);
    else if (Math.abs(Math.min(comfort, mirrored.way?.room ?? 0) - Math.min(comfort, access.way?.room ?? 0)) > 2) faults.push(`${access.way!.room} mm of room, ${mirrored.way!.room} in the mirror`);
    if (access.state === "no" && scene.poses.some((pose) => searchByShuffling(scene.site, scene.rig, pose, defaultPolicy, READING, MOST_PLACES).reached)) faults.push(`no, ${access.barred!.code}, and a way by shuffling`);
    return faults;
  } catch (error) {
    return [`threw ${error instanceof Error ? (error.stack ?? error.message).split("\n").slice(0, 4).join(" | ") : String(error)}`];
  }
}

function answered({ site, rig, poses }: WayScene) {
  return findAccess(site, rig, poses, defaultPolicy)!;
}

function report(done: number): void {
  console.log(`${done} scenes (${Object.entries(states).map(([s, n]) => `${s} ${n}`).join(", ")}), ${contradicted.length} contradict, ${(spent / done).toFixed(0)} ms each, slowest ${slowest.ms.toFixed(0)} ms, seed ${slowest.seed}`);
}
