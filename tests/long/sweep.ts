import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { fitSite } from "@/lib/fit";
import { checkResult } from "../checker/check-result";
import { disagreements } from "../checker/disagree";
import { demoScenes } from "../scenes/demo-scenes";
import { scene, type Scene } from "../scenes/random-scene";
import { minimise } from "../scenes/thinner";

/**
 * Run by hand: `node scripts/run.mjs tests/long/sweep.ts --scenes 10000`. Random scenes against the checker and a
 * sweep over sampled poses; 10,000 take some twenty minutes. Prints how far it is, the seed of every contradiction and what it is; exits 1 on any.
 *   --from N    first seed (1)             --step MM   grid of the sweep (100)
 *   --climb     climb from the best samples too        --save DIR  write each failing scene there, made small
 *   --stop N    stop after so many contradictions (50)      --demo      the demo park's rigs on its sites instead
 */
const { values } = parseArgs({
  options: {
    scenes: { type: "string", default: "10000" },
    from: { type: "string", default: "1" },
    step: { type: "string", default: "100" },
    stop: { type: "string", default: "50" },
    climb: { type: "boolean", default: false },
    demo: { type: "boolean", default: false },
    save: { type: "string" },
  },
});
const demo = values.demo ? demoScenes() : null;
const first = demo ? 0 : Number(values.from), count = demo ? demo.length : Number(values.scenes), step = Number(values.step), stop = Number(values.stop);
if (![first, count, step, stop].every((n) => Number.isFinite(n) && n >= 0)) throw new Error("--scenes, --from, --step and --stop take numbers");

const verdicts: Record<string, number> = {};
const contradicted: (string | number)[] = [];
let failed = 0;
let engineMs = 0;
let slowest = { ms: 0, seed: first };
const started = Date.now();
for (let seed = first; seed < first + count && failed < stop; seed++) {
  const subject = demo?.[seed] ?? scene(seed);
  const faults = faultsOf(subject, true);
  if (faults.length > 0) {
    failed++;
    contradicted.push(demo ? `${subject.rig.id} on ${subject.site.id}` : seed);
    console.log(demo ? `${subject.rig.id} on ${subject.site.id}:` : `seed ${seed}:`);
    for (const fault of faults) console.log(`  ${fault}`);
    if (values.save) save(subject, values.save);
  }
  if ((seed - first + 1) % 500 === 0) report(seed - first + 1);
}
report(count);
console.log(failed > 0 ? `CONTRADICTED: ${contradicted.join(", ")}` : `CLEAN: seeds ${first} to ${first + count - 1}`);
console.log(`Slowest answer: ${slowest.ms.toFixed(0)} ms, seed ${slowest.seed}; ${(engineMs / count).toFixed(2)} ms on the average`);
process.exit(failed > 0 ? 1 : 0);

function faultsOf({ seed, site, rig, policy }: Scene, counted: boolean): string[] {
  try {
    const before = performance.now();
    const result = fitSite(site, rig, policy);
    if (counted) {
      const ms = performance.now() - before;
      engineMs += ms;
      if (ms > slowest.ms) slowest = { ms, seed };
      verdicts[result.verdict] = (verdicts[result.verdict] ?? 0) + 1;
    }
    const faults = checkResult(site, rig, policy, result);
    if (result.verdict === "unsettled") faults.push("unsettled within the usual budget");
    return [...faults, ...disagreements(site, rig, policy, result, step, values.climb)];
  } catch (error) {
    return [`threw ${error instanceof Error ? (error.stack ?? error.message).split("\n").slice(0, 3).join(" | ") : String(error)}`];
  }
}

/** A scene is made small keeping the kind of its first fault: the text up to the first number. */
function save(failing: Scene, folder: string): void {
  mkdirSync(folder, { recursive: true });
  const kind = (text: string | undefined) => text?.replace(/[-\d.].*$/, "");
  const wanted = kind(faultsOf(failing, false)[0]);
  const small = minimise(failing, (s) => faultsOf(s, false).some((f) => kind(f) === wanted), 150);
  const result = fitSite(small.site, small.rig, small.policy);
  writeFileSync(join(folder, `${failing.seed}.json`), JSON.stringify({ faults: faultsOf(small, false), ...small, result }, null, 1));
}

function report(done: number): void {
  const tally = Object.entries(verdicts).map(([v, n]) => `${v} ${n}`).join(", ");
  console.log(`${done} scenes (${tally}), ${failed} contradict, engine ${(engineMs / 1000).toFixed(1)} s of ${((Date.now() - started) / 1000).toFixed(0)} s`);
}
