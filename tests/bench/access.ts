import { findAccess, placeSpotters, trainOf, wayGroundOf, type Access, type ParkedPose } from "@/lib/access";
import { fitSite, type Policy } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { searchObviously } from "./access-baseline";
import { costOf, digits, spreadOf, told } from "./measure";

/** Common for lanes through a campground, mm: how wide, how far surveyed to either side, and what the mouth adds to either side of the pad. */
const LANE = { width: 5500, surveyed: 25_000, mouth: 1500 } as const;

/** The demo park's sites as if their way in had been measured, where it has not been: a straight lane along the road's edge and a flared mouth. */
export function withWayIn(site: Site): Site {
  if (site.approach) return site; // measured as it is
  const [a, b] = site.roadEdge ?? [[0, -3000], [0, 3000]], long = Math.hypot(b[0] - a[0], b[1] - a[1]), dx = (b[0] - a[0]) / long, dy = (b[1] - a[1]) / long;
  const out = dy > 0 ? [-dy, dx] as const : [dy, -dx] as const, middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const;
  const along = (by: number, off: number): [number, number] => [middle[0] + dx * by + out[0] * off, middle[1] + dy * by + out[1] * off];
  const half = Math.max(...site.pad.outline.filter(([x]) => x < 4000).map(([, y]) => Math.abs(y)));
  const driveable = [along(-half - LANE.mouth, 0), along(half + LANE.mouth, 0), [3500, half] as [number, number], [3500, -half] as [number, number]];
  return { ...site, approach: { road: { centreline: [along(-LANE.surveyed, LANE.width / 2), along(LANE.surveyed, LANE.width / 2)], width: LANE.width, traffic: "both" }, exitRoad: undefined, driveable: [dy > 0 ? driveable : [driveable[1]!, driveable[0]!, driveable[2]!, driveable[3]!]], heightLimits: [], gradeBreaks: [] } };
}

interface Asked {
  readonly site: Site;
  readonly rig: Rig;
  readonly pose: ParkedPose;
  readonly access: Access;
}

/** Ways in, one by one and for a whole park, on sites whose rigs have a pose. `every`: of all pairs, each so many-th. */
export function reportAccess(sites: readonly Site[], rigs: readonly Rig[], policy: Policy, every: number, aim: (what: string, met: boolean, measured: string) => void): void {
  const surveyed = sites.filter(({ entry }) => entry === "back-in").map(withWayIn);
  const pairs = rigs.flatMap((rig) => surveyed.map((site) => ({ rig, site }))).filter((_, i) => i % every === 0);
  const asked = pairs.flatMap(({ rig, site }): Asked[] => {
    const { pose } = fitSite(site, rig, policy);
    const access = pose && findAccess(site, rig, [pose], policy);
    return pose && access ? [{ rig, site, pose, access }] : [];
  });
  const count = (state: Access["state"]) => asked.filter(({ access }) => access.state === state).length;
  console.log(`\nWays in: ${asked.length} pairs that fit, lanes of ${digits(LANE.width / 1000)} m: ${count("found")} found, ${count("not-found")} not found, ${count("no")} proven to be none`);
  for (const state of ["found", "not-found", "no"] as const) {
    const costs = asked.filter(({ access }) => access.state === state).map(({ site, rig, pose }) => costOf(() => void findAccess({ ...site }, rig, [pose], policy)).cpu);
    if (costs.length > 0) console.log(`  ${state.padEnd(10)} ${told(spreadOf(costs))} ms of CPU each`);
    if (state === "found" && costs.length > 0) aim("a way in in under 30 ms of CPU, the median", spreadOf(costs).median < 30, `${digits(spreadOf(costs).median)} ms, ${digits(1000 / spreadOf(costs).median)} a second`);
  }
  const posts = asked.flatMap(({ site, rig, access: { way } }) => (way ? [costOf(() => void placeSpotters(wayGroundOf(site)!, trainOf(rig), way, policy)).cpu] : []));
  if (posts.length > 0) console.log(`  posts      ${told(spreadOf(posts))} ms of CPU a way`);
  reportRival(asked, policy);
  const rig = rigs.map((one) => ({ one, n: asked.filter((a) => a.rig === one).length })).sort((a, b) => b.n - a.n)[0]!.one;
  const all = surveyed.flatMap((site) => { const { pose } = fitSite(site, rig, policy); return pose ? [{ site, pose }] : []; });
  const whole = costOf(() => all.forEach(({ site, pose }) => findAccess({ ...site }, rig, [pose], policy)));
  console.log(`  the whole park for one rig (${rig.id}, ${all.length} sites it fits): ${digits(whole.cpu)} ms of CPU, ${digits((1000 * all.length) / whole.cpu)} a second`);
}

/** Every so many-th way is looked for by the obvious search too: it takes its time. */
const RIVAL = 5;

/** Beside the obvious search, by turns in the same run: how many times as dear that is, and where it finds what the engine does not. */
function reportRival(asked: readonly Asked[], policy: Policy): void {
  const ratios: number[] = [], missed: string[] = [];
  let more = 0, less = 0;
  for (const { site, rig, pose, access } of asked.filter((_, i) => i % RIVAL === 0)) {
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
