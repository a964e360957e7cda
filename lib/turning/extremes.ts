import type { Mm } from "@/lib/measure";
import type { Configuration, Drive } from "./drive";

/** A quantity of a drive with the distance along it at which it was taken. */
export interface Sample {
  readonly along: number;
  readonly value: number;
}

/** Parts that a step is looked at in. */
const PARTS = 2;
/** And the most that the path turns within one part (radians). */
const PART_TURN = 0.1;

/**
 * Moments close enough together that a quantity of the motion has at most one extreme between three neighbours: a few
 * within each step of the integration, whose length follows the motion, and every place where the path's curvature jumps.
 */
export function momentsOf({ steps, at, path }: Drive): Configuration[] {
  const moments: Configuration[] = [];
  for (const { from, length, still } of steps) {
    const turned = Math.abs(path.pointAt(from + length).heading - path.pointAt(from).heading);
    const parts = Math.max(still ? 1 : PARTS, Math.ceil(turned / PART_TURN));
    for (let k = 0; k < parts; k++) moments.push(at(from + (k * length) / parts));
  }
  const last = steps.at(-1)!;
  moments.push(at(last.from + last.length));
  return moments;
}

/**
 * The greatest of a quantity known at moments in their order: the greatest sample, or an extreme between its neighbours,
 * located to `located` along the way.
 */
export function greatestOf(samples: readonly Sample[], valueAt: (along: number) => number, located: Mm): Sample {
  let best: Sample = { along: NaN, value: -Infinity };
  for (const sample of samples) if (sample.value > best.value) best = sample;
  for (let i = 1; i < samples.length - 1; i++) {
    const before = samples[i - 1]!, here = samples[i]!, after = samples[i + 1]!;
    if (here.value < before.value || here.value < after.value) continue;
    // What rises to here by so much and falls again cannot peak much higher between.
    const rise = Math.max(here.value - before.value, here.value - after.value);
    if (rise === 0 || here.value + rise <= best.value) continue;
    const found = peakWithin(before.along, after.along, valueAt, located);
    if (found.value > best.value) best = found;
  }
  return best;
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Golden section (Kiefer 1953), for one peak between two ends. The interval shrinks by a fixed share: it ends. */
function peakWithin(from: number, to: number, valueAt: (along: number) => number, located: number): Sample {
  let a = from, b = to, c = b - GOLDEN * (b - a), d = a + GOLDEN * (b - a), atC = valueAt(c), atD = valueAt(d);
  // Below a share of the numbers themselves an interval cannot be cut.
  const least = Math.max(located, Math.abs(to) * 1e-12);
  while (b - a > least) {
    if (atC >= atD) {
      b = d; d = c; atD = atC;
      c = b - GOLDEN * (b - a); atC = valueAt(c);
    } else {
      a = c; c = d; atC = atD;
      d = a + GOLDEN * (b - a); atD = valueAt(d);
    }
  }
  return atC >= atD ? { along: c, value: atC } : { along: d, value: atD };
}
