import type { FitCell } from "./types";

/**
 * What other settings do to one answer:
 *
 * - `shut`: a rig that could come, or might have, finds no place any more; `opened`: one that could not, or of which a
 *   number had to be asked first, can;
 * - `gear-more`: something has to be brought that did not have to be before; `gear-less`: nothing new has to, and something less;
 * - `tighter`, `roomier`: the same verdict, newly marked tight, or no longer;
 * - `unclear`: it now hangs on a measurement, or the search settled it on one side alone. Nothing is claimed then.
 */
export const turns = ["shut", "opened", "gear-more", "gear-less", "tighter", "roomier", "unclear"] as const;
export type PolicyTurn = (typeof turns)[number];

/** What an answer is judged by: the verdict with its mark, and what has to be brought. */
export type Judged = Pick<FitCell, "verdict" | "tight" | "bring">;

/** How `after` differs from `before`; null where a guest would notice nothing. */
export function turnOf(before: Judged, after: Judged): PolicyTurn | null {
  if (before.verdict === after.verdict) return turnWithin(before, after);
  if (before.verdict === "unsettled" || after.verdict === "unsettled" || after.verdict === "ask") return "unclear";
  if (after.verdict === "no") return "shut";
  if (before.verdict === "no" || before.verdict === "ask") return "opened";
  return after.verdict === "gear" ? "gear-more" : "gear-less";
}

function turnWithin(before: Judged, after: Judged): PolicyTurn | null {
  if (before.verdict === "gear") {
    if (after.bring.some((code) => !before.bring.includes(code))) return "gear-more";
    if (before.bring.some((code) => !after.bring.includes(code))) return "gear-less";
  }
  if (before.verdict !== "fits" || before.tight === after.tight) return null;
  return after.tight ? "tighter" : "roomier";
}

/** One pair that is answered otherwise, by its site's and its rig's place in what was asked. */
export interface CellTurn {
  readonly site: number;
  readonly rig: number;
  readonly turn: PolicyTurn;
}

export interface CellTurns {
  readonly changed: readonly CellTurn[];
  readonly counts: Readonly<Record<PolicyTurn, number>>;
  /** Pairs that were asked about. */
  readonly asked: number;
  /** Pairs of them of which one answer or the other could not be worked out. */
  readonly notWorkedOut: number;
}

/** Why nothing is known of a stay: its rig's or its site's record cannot be read, or the engine failed on the two. */
export type StayUnknown = "rig" | "site" | "failed";

/** What other settings would do: to the typical rigs on every site, and to the stays to come. */
export interface PolicyEffects {
  /** Sites by their place in what was asked, rigs by their place among the typical ones. */
  readonly cells: CellTurns;
  /** Stays of which something changes, in the order asked. */
  readonly stays: readonly { readonly id: string; readonly turn: PolicyTurn }[];
  /** Stays that nothing is said of, and why. */
  readonly notWorkedOut: readonly { readonly id: string; readonly why: StayUnknown }[];
  /** Stays asked about, these included. */
  readonly staysAsked: number;
}

/** An answer; null where it could not be worked out; undefined where it was not asked for. */
export type MaybeCell = FitCell | null | undefined;

/** Every pair that is answered otherwise. Rows are sites, columns rigs, the same on both sides; in their order. */
export function compareCells(before: readonly (readonly MaybeCell[])[], after: readonly (readonly MaybeCell[])[], rigs: readonly number[]): CellTurns {
  const counts = Object.fromEntries(turns.map((turn) => [turn, 0])) as Record<PolicyTurn, number>;
  const changed: CellTurn[] = [];
  let asked = 0, notWorkedOut = 0;
  before.forEach((row, site) => {
    for (const rig of rigs) {
      const [was, is] = [row[rig], after[site]?.[rig]];
      asked++;
      if (!was || !is) { notWorkedOut++; continue; }
      const turn = turnOf(was, is);
      if (turn === null) continue;
      changed.push({ site, rig, turn });
      counts[turn]++;
    }
  });
  return { changed, counts, asked, notWorkedOut };
}

/**
 * What becomes of a stay that is for any site that fits, over the sites it may have: `shut` where none is left, `opened` where there was none
 * and is one, `unclear` where what was not worked out decides. Who else is there is not asked.
 */
export function turnOfAny(before: readonly MaybeCell[], after: readonly MaybeCell[]): PolicyTurn | null {
  const [was, is] = [takesAny(before), takesAny(after)];
  if (was === is) return null;
  if (was === "unknown" || is === "unknown") return "unclear";
  return is === "no" ? "shut" : "opened";
}

/** Whether a site with this answer takes a stay that is for any site that fits. */
export function takesStay(cell: MaybeCell): boolean {
  return cell?.verdict === "fits" || cell?.verdict === "gear";
}

function takesAny(cells: readonly MaybeCell[]): "yes" | "no" | "unknown" {
  if (cells.some(takesStay)) return "yes";
  return cells.every((cell) => cell?.verdict === "no") ? "no" : "unknown";
}
