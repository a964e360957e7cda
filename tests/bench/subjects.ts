import { fitSite, headingsFor, type FitResult, type Policy } from "@/lib/fit";
import { formOf, type RigForm } from "@/lib/fit/form";
import type { Setting } from "@/lib/fit/constraints";
import type { Heading } from "@/lib/fit/types";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { randomFrom } from "../scenes/random";
import { allowedFor, settingOf } from "./setting";
import { sweptSpan } from "./sweep-baseline";

/** One rig on one site. */
export interface Question {
  readonly site: Site;
  readonly rig: Rig;
  readonly form: RigForm;
  readonly policy: Policy;
  readonly setting: Setting;
  readonly headings: readonly Heading[];
  readonly result: FitResult;
}

export function ask(site: Site, rig: Rig, policy: Policy): Question {
  const form = formOf(rig);
  return { site, rig, form, policy, setting: settingOf(site, form, policy), headings: headingsFor(site, rig), result: fitSite(site, rig, policy) };
}

/** Every rig on every `stride`-th site, starting elsewhere for each. */
export function everySoOften(stride: number, sites: readonly Site[], rigs: readonly Rig[], policy: Policy): Question[] {
  return rigs.flatMap((rig, i) => sites.filter((_, j) => (i + j) % stride === 0).map((site) => ask(site, rig, policy)));
}

export const VERDICTS = ["fits", "gear", "no"] as const;

/** "fits 7, gear 6, no 7". */
export function mixOf(questions: readonly Question[]): string {
  return VERDICTS.map((verdict) => `${verdict} ${questions.filter(({ result }) => result.verdict === verdict).length.toLocaleString("en-US")}`).join(", ");
}

/** How many of each verdict a sweep is run over: enough of each to see that it finds what there is, and nothing else. */
const MIX = { fits: 7, gear: 6, no: 7 } as const;
const QUICK_MIX = { fits: 2, gear: 2, no: 2 } as const;

/**
 * Sites for a sweep, each with one rig, drawn by seed. Only what poses decide: rules and slope leave the question open
 * and there are positions to look at, so that a `no` is not answered without sweeping.
 */
export function sampleForSweep(sites: readonly Site[], rigs: readonly Rig[], policy: Policy, seed: number, quick: boolean): Question[] {
  const r = randomFrom(seed), mix: Record<string, number> = quick ? QUICK_MIX : MIX;
  const left = new Map(Object.entries(mix));
  const taken = new Set<Site>();
  const sample: Question[] = [];
  const wanted = Object.values(mix).reduce((sum, n) => sum + n, 0);
  for (let draws = 0; sample.length < wanted && draws < 20_000; draws++) {
    const site = sites[Math.floor(r.next() * sites.length)]!, rig = rigs[Math.floor(r.next() * rigs.length)]!;
    if (taken.has(site)) continue;
    const question = ask(site, rig, policy);
    const { verdict } = question.result;
    const more = left.get(verdict) ?? 0;
    if (more === 0 || !posesDecide(question)) continue;
    left.set(verdict, more - 1);
    taken.add(site);
    sample.push(question);
  }
  return sample;
}

/** Rules and slope leave the question open, and there are positions to look at. */
export function posesDecide({ setting, headings }: Question): boolean {
  return allowedFor(setting).gear && headings.some((heading) => sweptSpan("x", setting, heading) !== null && sweptSpan("y", setting, heading) !== null);
}
