import type { Choice } from "./family";
import type { Judge } from "./judge";
import { tryChoice, worthOf, type LegTask, type Trial, type Worth } from "./trial";

/** The best way that was found for a leg; its room is of the moments looked at, and proven by nothing yet. */
export interface BestTrial {
  readonly task: LegTask;
  readonly trial: Trial;
  readonly worth: Worth;
}

/** Radii, of the tightest the vehicle can drive, and places across the road that are tried first. */
const RADII = [1, 1.35, 2] as const;
const PLACES = [-1, 0, 1] as const;
/** Bends of a trailer on its pose that are tried first, of the most its hitch allows. */
const BENDS = [0, 0.4, 0.75] as const;
/** A hair wider than the tightest, so that rounding asks for no more lock than there is. */
const HAIR = 1 + 1e-6;
/** Of so many beginnings the search goes on; where there are several tasks, from the best of so many. */
const STARTS = 2, MOST_TASKS = 3;
/** The finest steps: across the road, mm, of the radius, in shares, and of the bend, radians. */
const FINEST = { far: 40, radius: 0.02, bend: 0.02 } as const;
/** Of what room in the curve beyond the least room is worth beside it: it only tells ways apart that are as good. */
const TURNING_SHARE = 0.02;

/**
 * Most room over all given tasks, up to the park's comfort. Coarse first, then by steps of half the size wherever no
 * neighbour is better. Null where no member of the family leads out at all. It finds; it proves nothing by not finding.
 */
export function findBest(judge: Judge, tasks: readonly LegTask[]): BestTrial | null {
  const { comfort } = judge.keep, tightest = HAIR / judge.train.sharpest;
  // To a hundredth of a millimetre: rounding then decides nothing, and a mirrored site has the mirrored way.
  const value = ({ room, turning }: Worth) => Math.round((Math.min(room, comfort) + TURNING_SHARE * Math.min(turning, comfort)) * 100) / 100;
  const tried: (BestTrial & { value: number })[] = [];
  let best: (BestTrial & { value: number }) | null = null;
  // What is left early is worth no more than what it has to beat, and by how much less nobody knows: so it never has to beat another task's.
  const look = (task: LegTask, choice: Choice, beats: BestTrial | null) => {
    const trial = tryChoice(judge, task, choice);
    if ("short" in trial) return null;
    const worth = worthOf(judge, trial, task.kind, beats ? Math.min(comfort, beats.worth.room) - 1 : -Infinity), found = { task, trial, worth, value: value(worth) };
    if (!best || found.value > best.value) best = found;
    return found;
  };
  const done = () => best !== null && best.value >= value({ room: comfort, turning: comfort });
  for (const task of tasks) {
    let own: (BestTrial & { value: number }) | null = null;
    for (const times of RADII) for (const place of PLACES) for (const bend of bendsFor(judge, task)) {
      if (done()) return best;
      const found = look(task, { radius: tightest * times, far: place * widest(judge, task), bend }, own);
      if (!found) continue;
      tried.push(found);
      if (!own || found.value > own.value) own = found;
    }
  }
  for (const start of beginningsOf(tried.sort((a, b) => b.value - a.value), tasks.length)) climb(judge, start, tightest, look, done);
  return best;
}

/** The best of each task first, as one pose has less room in itself than another; of a single task the best few. */
function beginningsOf<T extends BestTrial>(sorted: readonly T[], tasks: number): T[] {
  const heads = tasks === 1 ? sorted : sorted.filter(({ task }, i) => sorted.findIndex((other) => other.task === task) === i);
  return heads.slice(0, tasks === 1 ? STARTS : MOST_TASKS);
}

type Look = (task: LegTask, choice: Choice, beats: BestTrial | null) => (BestTrial & { value: number }) | null;

function climb(judge: Judge, start: BestTrial & { value: number }, tightest: number, look: Look, done: () => boolean): void {
  const { task } = start, most = widest(judge, task), sharpest = Math.max(...bendsFor(judge, task)) / BENDS.at(-1)!;
  let here = start, far = most / 2, radius = 0.18, bend = sharpest / 5;
  while ((far > FINEST.far || radius > FINEST.radius) && !done()) {
    const { choice } = here.trial;
    const around: Choice[] = [
      { ...choice, far: Math.min(most, choice.far + far) }, { ...choice, far: Math.max(-most, choice.far - far) },
      { ...choice, radius: choice.radius * (1 + radius) }, { ...choice, radius: Math.max(tightest, choice.radius / (1 + radius)) },
      { ...choice, bend: Math.min(sharpest, choice.bend + bend) }, { ...choice, bend: Math.max(0, choice.bend - bend) },
    ];
    let moved = false;
    for (const next of around) {
      if (next.far === choice.far && next.radius === choice.radius && next.bend === choice.bend) continue;
      const found = look(task, next, here);
      if (found && found.value > here.value) [here, moved] = [found, true];
    }
    if (!moved) [far, radius, bend] = [far / 2, radius / 2, bend / 2];
  }
}

/** A trailer that is backed in, or driven off, may stand bent; whatever is driven in ends in line. */
function bendsFor({ train }: Judge, { kind }: LegTask): number[] {
  return kind === "back" && train.rigBody === 1 ? BENDS.map((share) => share * (train.maxBend ?? 0)) : [0];
}

/** How far from the road's middle the front axle may run with its tires on the road, mm. */
function widest({ train, keep }: Judge, { lane }: LegTask): number {
  return Math.max(0, lane.road.width / 2 - train.combination.vehicle.track / 2 - keep.footing);
}
