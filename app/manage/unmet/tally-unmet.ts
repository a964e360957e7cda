import { hindrancesOf, type Hindrance } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { UnmetReasons } from "@/lib/store/unmet";

/** Something that stood in the way of requests. */
export interface UnmetShare {
  /** A thing of one site by its own id, `thing:oak`; one that several sites have by its kind, `kind:tree`. See lib/insight. */
  readonly by: Hindrance;
  /** The one site that has such a thing; null where several do, or where it is no thing. */
  readonly site: Site | null;
  /** How many requests it turned away from some site. */
  readonly requests: number;
  /** Of these, how many no site at all took. */
  readonly unfit: number;
  /** The most sites that it turned one request away from. */
  readonly sites: number;
}

export interface UnmetTally {
  readonly requests: number;
  /** How often all of them together were asked. */
  readonly times: number;
  /** Requests for which some site fits: all of them were taken. The others, no site takes. */
  readonly taken: number;
  /** What stood in the way of the most requests first; of equally many, what did so where nothing fits, then by name. */
  readonly shares: readonly UnmetShare[];
}

/** Requests counted by what turned them away. */
export function tallyUnmet(kept: readonly { readonly reasons: UnmetReasons; readonly times: number }[], sites: readonly Site[]): UnmetTally {
  const keyOf = makeKeys(sites);
  const shares = new Map<Hindrance, { site: Site | null; requests: number; unfit: number; sites: number }>();
  for (const { reasons } of kept) {
    for (const { by, site, sites: many } of sharesOf(reasons, keyOf)) {
      const share = shares.get(by) ?? { site, requests: 0, unfit: 0, sites: 0 };
      shares.set(by, { site, requests: share.requests + 1, unfit: share.unfit + (reasons.taken === 0 ? 1 : 0), sites: Math.max(share.sites, many) });
    }
  }
  return {
    requests: kept.length,
    times: kept.reduce((sum, { times }) => sum + times, 0),
    taken: kept.filter(({ reasons }) => reasons.taken > 0).length,
    shares: [...shares].map(([by, share]) => ({ by, ...share })).sort((a, b) => b.requests - a.requests || b.unfit - a.unfit || b.sites - a.sites || (a.by < b.by ? -1 : 1)),
  };
}

/** What turned one request away, the most sites first. */
export function sharesOfOne(reasons: UnmetReasons, sites: readonly Site[]): { readonly by: Hindrance; readonly site: Site | null; readonly sites: number }[] {
  return sharesOf(reasons, makeKeys(sites)).sort((a, b) => b.sites - a.sites || (a.by < b.by ? -1 : 1));
}

type KeyOf = (code: string) => { by: Hindrance; site: Site | null }[];

/**
 * Several codes may be one thing: two parts of a rig that meet the same oak. Then a site may have been counted for each, and the
 * larger number is what is sure.
 */
function sharesOf({ turnedAway }: UnmetReasons, keyOf: KeyOf): { by: Hindrance; site: Site | null; sites: number }[] {
  const found = new Map<Hindrance, { site: Site | null; sites: number }>();
  for (const [code, many] of Object.entries(turnedAway)) {
    for (const { by, site } of keyOf(code)) found.set(by, { site, sites: Math.max(found.get(by)?.sites ?? 0, many) });
  }
  return [...found].map(([by, share]) => ({ by, ...share }));
}

/** What a reason's code stands for, at this park. */
function makeKeys(sites: readonly Site[]): KeyOf {
  const known = new Map<string, { by: Hindrance; site: Site | null }[]>();
  return (code) => {
    const keys = known.get(code) ?? hindrancesOf({ reasons: [{ code, parts: [], short: null }], conflicts: [] }).map((by) => placed(by, sites));
    known.set(code, keys);
    return keys;
  };
}

function placed(by: Hindrance, sites: readonly Site[]): { by: Hindrance; site: Site | null } {
  if (!by.startsWith("thing:")) return { by, site: null };
  const id = by.slice("thing:".length);
  const having = sites.filter((site) => site.obstacles.some((o) => o.id === id) || site.hookups.some((h) => h.id === id));
  const [only] = having;
  if (!only) return { by, site: null };
  if (having.length === 1) return { by, site: only };
  const obstacle = only.obstacles.find((o) => o.id === id);
  return { by: obstacle ? `kind:${obstacle.kind}` : `hookup:${only.hookups.find((h) => h.id === id)!.kind}`, site: null };
}
