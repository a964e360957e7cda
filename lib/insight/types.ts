import type { Policy } from "@/lib/fit/policy";
import type { Bring, Change, LevelResult, NeedResult, Reason, Remedy, Verdict } from "@/lib/fit/types";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";

/**
 * Something of a site that turns a rig away, as a key that can be counted:
 *
 * - `thing:<id>`: an obstacle or a hookup that the rig comes too close to, or lies over;
 * - `pad`, `road`, `lot`: the rig does not stand on the pad, or reaches over an edge;
 * - `rule:<rule>`: a rule of the site; `rule:accessible:kept` where the site is kept for those who need an accessible
 *   one, `rule:accessible:lacking` where it is not accessible;
 * - `missing:<service>`: the site has none; `run:<service>`: its hookup lies too far away;
 * - `power`: no receptacle that takes the plug, or none that carries what has to run;
 * - `fall`: the drain lies too high; `slope`: the pad cannot be leveled for the rig; `vehicle`: there is no place for it;
 * - `inlet:<service>`: the rig itself has no inlet for what it wants;
 * - `kind:<kind>`, `hookup:<kind>`: where sites are counted together, an obstacle or a hookup of that kind.
 */
export type Hindrance = string;

/** What a matrix keeps of one rig on one site. The whole answer is to be had on demand. */
export interface FitCell {
  readonly verdict: Verdict;
  readonly tight: boolean;
  /** What a person would name first; null where nothing stands against it and nothing has to be brought. */
  readonly reason: Reason | null;
  /** How needs and level were met, for the reason's sentence. */
  readonly needs: readonly Pick<NeedResult, "service" | "ok">[];
  readonly level: Pick<LevelResult, "ok">;
  readonly bring: readonly Bring["code"][];
  /** All that turns the rig away, each once; empty unless the verdict is `no`. */
  readonly turnedAwayBy: readonly Hindrance[];
}

/** Every rig on every site: `cells[s][r]` is rig `r` on site `s`. */
export interface FitMatrix {
  readonly sites: readonly Site[];
  readonly rigs: readonly Rig[];
  readonly cells: readonly (readonly FitCell[])[];
}

/** A rig that a site refuses, and what would turn that. */
export interface Refused {
  readonly rig: Rig;
  readonly remedies: readonly Remedy[];
}

/** One change to a site or to what the park allows on it, made for the rig that asks for the most of it. */
export interface Candidate {
  readonly change: Change;
  /** What is asked about then. */
  readonly site: Site;
  readonly policy: Policy;
}

export type LengthVariant = "slides" | "slides-left" | "slides-right" | "no-slides";
