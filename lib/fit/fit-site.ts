import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { withAccess } from "./access";
import { allowedBy, answer, DEFAULT_BUDGET, isPossible, prepare } from "./answer";
import { answerUnsure } from "./ask";
import { formOf, type RigForm } from "./form";
import { Workspace } from "./landscapes";
import { withErrors } from "./measured";
import { defaultPolicy, type Policy } from "./policy";
import type { Case } from "./refusal/changes";
import { remediesFor, type Judge } from "./refusal/remedies";
import { orderResults } from "./score";
import { verdictAlone } from "./solve";
import type { FitResult, Verdict } from "./types";
import type { Unknown } from "./unknowns";

export interface FitOptions {
  /** The most cells each search may look at before the question is left open. */
  readonly budget?: number;
  /** Work out, for every `no`, what would turn it. Each is solved anew several times: some tens of answers' worth. */
  readonly remedies?: boolean;
  /** Work out the way in, where it is measured: see `withAccess`. Of many sites only of the first `MOST_WAYS` in their order. */
  readonly access?: boolean;
  /** Numbers that are not known for sure: of the rig, and of the sites by their id. */
  readonly unknowns?: Unknowns;
}

export interface Unknowns {
  readonly rig: readonly Unknown[];
  readonly sites: Readonly<Record<string, readonly Unknown[]>>;
}

/**
 * What may be tried in search of remedies, each trial counting what stands on the site and a base: some eight times what
 * the hardest refusal of the demo park takes. Beyond it nothing more is found to do, so that a site with a thousand
 * things on it is answered in seconds.
 */
const REMEDY_EFFORT = 200_000;
const REMEDY_BASE = 10;

/** Of so many sites, the best, the way in is worked out in a ranking: some tens of milliseconds each. */
export const MOST_WAYS = 100;

/** Ranks the sites for a rig, best first, every site in the answer. Records must have passed their schemas. */
export function rankSites(sites: readonly Site[], rig: Rig, policy: Policy = defaultPolicy, options: FitOptions = {}): FitResult[] {
  const form = formOf(rig), work = new Workspace();
  const ranked = orderResults(sites.map((site) => answerAll(site, form, policy, options, work)));
  if (options.access !== true) return ranked;
  const siteOf = new Map(sites.map((site) => [site.id, site]));
  return orderResults(ranked.map((result, i) => (i < MOST_WAYS ? withAccess({ site: siteOf.get(result.site)!, rig, policy }, result, options) : result)));
}

/** One rig on one site: the verdict, a pose with its room, or why there is none. */
export function fitSite(site: Site, rig: Rig, policy: Policy = defaultPolicy, options: FitOptions = {}): FitResult {
  const result = answerAll(site, formOf(rig), policy, options, new Workspace());
  return options.access === true ? withAccess({ site, rig, policy }, result, options) : result;
}

/** The verdict alone, for those who ask it of many cases: the same as in `fitSite`'s answer, at a fraction of the work. The way in, and errors of measurement, are not looked at. */
export function verdictOf(site: Site, rig: Rig, policy: Policy = defaultPolicy, work: Workspace = new Workspace()): Verdict {
  const { approaches, level, broken } = prepare(site, formOf(rig), policy, DEFAULT_BUDGET, work);
  return verdictAlone(approaches, allowedBy(broken, level));
}

/** The answer, over all that is not known, with what would turn a refusal where that is asked for. */
function answerAll(site: Site, form: RigForm, policy: Policy, options: FitOptions, work: Workspace): FitResult {
  const unknowns = [...(options.unknowns?.rig ?? []), ...(options.unknowns?.sites[site.id] ?? [])];
  if (unknowns.length > 0) {
    return answerUnsure({ site, rig: form.rig, policy }, unknowns, (it) => answer(it.site, formOf(it.rig), it.policy, options, work));
  }
  const it: Case = { site, rig: form.rig, policy };
  return withRemedies(withErrors(it, form, answer(site, form, policy, options, work), work), it, options, work);
}

function withRemedies(result: FitResult, it: Case, options: FitOptions, work: Workspace): FitResult {
  if (options.remedies !== true || result.verdict !== "no") return result;
  const { budget = DEFAULT_BUDGET } = options;
  let left = REMEDY_EFFORT; // counted, not timed: the same question gets the same answer on every machine
  const judge: Judge = {
    possible: (other) => {
      left -= REMEDY_BASE + other.site.obstacles.length + other.site.hookups.length;
      return left >= 0 && isPossible(prepare(other.site, formOf(other.rig), other.policy, budget, work));
    },
    answer: (other) => answer(other.site, formOf(other.rig), other.policy, { budget }, work),
  };
  return { ...result, remedies: remediesFor(it, result, judge) };
}
