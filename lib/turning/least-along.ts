import { mm, type Mm } from "@/lib/measure";
import type { Configuration, Drive } from "./drive";
import type { TurningTolerances } from "./tolerances";

/** The least of a quantity over a drive. */
export interface Least {
  /** The least that was met, and where. */
  readonly value: number;
  readonly along: Mm;
  /** Nothing over the drive is below this. At most `tolerances.distance` under `value`, unless the budget ran out. */
  readonly bound: number;
  /** False where the budget ran out: the bound still holds. */
  readonly closed: boolean;
}

/**
 * Finds and proves the least of a quantity that changes by no more than `speed` for each millimetre driven (Piyavskii 1972, Shubert
 * 1972): between two moments it cannot fall further than that allows, so stretches that cannot hold anything lower are left, the others halved.
 */
export function leastAlong(drive: Drive, quantity: (c: Configuration) => number, speed: number, { distance, budget }: TurningTolerances, span: readonly [number, number] = [0, drive.reached]): Least {
  const at = (along: number) => ({ along, value: quantity(drive.at(along)) });
  type Moment = ReturnType<typeof at>;
  const first = at(span[0]), last = at(span[1]), open: (readonly [Moment, Moment])[] = [[first, last]];
  let best = first.value <= last.value ? first : last, bound = best.value, looked = 2;
  while (open.length > 0) {
    const [a, b] = open.pop()!, lowest = Math.min(a.value, b.value, (a.value + b.value - speed * (b.along - a.along)) / 2);
    if (lowest >= best.value - distance || looked >= budget) {
      bound = Math.min(bound, lowest);
      continue;
    }
    const middle = at((a.along + b.along) / 2);
    looked++;
    if (middle.value < best.value) best = middle;
    // The half with the lower end last, so that it is looked at first: a low value found early rules out more.
    const halves = [[a, middle], [middle, b]] as const;
    if (a.value < b.value) open.push(halves[1], halves[0]);
    else open.push(...halves);
  }
  return { value: best.value, along: mm(best.along), bound: Math.min(bound, best.value), closed: looked < budget };
}

/** What a least distance says of a collision. Touching counts as meeting. */
export function meets({ value, bound }: Least): "clear" | "meets" | "undecided" {
  if (value <= 0) return "meets";
  return bound > 0 ? "clear" : "undecided";
}
