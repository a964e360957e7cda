import type { Choice } from "./family";
import type { Judge } from "./judge";
import { tryChoice, worthOf, type LegTask, type Trial, type Worth } from "./trial";

/** The best way that was found for a leg; its room is of the moments looked at, and proven by nothing yet. */
export interface BestTrial {
  readonly task: LegTask;
  readonly trial: Trial;
  readonly worth: Worth;
}

/** What is tried first, before the search goes on by small steps. */
interface Round {
  /** Of the tightest that the vehicle can drive. */
  readonly radii: readonly number[];
  /** Across the road, of how far it may run there: below zero on the site's side. */
  readonly places: readonly number[];
  /** Of a trailer on its pose, of the most its hitch allows. */
  readonly bends: readonly number[];
  readonly ease: number;
  /** The wheels are turned back over no more than so many times the way that they are turned in over. */
  readonly mostEase: number;
  /** Of so many beginnings the search goes on; where there are several tasks, from the best of so many. */
  readonly starts: number;
  readonly mostTasks: number;
  /** Where none of the `STRAIGHT` moves leads on. */
  readonly crossed: readonly Move[];
}

/** By how many steps far, radius, bend and ease are changed. */
type Move = readonly [far: number, radius: number, bend: number, ease: number];

const STRAIGHT: readonly Move[] = [[1, 0, 0, 0], [-1, 0, 0, 0], [0, 1, 0, 0], [0, -1, 0, 0], [0, 0, 1, 0], [0, 0, -1, 0], [0, 0, 0, 1], [0, 0, 0, -1]];
/** The least room is as sharp as a ridge, on which no single number leads up while two together do. */
const CROSSED: readonly Move[] = [[1, 1, 0, 0], [1, -1, 0, 0], [-1, 1, 0, 0], [-1, -1, 0, 0], [1, 0, 1, 0], [1, 0, -1, 0], [-1, 0, 1, 0], [-1, 0, -1, 0], [0, 1, 1, 0], [0, 1, -1, 0], [0, -1, 1, 0], [0, -1, -1, 0]];

/** Wheels turned back as fast as they are turned in, coarsely; where that gives little room, more slowly, between the first tries, and two numbers at a time. */
const ROUNDS: readonly Round[] = [
  { radii: [1, 1.35, 2], places: [-1, 0, 1], bends: [0, 0.4, 0.75], ease: 1, mostEase: 1, starts: 2, mostTasks: 3, crossed: [] },
  { radii: [1, 1.3, 1.7], places: [-0.5, 0.15, 0.8], bends: [0, 0.2, 0.45], ease: 2.5, mostEase: 4, starts: 1, mostTasks: 2, crossed: CROSSED },
];
/** A second round is worth its while between these, mm: with more room nobody needs it, with less it found nothing of what was missing, over every pair of the demo park. */
const ENOUGH = 100, HOPELESS = -150;
/** A hair wider than the tightest, so that rounding asks for no more lock than there is. */
const HAIR = 1 + 1e-6;
/** The finest steps: across the road, mm, of the radius, in shares, and of the bend, radians. */
const FINEST = { far: 40, radius: 0.02, bend: 0.02 } as const;
/** Of what room in the curve beyond the least room is worth beside it: it only tells ways apart that are as good. */
const TURNING_SHARE = 0.02;

/**
 * Ways with the most room over all given tasks, up to the park's comfort: the end of each climb, the best first, as between the moments looked
 * at the best may yet not hold. Coarse first, then by steps of half the size wherever no neighbour is better. Empty where no member of the family
 * leads out at all. It finds; it proves nothing by not finding.
 */
export function findBest(judge: Judge, tasks: readonly LegTask[]): BestTrial[] {
  const { comfort, touch } = judge.keep, tightest = HAIR / judge.train.sharpest;
  // What holds is worth more than anything that does not, however roomy its curve. To a hundredth of a millimetre: rounding then decides nothing, and a mirrored site has the mirrored way.
  const value = ({ room, turning }: Worth) => Math.round((Math.min(room, comfort) + TURNING_SHARE * (Math.min(turning, comfort) + (room >= -touch ? comfort : 0))) * 100) / 100;
  const ends = new Set<Found>(), enough = value({ room: comfort, turning: comfort }), inOrder = () => [...ends].sort((a, b) => b.value - a.value);
  // What is left early is worth no more than what it has to beat, and by how much less nobody knows: so it never has to beat another task's.
  const look = (task: LegTask, choice: Choice, beats: BestTrial | null) => {
    const trial = tryChoice(judge, task, choice);
    if ("short" in trial) return null;
    const worth = worthOf(judge, trial, task.kind, beats ? Math.min(comfort, beats.worth.room) - 1 : -Infinity);
    return { task, trial, worth, value: value(worth) };
  };
  for (const round of ROUNDS) {
    const tried: Found[] = [], before = inOrder()[0];
    for (const task of tasks) {
      // The best of this task so far. The last of them is to be beaten, so that whatever the search goes on from is worth what it is said to be.
      let own: Found[] = [];
      const kept = tasks.length === 1 ? round.starts : 1;
      for (const times of round.radii) for (const place of round.places) for (const bend of round.bends.slice(0, bendable(judge, task) > 0 ? undefined : 1)) {
        const found = look(task, { radius: tightest * times, far: place * widest(judge, task), bend: bend * bendable(judge, task), ease: round.ease }, own[kept - 1] ?? null);
        if (!found) continue;
        if (found.value >= enough) return [found, ...inOrder()];
        tried.push(found);
        own = [...own, found].sort((a, b) => b.value - a.value).slice(0, kept);
      }
    }
    for (const start of [...(before ? [before] : []), ...beginningsOf(tried.sort((a, b) => b.value - a.value), tasks.length, round)]) {
      const end = climb(judge, start, round, { tightest, enough }, look);
      ends.add(end);
      if (end.value >= enough) return inOrder();
    }
    const room = inOrder()[0]?.worth.room ?? -Infinity;
    if (room >= ENOUGH || room < HOPELESS) break;
  }
  return inOrder();
}

/** The best of each task first, as one pose has less room in itself than another; of a single task the best few. */
function beginningsOf<T extends BestTrial>(sorted: readonly T[], tasks: number, { starts, mostTasks }: Round): T[] {
  const heads = tasks === 1 ? sorted : sorted.filter(({ task }, i) => sorted.findIndex((other) => other.task === task) === i);
  return heads.slice(0, tasks === 1 ? starts : mostTasks);
}

type Found = BestTrial & { readonly value: number };
type Look = (task: LegTask, choice: Choice, beats: BestTrial | null) => Found | null;

function within(value: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, value));
}

interface Bounds {
  readonly tightest: number;
  /** What is worth as much is not bettered any more. */
  readonly enough: number;
}

function climb(judge: Judge, start: Found, { mostEase, crossed }: Round, { tightest, enough }: Bounds, look: Look): Found {
  const { task } = start, most = widest(judge, task), sharpest = bendable(judge, task);
  let here = start, far = most / 2, radius = 0.18, bend = sharpest / 5;
  while ((far > FINEST.far || radius > FINEST.radius) && here.value < enough) {
    const better = (moves: readonly Move[]) => {
      let moved = false;
      for (const [f, r, b, e] of moves) {
        const { choice } = here.trial;
        const next: Choice = {
          far: within(choice.far + f * far, -most, most), radius: within(choice.radius * (1 + radius) ** r, tightest, Infinity),
          bend: within(choice.bend + b * bend, 0, sharpest), ease: within(choice.ease * (1 + 2 * radius) ** e, 1, mostEase),
        };
        if (next.far === choice.far && next.radius === choice.radius && next.bend === choice.bend && next.ease === choice.ease) continue;
        const found = look(task, next, here);
        if (found && found.value > here.value) [here, moved] = [found, true];
      }
      return moved;
    };
    if (!better(STRAIGHT) && !better(crossed)) [far, radius, bend] = [far / 2, radius / 2, bend / 2];
  }
  return here;
}

/** How far a trailer that is backed in, or driven off, may stand bent, radians; whatever is driven in ends in line. */
function bendable({ train }: Judge, { kind }: LegTask): number {
  return kind === "back" && train.rigBody === 1 ? (train.maxBend ?? 0) : 0;
}

/** How far from the road's middle the front axle may run with its tires on the road, mm. */
function widest({ train, keep }: Judge, { lane }: LegTask): number {
  return Math.max(0, lane.road.width / 2 - train.combination.vehicle.track / 2 - keep.footing);
}
