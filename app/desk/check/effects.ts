import type { FitResult, Verdict } from "@/lib/fit";
import type { FactId } from "./facts";

/** What another answer to a question would change, in numbers of sites. */
export interface Effect {
  readonly id: FactId;
  /** The answer that is not the one taken now. */
  readonly answer: boolean;
  /** Sites that would no longer take the rig, and sites that would then. */
  readonly lost: number;
  readonly gained: number;
  /** Sites that take it either way, but would then ask for gear to be brought, or no longer. */
  readonly moreGear: number;
  readonly lessGear: number;
}

type Judged = Pick<FitResult, "site" | "verdict">;

export function effectOf(id: FactId, answer: boolean, now: readonly Judged[], then: readonly Judged[]): Effect {
  const before = new Map(now.map(({ site, verdict }) => [site, verdict]));
  const turned = (test: (was: Verdict, is: Verdict) => boolean) => then.filter(({ site, verdict }) => test(before.get(site) ?? verdict, verdict)).length;
  return {
    id,
    answer,
    lost: turned((was, is) => takes(was) && !takes(is)),
    gained: turned((was, is) => !takes(was) && takes(is)),
    moreGear: turned((was, is) => was === "fits" && is === "gear"),
    lessGear: turned((was, is) => was === "gear" && is === "fits"),
  };
}

/** How many sites' answers turn. */
export function sizeOfEffect({ lost, gained, moreGear, lessGear }: Effect): number {
  return lost + gained + moreGear + lessGear;
}

/** What is worth asking first: the question that turns the most sites; of equal ones, the one that takes more of them away. */
export function byEffect(effects: readonly Effect[]): Effect[] {
  return [...effects].sort((a, b) => sizeOfEffect(b) - sizeOfEffect(a) || b.lost - a.lost);
}

export function takes(verdict: Verdict): boolean {
  return verdict === "fits" || verdict === "gear";
}
