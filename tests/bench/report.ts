import { fitSite } from "@/lib/fit";
import type { Rig } from "@/lib/rig";
import { againstBalls, againstSweep } from "./agreement";
import { answerByBalls } from "./ball-baseline";
import { countsOf, type Counts } from "./counts";
import { digits, ratios, spreadOf, told, type Cost, type Spread } from "./measure";
import { answerBySearchAlone } from "./setting";
import { mixOf, VERDICTS, type Question } from "./subjects";
import type { Swept } from "./sweep-baseline";

/** What the engine is held to. */
const AIM = { sites: 400, ms: 300, sweep: 1000, balls: 5 };

export interface Measured {
  readonly costs: ReadonlyMap<string, readonly Cost[]>;
  readonly rigs: readonly Rig[];
  /** One pose, all constraints and needs, ms of CPU. */
  readonly floorMs: number;
}

/** `sites` is how many a rig is asked for in a round. */
export function reportRanking({ costs, rigs }: Measured, title: string, name: string, sites: number): void {
  const each = rigs.map((rig) => costs.get(`${name} ${rig.id}`)!);
  const together = sum(each);
  const rate = (of: keyof Cost) => told(spreadOf(together.map((c) => (1000 * sites * rigs.length) / c[of])));
  const perRig = (of: keyof Cost) => each.map((c) => (spreadOf(c.map((cost) => cost[of])).median * AIM.sites) / sites);
  const cpu = perRig("cpu"), middle = spreadOf(cpu).median, dearest = rigs[cpu.indexOf(Math.max(...cpu))]!;
  console.log(`\n${title}`);
  row("sites per second", `${rate("cpu")} by CPU`, `${rate("wall")} on the wall`);
  row(`ms for ${AIM.sites} sites, over the rigs`, `${told(spreadOf(cpu))} of CPU`, `${told(spreadOf(perRig("wall")))} on the wall`, `dearest: ${dearest.id}`);
  aim(`${AIM.sites} sites in under ${AIM.ms} ms of CPU, the middle rig`, middle < AIM.ms, `${digits(middle)} ms; ${cpu.filter((ms) => ms < AIM.ms).length} of ${rigs.length} rigs`);
}

export function reportVerdicts({ costs, floorMs }: Measured, all: readonly Question[]): void {
  console.log("\nDemo park by verdict, per site");
  for (const verdict of VERDICTS) {
    const some = all.filter(({ result }) => result.verdict === verdict);
    const ms = spreadOf(costs.get(verdict)!.map(({ cpu }) => cpu / some.length));
    row(`${verdict} (${some.length.toLocaleString("en-US")})`, ...perSite(ms, floorMs), ...counted(() => answerAll(some), some.length).words);
  }
}

export function reportBalls({ costs, floorMs }: Measured, often: readonly Question[]): void {
  console.log(`\nBeside the obvious branch and bound: ${often.length} questions of the demo park (${mixOf(often)})`);
  const n = often.length, cost = (name: string) => costs.get(name)!, spread = (name: string) => spreadOf(cost(name).map(({ cpu }) => cpu / n));
  const engine = counted(() => often.forEach(({ site, form, policy }) => answerBySearchAlone(site, form, policy)), n);
  const balls = counted(() => often.forEach(({ site, form, policy }) => answerByBalls(site, form, policy)), n);
  row("one pose, all constraints and needs", `${digits(1e6 * floorMs)} ns of CPU`);
  row("set-up of either, no search", ...perSite(spread("setup"), floorMs));
  row("the engine, all of its answer", ...perSite(spread("engine"), floorMs));
  row("the engine, the same questions", ...perSite(spread("searches"), floorMs), ...engine.words);
  row("one ball per cell", ...perSite(spread("balls"), floorMs), ...balls.words);
  const times = spreadOf(ratios(cost("balls"), cost("searches"))), bare = (name: string) => without(cost(name), cost("setup"));
  row("so the engine is faster", `${told(times)} times`, `${told(spreadOf(ratios(bare("balls"), bare("searches"))))} times without the set-up of both`);
  row("and looks at fewer", `${digits(balls.cells / engine.cells)} times fewer cells`, `${digits(balls.evaluations / engine.evaluations)} times fewer constraint evaluations`);
  aim(`${AIM.balls} times the obvious search`, times.median >= AIM.balls, `${digits(times.median)} times`);
  tell("answers differ by more than the gaps", often.flatMap((q) => againstBalls(q, answerByBalls(q.site, q.form, q.policy))));
}

export function reportSweep({ costs, floorMs }: Measured, sample: readonly Question[], answers: readonly Swept[]): void {
  const n = sample.length;
  console.log(`\nBeside a 10 mm sweep with planck: ${n} sites of the demo park with one rig each (${mixOf(sample)})`);
  const each = (name: string) => sample.map((_, i) => costs.get(`${name} ${i}`)!);
  const sweeps = sum(each("sweep")), engine = sum(each("engine"));
  const spread = (some: readonly Cost[]) => spreadOf(some.map(({ cpu }) => cpu / n));
  row("the engine, all of its answer", ...perSite(spread(engine), floorMs));
  row("the sweep, must parts and no runs", ...perSite(spread(sweeps), floorMs), `${digits(answers.reduce((total, a) => total + a.poses, 0) / n)} poses`);
  const times = spreadOf(ratios(sweeps, engine));
  const bySite = spreadOf(sample.map((_, i) => spreadOf(ratios(costs.get(`sweep ${i}`)!, costs.get(`engine ${i}`)!)).median));
  row("so the engine is faster", `${told(times)} times over all`, `site by site ${told(bySite)} times`);
  aim(`${AIM.sweep.toLocaleString("en-US")} times the sweep`, times.median >= AIM.sweep, `${digits(times.median)} times`);
  const agreements = sample.map((q, i) => againstSweep(q, answers[i]!));
  tell("contradictions between the two", agreements.flatMap(({ contradictions }) => contradictions));
  tell("places that the grid is too coarse for", agreements.flatMap(({ missed }) => missed));
}

function answerAll(questions: readonly Question[]): void {
  for (const { site, rig, policy } of questions) fitSite(site, rig, policy);
}

/** The contestants' costs together, round by round. */
function sum(some: readonly (readonly Cost[])[]): Cost[] {
  return some[0]!.map((_, round) => some.reduce((total, c) => ({ cpu: total.cpu + c[round]!.cpu, wall: total.wall + c[round]!.wall }), { cpu: 0, wall: 0 }));
}

function without(costs: readonly Cost[], less: readonly Cost[]): Cost[] {
  return costs.map(({ cpu, wall }, round) => ({ cpu: cpu - less[round]!.cpu, wall: wall - less[round]!.wall }));
}

function counted(work: () => void, sites: number): Counts & { words: string[] } {
  const { cells, evaluations } = countsOf(work);
  return { cells, evaluations, words: [`${digits(cells / sites)} cells`, `${digits(evaluations / sites)} constraint evaluations`] };
}

function perSite(ms: Spread, floorMs: number): string[] {
  return [`${told(ms)} ms of CPU a site`, `${digits(ms.median / floorMs)} poses' worth`];
}

function row(label: string, ...cells: string[]): void {
  console.log(`  ${label.padEnd(36)} ${cells.join("   ")}`);
}

export function aim(what: string, met: boolean, measured: string): void {
  console.log(`  ${met ? "AIM MET   " : "AIM MISSED"} ${what}: ${measured}`);
}

function tell(what: string, lines: readonly string[]): void {
  console.log(`  ${lines.length} ${what}`);
  for (const line of lines) console.log(`      ${line}`);
}
