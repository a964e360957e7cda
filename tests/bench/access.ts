import { findAccess, placeSpotters, trainOf, wayGroundOf, type Access, type ParkedPose } from "@/lib/access";
import { fitSite, rankSites, type Policy } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { searchObviously } from "./access-baseline";
import { costOf, digits, spreadOf, told } from "./measure";

interface Asked {
  readonly site: Site;
  readonly rig: Rig;
  readonly pose: ParkedPose;
  readonly access: Access;
}

/** Ways in as the demo park's own survey has them, one by one and for a whole park. `every`: of all pairs, each so many-th. */
export function reportAccess(sites: readonly Site[], rigs: readonly Rig[], policy: Policy, every: number, aim: (what: string, met: boolean, measured: string) => void): void {
  const surveyed = sites.filter(({ approach }) => approach);
  const pairs = rigs.flatMap((rig) => surveyed.map((site) => ({ rig, site }))).filter((_, i) => i % every === 0);
  const asked = pairs.flatMap(({ rig, site }): Asked[] => {
    const { pose } = fitSite(site, rig, policy);
    const access = pose && findAccess(site, rig, [pose], policy);
    return pose && access ? [{ rig, site, pose, access }] : [];
  });
  const costs = asked.map(({ site, rig, pose, access: { state } }) => ({ state, cpu: costOf(() => void findAccess({ ...site }, rig, [pose], policy)).cpu }));
  console.log(`\nWays in: ${asked.length} pairs that fit, of ${rigs.length} rigs on ${surveyed.length} surveyed sites`);
  for (const state of ["found", "not-found", "no"] as const) {
    const of = costs.filter((cost) => cost.state === state).map(({ cpu }) => cpu);
    if (of.length > 0) console.log(`  ${state.padEnd(10)} ${String(of.length).padStart(4)}: ${told(spreadOf(of))} ms of CPU each`);
  }
  const { median } = spreadOf(costs.map(({ cpu }) => cpu)), mean = costs.reduce((sum, { cpu }) => sum + cpu, 0) / costs.length;
  aim("a way in, found or not, in under 30 ms of CPU, the median", median < 30, `${digits(median)} ms; ${digits(1000 / mean)} a second over all of them`);
  const posts = asked.flatMap(({ site, rig, access: { way } }) => (way ? [costOf(() => void placeSpotters(wayGroundOf(site)!, trainOf(rig), way, policy)).cpu] : []));
  if (posts.length > 0) console.log(`  posts      ${told(spreadOf(posts))} ms of CPU a way`);
  reportRival(asked, policy);
  reportParks(sites, rigs, policy);
}

/** The whole park for one rig, for every rig: what its ranking takes without the ways in and, on records not seen before, with them, other poses tried where none leads to the first. */
function reportParks(sites: readonly Site[], rigs: readonly Rig[], policy: Policy): void {
  const each = rigs.map((rig) => {
    const [bare, whole] = [false, true].map((access) => costOf(() => void rankSites(sites.map((site) => ({ ...site })), rig, policy, { access })).cpu);
    return { rig: rig.id, bare: bare!, whole: whole! };
  }).sort((a, b) => a.whole - b.whole);
  const dearest = each.at(-1)!;
  console.log(`  the whole park of ${sites.length} sites for one rig, ways in included: ${told(spreadOf(each.map(({ whole }) => whole)))} ms of CPU over ${rigs.length} rigs, the dearest ${dearest.rig}; without them ${told(spreadOf(each.map(({ bare }) => bare)))}`);
}

/** Every so many-th way is looked for by the obvious search too: it takes its time. */
const RIVAL = 5;

/** Beside the obvious search, by turns in the same run: how many times as dear that is, and where it finds what the engine does not. */
function reportRival(asked: readonly Asked[], policy: Policy): void {
  const ratios: number[] = [], missed: string[] = [];
  let more = 0, less = 0;
  for (const { site, rig, pose, access } of asked.filter(({ site, pose }) => site.entry === "back-in" && pose.heading === "tail-in").filter((_, i) => i % RIVAL === 0)) {
    let room: number | null = null;
    const engine = costOf(() => void findAccess({ ...site }, rig, [pose], policy)).cpu, rival = costOf(() => { room = searchObviously({ ...site }, rig, pose, policy); }).cpu;
    ratios.push(rival / Math.max(engine, 0.1));
    const theirs = room ?? -Infinity, ours = access.way ? Math.min(policy.comfort, access.way.room) : -Infinity;
    if (access.way === null && theirs > OPEN) missed.push(`${rig.id} on ${site.id} by ${digits(theirs)} mm`);
    if (access.way !== null && ours > theirs + OPEN) more++;
    if (access.way !== null && theirs > ours + OPEN) less++;
  }
  if (ratios.length === 0) return;
  console.log(`  beside the obvious search (${ratios.length} of them): it takes ${told(spreadOf(ratios))} times as long; the engine has more room in ${more}, less in ${less}${missed.length > 0 ? `; MISSED by the engine: ${missed.join(", ")}` : ", and misses none"}`);
}

/** Room that differs by less is the same to a driver, mm. */
const OPEN = 50;
