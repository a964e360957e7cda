import { fitSite, verdictOf, withAccess, Workspace, type FitResult, type Policy, type Unknown, type Unknowns, type Verdict } from "@/lib/fit";
import { askingFor, cellOf, groundAlone, longestFit, turnsAt, type FitCell, type LengthSteps, type LengthVariant, type LongestFit, type Turn } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { Rig, RigKind } from "@/lib/rig";
import { readEvents as eventsOf, type CalendarText, type EventsRead } from "./calendar-events";
import type { TimedTask } from "./threads";

/** A share of one ranking: some of its sites, all else the same. */
export interface FitShare {
  readonly sites: readonly Site[];
  readonly rig: Rig;
  readonly policy: Policy;
  readonly budget?: number;
  readonly remedies?: boolean;
  readonly unknowns?: Unknowns;
}

/** Some sites with their answers, to which the way in is added. */
export interface AccessShare {
  readonly asked: readonly { readonly site: Site; readonly result: FitResult }[];
  readonly rig: Rig;
  readonly policy: Policy;
  readonly remedies: boolean;
}

/** A share of a matrix: some of its sites, each with the rigs (indices into `rigs`) that are not known on it yet. */
export interface CellShare {
  readonly sites: readonly Site[];
  readonly rigs: readonly Rig[];
  readonly wanted: readonly (readonly number[])[];
  readonly policy: Policy;
}

/** Some sites, each asked about with every rig, for the verdict alone. */
export interface VerdictShare {
  readonly sites: readonly Site[];
  readonly rigs: readonly Rig[];
  readonly policy: Policy;
}

/** The longest rig of one kind on one site, in each of these variants. */
export interface LongestShare {
  readonly site: Site;
  readonly kind: RigKind;
  readonly variants: readonly LengthVariant[];
  readonly steps: LengthSteps;
  readonly policy: Policy;
}

/** Some sites, and the numbers of a rig that nobody has measured. */
export interface TurnShare {
  readonly sites: readonly Site[];
  readonly rig: Rig;
  readonly unknowns: readonly Unknown[];
  readonly policy: Policy;
}

/** Each of these runs in a worker thread. Answers come in the order of what was asked. */
export default function solveShare({ sites, rig, policy, budget, remedies = false, unknowns }: FitShare): FitResult[] {
  return sites.map((site) => fitSite(site, rig, policy, { remedies, ...(unknowns ? { unknowns } : {}), ...(budget === undefined ? {} : { budget }) }));
}

export function solveAccess({ asked, rig, policy, remedies }: AccessShare): FitResult[] {
  return asked.map(({ site, result }) => withAccess({ site, rig, policy }, result, { remedies }));
}

export function solveCells({ sites, rigs, wanted, policy }: CellShare): FitCell[][] {
  return sites.map((site, s) => wanted[s]!.map((r) => cellOf(fitSite(site, rigs[r]!, policy))));
}

export function solveVerdicts({ sites, rigs, policy }: VerdictShare): Verdict[][] {
  const work = new Workspace();
  return sites.map((site) => rigs.map((rig) => verdictOf(site, rig, policy, work)));
}

/** What could be posted: the limit that is posted now is set aside, and no rig asks for a service the site has not. */
export function solveLongest({ site, kind, variants, steps, policy }: LongestShare): LongestFit[] {
  const work = new Workspace(), ground = groundAlone(site);
  const fitsAt = (rig: Rig) => {
    const verdict = verdictOf(ground, askingFor(rig, ground), policy, work);
    return verdict === "fits" || verdict === "gear";
  };
  return variants.map((variant) => longestFit(kind, variant, fitsAt, steps));
}

export function solveTurns({ sites, rig, unknowns, policy }: TurnShare): Turn[][] {
  const work = new Workspace();
  return sites.map((site) => turnsAt(site, rig, unknowns, (at, other) => verdictOf(at, other, policy, work)));
}

/** Not a fit, but as little a thing for the thread that answers requests, and one that may have to be stopped by force. */
export function readEvents({ task, begun }: TimedTask<CalendarText>): EventsRead {
  begun.postMessage("begun");
  return eventsOf(task);
}

export { findWayIn } from "./find-way-in";

export { findWayAsks } from "./find-way-asks";

export { readUpload } from "./read-upload";
