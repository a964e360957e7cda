import type { Policy } from "@/lib/fit";
import { compareCells, turnOf, turnOfAny, type MaybeCell, type PolicyEffects, type PolicyTurn, type StayUnknown } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { StayAhead } from "@/lib/store/stays-ahead";
import { contentKey } from "./content-key";
import { fitPairs, type MatrixOptions, type PairRow } from "./fit-pairs";
import { keptAnswers } from "./kept-answers";
import { meets } from "./stay-fit";

/** What is asked about: the sites that can be read, the rigs that stand for all others, and the stays to come. */
export interface EffectsAsked {
  readonly sites: readonly Site[];
  readonly typical: readonly Rig[];
  readonly stays: readonly Pick<StayAhead, "id" | "site" | "wanted" | "rig">[];
}

/**
 * What becomes of verdicts and stays when `before` is replaced by `after`, every pair solved under both on the worker threads. One pair that
 * cannot be worked out does not stop the others: it is counted, and its stay named. Throws `RankingStopped` as a matrix does; what was done until
 * then is kept, and the next asker goes on from there.
 */
export async function weighPolicy(asked: EffectsAsked, before: Policy, after: Policy, options: MatrixOptions = {}): Promise<PolicyEffects> {
  const { effects: kept, cellTurns } = keptAnswers();
  const key = keyOf(asked, before, after), known = kept.get(key.all);
  if (known) return known;
  // Stays come and go while somebody looks: the table of typical rigs is not worked out anew for them.
  const knownCells = cellTurns.get(key.cells);
  const work = layOut(knownCells ? { ...asked, typical: [] } : asked);
  const half = work.rows.reduce((sum, { rigs }) => sum + rigs.length, 0);
  const cells: (readonly (readonly MaybeCell[])[])[] = [];
  const began = Date.now();
  for (const [i, policy] of [before, after].entries()) {
    const timeLimit = options.timeLimit === undefined ? {} : { timeLimit: Math.max(1, options.timeLimit - (Date.now() - began)) };
    cells.push(await fitPairs(work.rows, work.rigs, policy, { ...options, ...timeLimit, singly: true, onProgress: ({ done }) => options.onProgress?.({ done: done + i * half, total: 2 * half }) }));
  }
  const turned = knownCells ?? compareCells(cells[0]!, cells[1]!, asked.typical.map((_, r) => r));
  cellTurns.set(key.cells, turned);
  const found = { cells: turned, ...compareStays(asked.stays, work, cells[0]!, cells[1]!) };
  kept.set(key.all, found);
  return found;
}

interface Work {
  readonly rigs: readonly Rig[];
  readonly rows: readonly PairRow[];
  /** Each stay's rig by its place among the rigs, and the rows it may stand on. */
  readonly placed: readonly ({ readonly rig: number; readonly rows: readonly number[] } | { readonly why: StayUnknown })[];
}

/** Every pair that has to be solved, once: the typical rigs on every site, each stay's rig on its site, or on all it may have. */
function layOut({ sites, typical, stays }: EffectsAsked): Work {
  const rigs = [...typical], places = new Map<string, number>();
  const rowOf = new Map(sites.map(({ id }, i) => [id, i]));
  const wanted = sites.map(() => new Set(typical.map((_, r) => r)));
  const placed = stays.map(({ site, wanted: wish, rig }): Work["placed"][number] => {
    if (!rig) return { why: "rig" };
    const row = site === null ? null : rowOf.get(site);
    if (row === undefined) return { why: "site" };
    const key = contentKey(rig);
    const at = places.get(key) ?? rigs.push(rig) - 1;
    places.set(key, at);
    const rows = row === null ? sites.flatMap((one, i) => (meets(one, wish) ? [i] : [])) : [row];
    for (const i of rows) wanted[i]!.add(at);
    return { rig: at, rows };
  });
  return { rigs, rows: sites.map((site, i) => ({ site, rigs: [...wanted[i]!] })), placed };
}

function compareStays(stays: EffectsAsked["stays"], { placed }: Work, before: readonly (readonly MaybeCell[])[], after: readonly (readonly MaybeCell[])[]): Omit<PolicyEffects, "cells"> {
  const turned: { id: string; turn: PolicyTurn }[] = [], notWorkedOut: { id: string; why: StayUnknown }[] = [];
  stays.forEach(({ id, site }, i) => {
    const place = placed[i]!;
    if ("why" in place) { notWorkedOut.push({ id, why: place.why }); return; }
    const [was, is] = [place.rows.map((row) => before[row]![place.rig]), place.rows.map((row) => after[row]![place.rig])];
    if (site !== null && (!was[0] || !is[0])) { notWorkedOut.push({ id, why: "failed" }); return; }
    const turn = site === null ? turnOfAny(was, is) : turnOf(was[0]!, is[0]!);
    if (turn) turned.push({ id, turn });
  });
  return { stays: turned, notWorkedOut, staysAsked: stays.length };
}

/** All that the effects depend on, and all that those on typical rigs do. */
function keyOf({ sites, typical, stays }: EffectsAsked, before: Policy, after: Policy): { readonly all: string; readonly cells: string } {
  const cells = contentKey({ policies: [before, after].map(contentKey), sites: sites.map(contentKey), typical: typical.map(contentKey) });
  return { cells, all: contentKey({ cells, stays: stays.map(({ id, site, wanted, rig }) => [id, site, wanted, rig && contentKey(rig)]) }) };
}
