import { cpus, loadavg } from "node:os";
import { parseArgs } from "node:util";
import { fitSite, rankSites } from "@/lib/fit";
import { Approach } from "@/lib/fit/approach";
import type { RigForm } from "@/lib/fit/form";
import { runAt, type Demands } from "@/lib/fit/landscapes";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { demoScenes } from "../scenes/demo-scenes";
import { reportAccess } from "./access";
import { answerByBalls } from "./ball-baseline";
import { generatedPark } from "./generated-park";
import { costOf, digits, race, spreadOf, type Contestant, type Cost } from "./measure";
import { reportGrowth, reportMatrix } from "./growth";
import { reportOneByOne, reportRemedies } from "./one-by-one";
import { aim, reportBalls, reportRanking, reportSweep, reportVerdicts } from "./report";
import { answerBySearchAlone, settingOf, shared } from "./setting";
import { everySoOften, mixOf, sampleForSweep, VERDICTS, type Question } from "./subjects";
import { sweep, type Swept } from "./sweep-baseline";
import { reportTurning } from "./turning";

/**
 * `npm run bench`: see README.md here. `fits`, `stays`, `backup` or `import` for that part alone, `--quick` for fewer rounds and questions,
 * `--seed N` for another generated park and another sample, `--no-page` for stays without the built application and a
 * browser. Prints what it finds; never fails for being slow.
 */
const PARTS = ["fits", "stays", "backup", "import"];
const { values, positionals } = parseArgs({ allowPositionals: true, allowNegative: true, options: { page: { type: "boolean", default: true }, quick: { type: "boolean", default: false }, seed: { type: "string", default: "1" } } });
const quick = values.quick, seed = Number(values.seed);
if (!Number.isInteger(seed)) throw new Error(`--seed takes a whole number, got ${values.seed}`);
const strange = positionals.find((part) => !PARTS.includes(part));
if (strange !== undefined) throw new Error(`there is no part ${strange}: ${PARTS.join(" or ")}`);
const asked = (part: string) => positionals.length === 0 || positionals.includes(part);

const ROUNDS = quick ? 3 : 7;
/** The sweep takes most of the time. */
const SWEEP_ROUNDS = quick ? 1 : 3;
/** The obvious search is tried on every so many-th site for each rig. */
const EVERY = quick ? 24 : 6;
/** Of the generated park, each rig is asked for such a share in each round, another one each time. */
const SHARES = quick ? 12 : 7;
const FLOOR_POSES = 200;
/** Single answers are timed on every so many-th site for each rig, remedies for every so many-th refusal. */
const ONE_BY_ONE = quick ? 12 : 3;
const REMEDIED = quick ? 50 : 15;

const scenes = demoScenes();
const { policy } = scenes[0]!;
const demo = [...new Set(scenes.map(({ site }) => site))], rigs = [...new Set(scenes.map(({ rig }) => rig))];

console.log(`Node ${process.version}, ${cpus().length} cores, load ${loadNow()} at the start, seed ${seed}${quick ? ", quick" : ""}`);
if (asked("fits")) {
  const spent = costOf(main);
  await reportMatrix(demo, rigs, policy, aim);
  console.log(`\nAll but the matrix took ${digits(spent.wall / 1000)} s on the wall and ${digits(spent.cpu / 1000)} s of CPU; load ${loadNow()} at the end.`);
}
if (asked("backup")) {
  const { benchBackup } = await import("./backup");
  await benchBackup({ quick, seed });
}
if (asked("import")) {
  const { benchImport } = await import("./import");
  await benchImport({ quick });
}
if (asked("stays")) {
  const { benchStays } = await import("./stays");
  await benchStays({ quick, seed, page: values.page });
  console.log(`\nLoad ${loadNow()} at the end.`);
}

function main(): void {
  console.log(`CPU time is that of the whole process. Given are the median (least … most) of ${ROUNDS} rounds run by turns; of ${SWEEP_ROUNDS} for the sweep.\n`);
  const generated = generatedPark(1000, seed);
  const all = everySoOften(1, demo, rigs, policy), often = everySoOften(EVERY, demo, rigs, policy), sample = sampleForSweep(demo, rigs, policy, seed, quick);
  console.log(`Demo park: ${demo.length} sites, ${rigs.length} rigs; every rig on every site: ${mixOf(all)}`);
  console.log(`Generated park: 1,000 sites, the same rigs; every rig on every tenth site: ${mixOf(everySoOften(10, generated, rigs, policy))}`);
  warmUp(often);
  const swept: Swept[] = [];
  const costs = race(ROUNDS, [...rankings("demo", demo, 1), ...rankings("generated", generated, SHARES), ...byVerdict(all), ...rivals(often), ...sweeps(sample, swept)]);
  const park = { costs, rigs, floorMs: floorMs(costs, often) };
  reportRanking(park, "Demo park", "demo", demo.length);
  reportRanking(park, "Generated park", "generated", generated.length / SHARES);
  reportVerdicts(park, all);
  reportBalls(park, often);
  reportSweep(park, sample, swept);
  reportOneByOne(everySoOften(ONE_BY_ONE, demo, rigs, policy), park.floorMs, aim);
  reportRemedies(all, REMEDIED, park.floorMs);
  reportGrowth(demo, rigs, policy, seed, quick ? 1 : 3, park.floorMs, aim);
  reportTurning(ROUNDS);
  reportAccess(demo, rigs, policy, quick ? 12 : 4, aim);
}

function rank(sites: readonly Site[], rig: Rig): void {
  // New records each time, as those of a request are: nothing is remembered of their ground.
  rankSites(sites.map((site) => ({ ...site })), rig, policy);
}

/** Until the compiler has seen everything a few times. */
function warmUp(questions: readonly Question[]): void {
  for (let i = 0; i < 3; i++) for (const rig of rigs) rank(demo, rig);
  for (const { site, form } of questions.slice(0, 80)) answerByBalls(site, form, policy);
}

/** One contestant for each rig: all of a park, or one of its equal shares each round. */
function rankings(name: string, sites: readonly Site[], shares: number): Contestant[] {
  return rigs.map((rig) => {
    const share = Array.from({ length: shares }, (_, k) => sites.filter((_site, i) => i % shares === k));
    let round = 0;
    return { name: `${name} ${rig.id}`, run: () => rank(share[round++ % shares]!, rig) };
  });
}

/** The demo park's questions of each verdict. */
function byVerdict(all: readonly Question[]): Contestant[] {
  return VERDICTS.map((verdict) => {
    const groups = rigs.map((rig) => ({ rig, sites: all.filter((q) => q.rig === rig && q.result.verdict === verdict).map(({ site }) => site) }));
    return { name: verdict, run: () => groups.forEach(({ rig, sites }) => rank(sites, rig)) };
  });
}

function rivals(often: readonly Question[]): Contestant[] {
  return [
    { name: "engine", run: () => often.forEach(({ site, rig }) => fitSite({ ...site }, rig, policy)) },
    { name: "searches", run: () => often.forEach(({ site, form }) => answerBySearchAlone({ ...site }, form, policy)) },
    { name: "balls", run: () => often.forEach(({ site, form }) => answerByBalls({ ...site }, form, policy)) },
    { name: "setup", run: () => often.forEach(setUp) },
    { name: "floor", run: floorOf(often), repeat: 5 },
  ];
}

/** The sweep and the engine on each site of the sample; what the sweep finds is kept in `swept`. */
function sweeps(sample: readonly Question[], swept: Swept[]): Contestant[] {
  return sample.flatMap((q, i): Contestant[] => [
    { name: `engine ${i}`, run: () => void fitSite({ ...q.site }, q.rig, policy), repeat: 20, rounds: SWEEP_ROUNDS },
    { name: `sweep ${i}`, run: () => { swept[i] = sweep(q.setting, q.headings); }, rounds: SWEEP_ROUNDS },
  ]);
}

/** What comes before any search, in the engine and in the obvious search alike: constraints and needs made from records. */
function setUp({ site, form, headings }: Question): void {
  const setting = settingOf({ ...site }, form, policy);
  for (const heading of headings) {
    const approach = new Approach(setting, heading, shared, 1);
    approach.envelope(new Set());
    approach.envelope(nicePartsOf(form));
  }
}

/** All constraints and needs, with every part out, at single poses: what no search can do without. */
function floorOf(questions: readonly Question[]): () => number {
  const ready = questions.map(({ setting, form, headings }) => {
    const approach = new Approach(setting, headings[0]!, shared, 1), { minX, maxX, minY, maxY } = approach.domain;
    const demands: Demands = { needs: approach.needs, by: "gear", inLine: [], touch: 0 };
    return { envelope: approach.envelope(nicePartsOf(form)), demands, x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
  });
  return () => {
    let sum = 0; // given back, so that nothing is found to be needless
    for (const { envelope, demands, x, y } of ready) {
      for (let i = 0; i < FLOOR_POSES; i++) sum += envelope.valueAt(x + i, y) + Math.min(1, runAt(x + i, y, demands, 0));
    }
    return sum;
  };
}

function floorMs(costs: ReadonlyMap<string, readonly Cost[]>, questions: readonly Question[]): number {
  return spreadOf(costs.get("floor")!.map(({ cpu }) => cpu / (questions.length * FLOOR_POSES))).median;
}

function nicePartsOf({ boxes }: RigForm): Set<string> {
  return new Set(boxes.filter(({ need }) => need === "nice").map(({ id }) => id));
}

function loadNow(): string {
  return loadavg()[0]!.toFixed(1);
}
