import type { Verdict } from "@/lib/fit/types";
import type { Site } from "@/lib/park";
import type { FitCell, FitMatrix, Hindrance } from "./types";

/** One thing, and how many rigs (or sites) it stands against: alone, or with others. */
export interface Share {
  readonly by: Hindrance;
  readonly count: number;
  /** How many of them nothing else stands against. */
  readonly alone: number;
}

/** A row or column of a matrix, counted. */
export interface Tally {
  readonly all: number;
  readonly verdicts: Readonly<Record<Verdict, number>>;
  /** What turns away, the most first; equal ones by name, so that the order is the same every time. */
  readonly turnedAwayBy: readonly Share[];
}

export function tallyOf(cells: readonly FitCell[]): Tally {
  const verdicts: Record<Verdict, number> = { fits: 0, gear: 0, ask: 0, unsettled: 0, no: 0 };
  const shares = new Map<Hindrance, { count: number; alone: number }>();
  for (const { verdict, turnedAwayBy } of cells) {
    verdicts[verdict]++;
    for (const by of turnedAwayBy) {
      const share = shares.get(by) ?? { count: 0, alone: 0 };
      share.count++;
      if (turnedAwayBy.length === 1) share.alone++;
      shares.set(by, share);
    }
  }
  const turnedAwayBy = [...shares].map(([by, share]) => ({ by, ...share })).sort((a, b) => b.count - a.count || b.alone - a.alone || (a.by < b.by ? -1 : 1));
  return { all: cells.length, verdicts, turnedAwayBy };
}

/** What each site turns away: one tally a site, in the matrix' order. */
export function tallySites({ cells }: FitMatrix): Tally[] {
  return cells.map(tallyOf);
}

/** Where each rig is turned away: one tally a rig, in the matrix' order, things by their kind. */
export function tallyRigs(matrix: FitMatrix): Tally[] {
  const general = kindsTallied(matrix);
  return matrix.rigs.map((_, r) => tallyOf(general.map((row) => row[r]!)));
}

/** The cells with things by their kind (`kind:tree`, `hookup:power`): an oak is another one on every site. */
export function kindsTallied({ sites, cells }: FitMatrix): FitCell[][] {
  return cells.map((row, s) => row.map((cell) => ({ ...cell, turnedAwayBy: [...new Set(cell.turnedAwayBy.map((by) => kindOf(by, sites[s]!)))] })));
}

function kindOf(by: Hindrance, site: Site): Hindrance {
  if (!by.startsWith("thing:")) return by;
  const id = by.slice("thing:".length);
  const obstacle = site.obstacles.find((o) => o.id === id);
  if (obstacle) return `kind:${obstacle.kind}`;
  const hookup = site.hookups.find((h) => h.id === id);
  return hookup ? `hookup:${hookup.kind}` : by;
}

/** Indices by how many are turned away, the most first; equal ones keep their order. */
export function byMostTurnedAway(tallies: readonly Tally[]): number[] {
  return tallies.map((_, i) => i).sort((a, b) => tallies[b]!.verdicts.no - tallies[a]!.verdicts.no || a - b);
}

/** Indices by how many are taken in, the most first; equal ones keep their order. */
export function byMostTakenIn(tallies: readonly Tally[]): number[] {
  const takenIn = ({ verdicts }: Tally) => verdicts.fits + verdicts.gear;
  return tallies.map((_, i) => i).sort((a, b) => takenIn(tallies[b]!) - takenIn(tallies[a]!) || tallies[b]!.verdicts.fits - tallies[a]!.verdicts.fits || a - b);
}
