import type { Site } from "@/lib/park";
import { outlineFault, type Point } from "@/lib/plane";
import { unknownsOf, type UncertainNumber } from "@/lib/survey";
import { allowancesOf } from "./allowances";
import { allowedBy, DEFAULT_BUDGET, prepare } from "./answer";
import type { RigForm } from "./form";
import type { Workspace } from "./landscapes";
import type { Case } from "./refusal/changes";
import { couldGiveWay, couldTurnRefusal } from "./in-doubt";
import { verdictAlone } from "./solve";
import type { Ask, FitResult, Verdict } from "./types";
import { withNumbers } from "./unknowns";

/** So many numbers are looked at for one answer, the likeliest first: what hangs on more has to be measured again anyhow. */
const MOST_NUMBERS = 40;
/** The value at which an answer turns is told to 1 mm, or to a thousandth of the range where that is finer (slopes). */
const GRAIN = 1, SHARE = 1000;

/**
 * The answer, where some numbers of the site were measured with an error that could turn it: `ask`, with each number that does so by itself
 * while the others are as recorded; where only what to bring turns, the verdict stays and the numbers are named. First it is asked what could matter at
 * all (`in-doubt.ts`): mostly nothing, and then nothing more is solved.
 */
export function withErrors(it: Case, form: RigForm, result: FitResult, work: Workspace): FitResult {
  const allowances = it.site.survey ? allowancesOf(it.site) : null;
  if (!allowances || result.verdict === "unsettled" || result.verdict === "ask") return result;
  const doubted = result.pose ? couldGiveWay(it, form, allowances, result, result.pose) : couldTurnRefusal(it, form, allowances, result);
  if (doubted.size === 0) return result;
  const numbers = unknownsOf(it.site).filter(({ field }) => doubted.has(thingOf(field, it.site)));
  const nearest = nearestFirst(numbers, it.site, result).slice(0, MOST_NUMBERS);
  const verdictAt = (field: string, value: number): Verdict => {
    const { approaches, level, broken } = prepare(withNumbers(allowances.bare, [[field, value]]), form, it.policy, DEFAULT_BUDGET, work);
    return verdictAlone(approaches, allowedBy(broken, level));
  };
  const asks = nearest.flatMap((number) => turningsOf(number, allowances.bare, result.verdict, verdictAt));
  if (asks.length === 0) return result;
  return asks.some(decides) ? { ...result, verdict: "ask", asks, conflicts: [], remedies: [] } : { ...result, asks };
}

function decides({ below, above }: Ask): boolean {
  return (below === "no") !== (above === "no");
}

/** What a number belongs to: the id of an obstacle or hookup, `pad`, `lot`, `road` or `ground`. */
function thingOf(field: string, { obstacles, hookups }: Site): string {
  const [, group = "", index] = field.split(".");
  if (group === "obstacles") return obstacles[Number(index)]?.id ?? "";
  if (group === "hookups") return hookups[Number(index)]?.id ?? "";
  return group === "roadEdge" || group === "exitEdge" ? "road" : group;
}

/** Corners of outlines by how near they lie to where the rig stands, or would nearly; whatever else first. */
function nearestFirst(numbers: readonly UncertainNumber[], site: Site, { pose, conflicts, limit }: FitResult): UncertainNumber[] {
  const near = pose ? (limit?.to ?? [pose.x, pose.y]) : (conflicts.find(({ shown }) => shown)?.shown?.gap?.from ?? [0, 0]);
  const far = (number: UncertainNumber) => {
    const corner = cornerOf(number.field, site);
    return corner ? Math.hypot(corner[0] - near[0], corner[1] - near[1]) : -1;
  };
  return numbers.map((number) => ({ number, far: far(number) })).sort((a, b) => a.far - b.far).map(({ number }) => number);
}

/** The corner that a field such as `site.pad.outline.2.1` is a number of. */
function cornerOf(field: string, site: Site): Point | null {
  const steps = field.split(".").slice(1, -1);
  if (!steps.includes("outline")) return null;
  const found = steps.reduce<unknown>((at, step) => (at as Record<string, unknown> | undefined)?.[step], site);
  return Array.isArray(found) ? (found as unknown as Point) : null;
}

/** Where the verdict turns between the number as recorded and either end of its range. */
function turningsOf(number: UncertainNumber, bare: Site, now: Verdict, verdictAt: (field: string, value: number) => Verdict): Ask[] {
  const { field, min, max, typical } = number, grain = Math.min(GRAIN, (max - min) / SHARE);
  return [min, max].flatMap((end): Ask[] => {
    if (end === typical || !isOutline(field, end, bare)) return [];
    const there = verdictAt(field, end);
    if (there === now || there === "unsettled") return [];
    let inside = typical, outside = end;
    while (Math.abs(outside - inside) > grain) {
      const middle = (inside + outside) / 2;
      if (verdictAt(field, middle) === now) inside = middle;
      else outside = middle;
    }
    const turnsAt = Math.round((inside + outside) / 2 / grain) * grain;
    return [end < typical ? { field, turnsAt, below: there, above: now } : { field, turnsAt, below: now, above: there }];
  });
}

/** A corner carried so far that the outline crosses itself says nothing. */
function isOutline(field: string, value: number, bare: Site): boolean {
  const steps = field.split(".").slice(1), at = steps.indexOf("outline");
  if (at < 0) return true;
  const changed = withNumbers(bare, [[field, value]]);
  const outline = steps.slice(0, at + 1).reduce<unknown>((found, step) => (found as Record<string, unknown>)[step], changed);
  return outlineFault(outline as readonly Point[]) === null;
}
