import { orderResults, withNumbers, type FitResult, type Service, type Unknown, type Verdict } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";

/** Where a site's verdict turns as one number of the rig grows: the value, and the verdict on either side. */
export interface Turn {
  readonly site: string;
  readonly field: string;
  readonly turnsAt: number;
  readonly below: Verdict;
  readonly above: Verdict;
  /** Other numbers that have to lie at the end of their range for it to turn at all; none where this one does it alone. */
  readonly together: readonly string[];
}

/** A number nobody has measured, with every turn that hangs on it. */
export interface Question {
  readonly unknown: Unknown;
  readonly turns: readonly Turn[];
  /** On how many sites it decides whether the rig can stand there at all. */
  readonly decides: number;
  /** On how many further sites it decides whether something has to be brought. */
  readonly brings: number;
}

export type VerdictOf = (site: Site, rig: Rig) => Verdict;

/** The value at which a verdict turns is told to 5 mm, as finely as a tape is read on a rig; or to a thousandth of the range, where that is finer. */
function grainOf({ min, max }: Unknown): number {
  return Math.min(5, (max - min) / 1000);
}

/** Points between the ends at which a number is looked at that may help and hurt by turns, as a place along a wall does. */
const BETWEEN = 5;

/**
 * Where the verdict of a site turns, for each number of the rig that is not known, the others being as they most likely
 * are. Numbers that can only help or only hurt as they grow are looked at at their ends, and at neither where all of them
 * together change nothing; others in between as well, so that a verdict that turns and turns back between two such points
 * is missed. Where no number turns it alone, all are moved to their worse ends, and to their better ones, one after the
 * other, and the one that tips it is told, with those it needs. `rig` carries the likely numbers. `verdictOf` is asked some
 * tens of times.
 */
export function turnsAt(site: Site, rig: Rig, all: readonly Unknown[], verdictOf: VerdictOf): Turn[] {
  const unknowns = all.filter(({ field }) => mayMatter(field, rig));
  if (unknowns.length === 0) return [];
  const at = (numbers: Numbers) => verdictOf(site, withNumbers(rig, numbers));
  const now = at([]);
  const toward = (["worse", "better"] as const).map((direction) => movesOf(unknowns, direction)).filter((moves) => moves.length > 0 && at(moves.map(({ to }) => to)) !== now);
  // Lines decide nothing where the rig cannot stand without any.
  const standing = now !== "no" || verdictOf(site, { ...rig, wants: [] }) !== "no";
  const alone = unknowns.flatMap((unknown) => {
    if (worseEnd(unknown) === null) return standing || !unknown.field.startsWith("rig.inlets.") ? turnsBetween(site.id, unknown, wandering(unknown), [], at, now) : [];
    return turnsBetween(site.id, unknown, toward.flatMap((moves) => moves.filter((move) => move.unknown === unknown).map(({ to }) => to[1])), [], at, now);
  });
  return alone.length > 0 ? alone : toward.flatMap((moves) => tipping(site.id, moves, at, now));
}

/** The questions worth asking, the one that decides most sites first, then the one that changes most what to bring. */
export function questionsFrom(turns: readonly Turn[], unknowns: readonly Unknown[]): Question[] {
  return unknowns
    .map((unknown) => {
      const own = turns.filter(({ field }) => field === unknown.field);
      const decided = new Set(own.filter(opens).map(({ site }) => site));
      return { unknown, turns: own, decides: decided.size, brings: new Set(own.map(({ site }) => site).filter((site) => !decided.has(site))).size };
    })
    .filter(({ turns: own }) => own.length > 0)
    .sort((a, b) => b.decides - a.decides || b.brings - a.brings);
}

/**
 * The results at the likely numbers, those that hang on a number nobody has measured turned into `ask`: whether the rig
 * can stand there is not known. Where only what to bring hangs on it, the verdict stays and the number is named with it.
 */
export function withAsks(results: readonly FitResult[], turns: ReadonlyMap<string, readonly Turn[]>): FitResult[] {
  return orderResults(results.map((result): FitResult => {
    const asks = turns.get(result.site) ?? [];
    if (asks.length === 0) return result;
    const open = asks.some(opens);
    const plain = asks.map(({ field, turnsAt: value, below, above }) => ({ field, turnsAt: value, below, above }));
    // What the site's own measurements leave open stays open beside it.
    const all = [...plain, ...result.asks];
    return open ? { ...result, verdict: "ask", asks: all } : { ...result, asks: all };
  }));
}

/** What a measurement may do to the number of sites, told by the value at which the first and the last of them turn. */
export interface Effect {
  /** Sites that come to fit, or that cease to. */
  readonly change: "more" | "fewer";
  /** The side of the value on which they do. */
  readonly side: "below" | "above";
  /** Nearest to the likely value, where the first one turns, and where the last has. */
  readonly first: number;
  readonly last: number;
  readonly sites: readonly string[];
}

/** What is gained and lost on either side of the likely value, counting as fitting what fits with gear to bring as well. */
export function effectsOf({ unknown: { typical }, turns }: Question): Effect[] {
  return (["below", "above"] as const).flatMap((side) => (["more", "fewer"] as const).flatMap((change): Effect[] => {
    const group = turns.filter((turn) => (side === "below" ? turn.turnsAt <= typical : turn.turnsAt > typical) && changeOf(turn, side) === change);
    if (group.length === 0) return [];
    const values = group.map((turn) => turn.turnsAt).sort((a, b) => Math.abs(a - typical) - Math.abs(b - typical));
    return [{ change, side, first: values[0]!, last: values.at(-1)!, sites: [...new Set(group.map(({ site }) => site))] }];
  }));
}

function changeOf(turn: Turn, side: "below" | "above"): "more" | "fewer" | null {
  const there = fits(turn[side]), here = fits(turn[side === "below" ? "above" : "below"]);
  return there === here ? null : there ? "more" : "fewer";
}

function opens({ below, above }: Turn): boolean {
  return fits(below) !== fits(above);
}

function fits(verdict: Verdict): boolean {
  return verdict === "fits" || verdict === "gear";
}

type Numbers = readonly (readonly [field: string, value: number])[];
type At = (numbers: Numbers) => Verdict;

/**
 * Which end of a number's range is the worse one: a longer body or a deeper slide only takes up more, a longer cord only
 * reaches farther. Numbers that are not listed (places along a wall, heights of inlets) may help and hurt by turns.
 */
const WORSE: readonly (readonly [pattern: RegExp, end: "min" | "max"])[] = [
  [/^rig\.body\.(length|width|height)$/, "max"],
  [/^rig\.hitch\.(length|width|to)$/, "max"],
  [/^rig\.hitch\.from$/, "min"],
  [/^rig\.parts\.\d+\.(depth|to|span\.1)$/, "max"],
  [/^rig\.parts\.\d+\.(from|span\.0)$/, "min"],
  [/^rig\.gear\./, "min"],
  [/^rig\.electric\.loads\.\d+\.va$/, "max"],
  [/^rig\.tow\.(length|width|height)$/, "max"],
];

function worseEnd({ field }: Unknown): "min" | "max" | null {
  return WORSE.find(([pattern]) => pattern.test(field))?.[1] ?? null;
}

/** What merely would be nice to have out, and lines for a service that is not asked for, never decide a verdict. */
function mayMatter(field: string, rig: Rig): boolean {
  const [, group, index = ""] = field.split(".");
  if (group === "parts") return rig.parts[Number(index)]?.need === "must";
  if (group === "inlets") return rig.wants.some((service) => service === rig.inlets[Number(index)]?.kind);
  const service = GEAR_OF[index] ?? (group === "electric" ? "power" : null);
  return service === null || rig.wants.includes(service);
}

const GEAR_OF: Readonly<Record<string, Service>> = { powerCord: "power", waterHose: "water", sewerHose: "sewer" };

/** One number moved to an end of its range. */
interface Move {
  readonly unknown: Unknown;
  readonly to: readonly [field: string, value: number];
}

function movesOf(unknowns: readonly Unknown[], toward: "worse" | "better"): Move[] {
  return unknowns.flatMap((unknown) => {
    const worse = worseEnd(unknown);
    if (worse === null) return [];
    const end = toward === "worse" ? worse : worse === "min" ? "max" : "min";
    return [{ unknown, to: [unknown.field, unknown[end]] as const }];
  });
}

/** Where a number is looked at that may help and hurt by turns. */
function wandering({ min, max }: Unknown): number[] {
  return Array.from({ length: BETWEEN + 2 }, (_, k) => min + ((max - min) * k) / (BETWEEN + 1));
}

/** Where the verdict turns along one number, looked at at these values and the likely one, with the numbers of `ground` in place of the likely ones. */
function turnsBetween(site: string, unknown: Unknown, values: readonly number[], ground: Numbers, at: At, now: Verdict): Turn[] {
  const { field, typical } = unknown;
  const verdictAt = (value: number) => at([...ground, [field, value]]);
  const points = [...new Set([...values, typical])].sort((a, b) => a - b).map((value) => ({ value, verdict: value === typical ? now : verdictAt(value) }));
  return points.slice(1).flatMap((high, k) => {
    const low = points[k]!;
    if (low.verdict === high.verdict) return [];
    return [{ site, field, turnsAt: halved(unknown, low.value, high.value, low.verdict, verdictAt), below: low.verdict, above: high.verdict, together: ground.map(([other]) => other) }];
  });
}

function halved(unknown: Unknown, from: number, to: number, below: Verdict, verdictAt: (value: number) => Verdict): number {
  const grain = grainOf(unknown);
  let low = from, high = to;
  while (high - low > grain) {
    const middle = (low + high) / 2;
    if (verdictAt(middle) === below) low = middle;
    else high = middle;
  }
  return Math.round((low + high) / 2 / grain) * grain;
}

/** The moves made one after the other: the first that tips the verdict. */
function tipping(site: string, moves: readonly Move[], at: At, now: Verdict): Turn[] {
  for (let k = 1; k < moves.length; k++) {
    const ground = moves.slice(0, k).map(({ to }) => to), { unknown, to } = moves[k]!;
    if (at([...ground, to]) !== now) return turnsBetween(site, unknown, [to[1]], ground, at, now);
  }
  return [];
}
