import type { Case } from "./refusal/changes";
import type { Ask, FitResult, Verdict } from "./types";
import { withNumbers, type Unknown } from "./unknowns";

/** All combinations of ends are looked at for up to so many unknown numbers; of more, each by itself and all at once. */
const COMBINED = 5;
/** Points between the ends at which a number is looked at by itself: a verdict may turn and turn back. */
const BETWEEN = 9;
/** The turning value is told to 1 mm, or to a thousandth of the range where that is finer (slopes). */
function grainOf({ min, max }: Unknown): number {
  return Math.min(1, (max - min) / 1000);
}

type Numbers = readonly (readonly [field: string, value: number])[];

/**
 * The answer where some numbers are not known. If every combination looked at gives the same verdict, that is the
 * answer, with the pose of the worst of them; else `ask`, with each measurement that decides and where it turns.
 */
export function answerUnsure(it: Case, unknowns: readonly Unknown[], answer: (it: Case) => FitResult): FitResult {
  const at = (numbers: Numbers): FitResult => {
    const of = (root: string) => numbers.filter(([field]) => field.startsWith(`${root}.`));
    return answer({ site: withNumbers(it.site, of("site")), rig: withNumbers(it.rig, of("rig")), policy: it.policy });
  };
  const typical = unknowns.map(({ field, typical: value }) => [field, value] as const);
  const base = at(typical);
  const looked = [base, ...combinations(unknowns).map(at), ...unknowns.flatMap((unknown) => between(unknown).map((value) => at(replaced(typical, unknown.field, value))))];
  if (looked.every(({ verdict }) => verdict === base.verdict)) return looked.reduce((worst, result) => (result.score < worst.score ? result : worst));
  const verdictAt = (numbers: Numbers) => at(numbers).verdict;
  const asks = unknowns.flatMap((unknown) => turning(unknown, backgrounds(unknowns, typical), verdictAt));
  return { ...base, verdict: "ask", asks, conflicts: [], remedies: [] };
}

/** Ends of the ranges against each other. */
function combinations(unknowns: readonly Unknown[]): Numbers[] {
  if (unknowns.length > COMBINED) {
    return [unknowns.map(({ field, min }) => [field, min] as const), unknowns.map(({ field, max }) => [field, max] as const)];
  }
  return unknowns.reduce<Numbers[]>((all, { field, min, max }) => all.flatMap((numbers) => [[...numbers, [field, min] as const], [...numbers, [field, max] as const]]), [[]]);
}

function between({ min, max }: Unknown): number[] {
  return Array.from({ length: BETWEEN + 2 }, (_, k) => min + ((max - min) * k) / (BETWEEN + 1));
}

/** With the other numbers as they most likely are; failing that, all at their least or most. */
function backgrounds(unknowns: readonly Unknown[], typical: Numbers): Numbers[] {
  return [typical, ...combinations(unknowns)];
}

/** Where the verdict turns as one number grows, against the first background in which it does. */
function turning(unknown: Unknown, grounds: readonly Numbers[], verdictAt: (numbers: Numbers) => Verdict): Ask[] {
  const { field, typical } = unknown;
  const points = [...new Set([...between(unknown), typical])].sort((a, b) => a - b);
  for (const ground of grounds) {
    const at = (value: number) => verdictAt(replaced(ground, field, value));
    const verdicts = points.map(at);
    const k = verdicts.findIndex((verdict, i) => i > 0 && verdict !== verdicts[i - 1]);
    if (k > 0) return [halved(unknown, points[k - 1]!, points[k]!, verdicts[k - 1]!, at)];
  }
  return [];
}

function halved(unknown: Unknown, from: number, to: number, below: Verdict, at: (value: number) => Verdict): Ask {
  const grain = grainOf(unknown);
  let low = from, high = to;
  while (high - low > grain) {
    const middle = (low + high) / 2;
    if (at(middle) === below) low = middle;
    else high = middle;
  }
  return { field: unknown.field, turnsAt: Math.round((low + high) / 2 / grain) * grain, below, above: at(high) };
}

function replaced(numbers: Numbers, field: string, value: number): Numbers {
  return numbers.map((entry) => (entry[0] === field ? [field, value] : entry));
}
