import { fitSite, verdictOf } from "@/lib/fit";
import { countsOf } from "./counts";
import { digits, spreadOf } from "./measure";
import { answerBySearchAlone, shared } from "./setting";
import { posesDecide, VERDICTS, type Question } from "./subjects";

/** Each is asked so often, and its least time is taken: what the machine did meanwhile falls out. */
const TRIES = 5;
/** What a single answer is held to, ms. */
const AIM = { proven: 0.5, conflict: 5 };

/** Times in ms on the wall, question by question: median, nine in ten, the longest. */
export function reportOneByOne(questions: readonly Question[], floorMs: number, aim: (what: string, met: boolean, measured: string) => void): void {
  console.log(`\nOne by one, on the wall: ${questions.length.toLocaleString("en-US")} questions, the least of ${TRIES} tries each`);
  let proven = Infinity;
  for (const verdict of VERDICTS) {
    const some = questions.filter((q) => q.result.verdict === verdict && (verdict !== "no" || posesDecide(q))); // a pad too short needs no search
    const ask = ({ site, rig, policy }: Question) => void verdictOf({ ...site }, rig, policy, shared);
    const times = some.map((q) => least(() => ask(q)));
    if (verdict === "no") proven = spreadOf(times).median;
    const { cells, evaluations } = countsOf(() => some.forEach(ask));
    tell(`the verdict ${verdict}${verdict === "no" ? ", where poses decide" : ""} (${some.length})`, times, floorMs, `${digits(cells / some.length)} cells`, `${digits(evaluations / some.length)} constraint evaluations`);
    tell("  with all of the answer", some.map((q) => least(() => void fitSite({ ...q.site }, q.rig, q.policy))), floorMs);
  }
  aim(`a proven no in under ${AIM.proven} ms, the median`, proven < AIM.proven, `${digits(proven)} ms`);
  const refused = questions.filter((q) => q.result.verdict === "no" && q.result.conflicts.some(({ heading, constraints }) => heading !== null || constraints.length > 1));
  const conflicts = refused.map((q) => Math.max(0, least(() => void fitSite({ ...q.site }, q.rig, q.policy)) - least(() => void answerBySearchAlone({ ...q.site }, q.form, q.policy))));
  tell(`the conflict of a no (${refused.length})`, conflicts, floorMs, "the answer less its searches");
  aim(`a conflict in under ${AIM.conflict} ms, the median`, spreadOf(conflicts).median < AIM.conflict, `${digits(spreadOf(conflicts).median)} ms`);
}

/** What would turn a refusal: for every so many-th of them. */
export function reportRemedies(questions: readonly Question[], every: number, floorMs: number): void {
  const refused = questions.filter((q) => q.result.verdict === "no" && q.result.conflicts.length > 0).filter((_, i) => i % every === 0);
  const found: number[] = [];
  const times = refused.map((q) => {
    const before = performance.now();
    found.push(fitSite({ ...q.site }, q.rig, q.policy, { remedies: true }).remedies.length);
    return performance.now() - before;
  });
  tell(`a no with its remedies (${refused.length})`, times, floorMs, `${found.filter((n) => n > 0).length} have some`);
}

function least(work: () => void): number {
  let least = Infinity;
  for (let i = 0; i < TRIES; i++) {
    const before = performance.now();
    work();
    least = Math.min(least, performance.now() - before);
  }
  return least;
}

function tell(what: string, times: readonly number[], floorMs: number, ...more: string[]): void {
  const sorted = [...times].sort((a, b) => a - b), at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN;
  const cells = [`${digits(at(0.5))} ms`, `nine in ten within ${digits(at(0.9))}`, `all within ${digits(at(1))}`, `${digits(at(0.5) / floorMs)} poses' worth`, ...more];
  console.log(`  ${what.padEnd(44)} ${cells.join("   ")}`);
}
