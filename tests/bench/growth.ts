import { rankSites, type Policy } from "@/lib/fit";
import { fitMatrix } from "@/lib/jobs/fit-matrix";
import { closePool } from "@/lib/jobs/threads";
import type { Obstacle, Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { between, randomFrom } from "../scenes/random";
import { generatedPark } from "./generated-park";
import { costOf, digits, spreadOf } from "./measure";

type Aim = (what: string, met: boolean, measured: string) => void;

/** Growth up to this power of the number of sites counts as near-linear. */
const NEAR_LINEAR = 1.1;
const OBSTACLES = [10, 20, 50, 100, 200] as const;
const SITES = [100, 300, 1000, 3000, 10_000] as const;
/** What every rig on every site is held to, on two cores. */
const MATRIX = { sites: 70, rigs: 24, ms: 1500 } as const;

/** What an answer costs as things are added to a site, and what a ranking costs as sites are added to a park. */
export function reportGrowth(demo: readonly Site[], rigs: readonly Rig[], policy: Policy, seed: number, rounds: number, floorMs: number, aim: Aim): void {
  console.log("\nAs sites and parks grow, CPU time");
  const some = demo.filter((_, i) => i % 6 === 0), few = rigs.filter((_, i) => i % 5 === 0);
  const perAnswer = OBSTACLES.map((count) => {
    const crowded = some.map((site, i) => withObstacles(site, count, seed + i));
    const ask = () => few.forEach((rig) => void rankSites(crowded.map((site) => ({ ...site })), rig, policy));
    ask(); // until the compiler has seen so many
    return middle(rounds, ask) / (some.length * few.length);
  });
  tell("obstacles on a site", OBSTACLES, perAnswer, (ms) => `${digits(ms)} ms an answer, ${digits(ms / floorMs)} poses' worth`);
  const park = generatedPark(SITES.at(-1)!, seed), rig = rigs[Math.floor(rigs.length / 2)]!;
  rankSites(park.slice(0, SITES[2]), rig, policy);
  const perRanking = SITES.map((count) => middle(count > 1000 ? 1 : rounds, () => void rankSites(park.slice(0, count).map((site) => ({ ...site })), rig, policy)));
  const slope = tell("sites in a park", SITES, perRanking, (ms) => `${digits(ms)} ms, ${digits(ms / floorMs)} poses' worth`);
  aim("near-linear in sites", slope < NEAR_LINEAR, `to the power ${digits(slope)}`);
}

/** Every rig on every site by the threads, as the page of rigs and sites asks it: threads that have just started, then the same on records never seen. */
export async function reportMatrix(demo: readonly Site[], rigs: readonly Rig[], policy: Policy, aim: Aim): Promise<void> {
  const sites = demo.slice(0, MATRIX.sites), some = rigs.slice(0, MATRIX.rigs);
  console.log(`\nEvery rig on every site: ${sites.length} sites, ${some.length} rigs, on the worker threads, on the wall`);
  try {
    await fitMatrix(renamed(sites.slice(0, 1), "start"), some.slice(0, 1), policy);
    const [cold, warm] = [await timed(sites, some, policy, "cold"), await timed(sites, some, policy, "warm")];
    console.log(`  ${digits(cold)} ms by threads of which one has answered once (their start compiles TypeScript, which the built application has behind it), ${digits(warm)} ms by the same on records not seen before`);
    aim(`${MATRIX.sites} x ${MATRIX.rigs} in under ${MATRIX.ms} ms on two cores, cold`, cold < MATRIX.ms, `${digits(cold)} ms`);
  } finally {
    await closePool();
  }
}

async function timed(sites: readonly Site[], rigs: readonly Rig[], policy: Policy, name: string): Promise<number> {
  const anew = renamed(sites, name), before = performance.now();
  await fitMatrix(anew, rigs, policy);
  return performance.now() - before;
}

/** The same sites under other names, so that no answer is known. */
function renamed(sites: readonly Site[], name: string): Site[] {
  return sites.map((site) => ({ ...site, label: `${site.label} ${name}` }));
}

/** Rocks, posts, trees and tables strewn beside and behind the pad, as many as asked for in place of what was there. */
function withObstacles(site: Site, count: number, seed: number): Site {
  const r = randomFrom(seed), xs = site.pad.outline.map(([x]) => x), ys = site.pad.outline.map(([, y]) => y);
  const far = Math.max(...xs) + 4000, half = Math.max(...ys.map(Math.abs));
  const none = { at: undefined, radius: undefined, outline: undefined, from: undefined, to: undefined, trunkRadius: undefined, crownRadius: undefined, crownFrom: undefined, crownTo: undefined, removable: undefined };
  const obstacles = Array.from({ length: count }, (_, i): Obstacle => {
    const x = between(r, -2000, far), y = (i % 2 ? 1 : -1) * (half + between(r, 1600, 7000)), base = { ...none, id: `added-${i}` };
    if (i % 4 === 0) return { ...base, kind: "tree", at: [x, y], trunkRadius: between(r, 100, 350), crownRadius: between(r, 1200, 3000), crownFrom: between(r, 4000, 5200), crownTo: 9000 };
    if (i % 4 === 1) return { ...base, kind: "table", outline: [[x, y], [x + 1500, y + 300], [x + 1300, y + 1200], [x - 100, y + 900]], from: 0, to: 760 };
    return { ...base, kind: i % 4 === 2 ? "rock" : "post", at: [x, y], radius: between(r, 60, 400), from: 0, to: between(r, 200, 1500) };
  });
  return { ...site, obstacles };
}

function middle(rounds: number, work: () => void): number {
  return spreadOf(Array.from({ length: rounds }, () => costOf(work).cpu)).median;
}

/** Prints the costs and the power of the count that they grow by: the slope of the straight line through their logarithms. */
function tell(what: string, counts: readonly number[], costs: readonly number[], each: (ms: number) => string): number {
  counts.forEach((count, i) => console.log(`  ${`${count.toLocaleString("en-US")} ${what}`.padEnd(36)} ${each(costs[i]!)}`));
  const xs = counts.map(Math.log), ys = costs.map(Math.log), mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
  const mx = mean(xs), my = mean(ys);
  const slope = xs.reduce((sum, x, i) => sum + (x - mx) * (ys[i]! - my), 0) / xs.reduce((sum, x) => sum + (x - mx) ** 2, 0);
  console.log(`  so the cost grows as the number of ${what} to the power ${digits(slope)}`);
  return slope;
}
