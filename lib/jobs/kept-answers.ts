import { LRUCache } from "lru-cache";
import type { AccessAsk } from "@/lib/access";
import type { WayIn } from "@/lib/card/way";
import type { FitResult } from "@/lib/fit";
import type { CellTurns, FitCell, Gain, LongestFit, PolicyEffects, Turn } from "@/lib/insight";

/**
 * Answers that were worked out before, by the content of what was asked. An answer depends on nothing else, so none goes
 * stale: a site that is measured anew is another content, and only it is solved again. Each copy of the application keeps
 * its own; losing them costs time alone.
 */
export interface KeptAnswers {
  readonly results: LRUCache<string, FitResult>;
  readonly cells: LRUCache<string, FitCell>;
  readonly longest: LRUCache<string, readonly LongestFit[]>;
  readonly gains: LRUCache<string, readonly Gain[]>;
  readonly turns: LRUCache<string, readonly Turn[]>;
  readonly ways: LRUCache<string, WayIn>;
  readonly wayAsks: LRUCache<string, readonly AccessAsk[]>;
  readonly effects: LRUCache<string, PolicyEffects>;
  readonly cellTurns: LRUCache<string, CellTurns>;
}

/** Whole results are some 3 kB each, cells some 300 B: about 25 MB of either at most. */
const MOST_RESULTS = 8_000, MOST_CELLS = 80_000, MOST_SITES = 4_000;

/** Some 100 kB each where much changes: what a few managers try out one after the other. */
const MOST_EFFECTS = 40;

/** Some 100 kB each: what is open on some screens, read anew whenever anything of the park changes. */
const MOST_WAYS_KEPT = 150;

/** Where the engine itself is being edited, the same question may have a new answer: then nothing is kept for long. Milliseconds. */
const KEPT_WHILE_EDITING = 20_000;

/** Survives the reloading of modules in development, and is one for the pages and routes of a server. */
const kept = globalThis as typeof globalThis & { padwrightAnswers?: { -readonly [Cache in keyof KeptAnswers]?: KeptAnswers[Cache] } };

export function keptAnswers(): KeptAnswers {
  const caches = (kept.padwrightAnswers ??= {});
  return {
    results: (caches.results ??= new LRUCache({ max: MOST_RESULTS, ...ageing() })),
    cells: (caches.cells ??= new LRUCache({ max: MOST_CELLS, ...ageing() })),
    longest: (caches.longest ??= new LRUCache({ max: MOST_SITES, ...ageing() })),
    gains: (caches.gains ??= new LRUCache({ max: MOST_SITES, ...ageing() })),
    turns: (caches.turns ??= new LRUCache({ max: MOST_RESULTS, ...ageing() })),
    ways: (caches.ways ??= new LRUCache({ max: MOST_WAYS_KEPT, ...ageing() })),
    wayAsks: (caches.wayAsks ??= new LRUCache({ max: MOST_RESULTS, ...ageing() })),
    cellTurns: (caches.cellTurns ??= new LRUCache({ max: MOST_EFFECTS, ...ageing() })),
    effects: (caches.effects ??= new LRUCache({ max: MOST_EFFECTS, ...ageing() })),
  };
}

/** Forgets everything: for measuring what an answer costs when nothing is known. */
export function forgetAnswers(): void {
  for (const cache of Object.values(keptAnswers()) as { clear(): void }[]) cache.clear();
}

function ageing(): { ttl?: number } {
  return process.env.NODE_ENV === "development" ? { ttl: KEPT_WHILE_EDITING } : {};
}
