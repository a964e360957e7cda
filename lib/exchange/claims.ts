import { compareDates, type Nights } from "@/lib/stays";
import type { Occupant, TakenNights } from "./stays-book";

/** A row of a table that wants a site's nights. */
export interface Claim {
  readonly row: number;
  readonly site: string;
  readonly nights: Nights;
  /** The stay whose nights these are to be instead of those it has; null: a new one. */
  readonly stay: string | null;
}

/** A claim that cannot be met, and who has one of its nights: them, and which nights they have. */
export interface Conflict {
  readonly claim: Claim;
  readonly by: Occupant;
  readonly nights: Nights;
}

/**
 * Every claim that meets somebody who has the site, or another claim, in one night or more: each told once. Leaving and arriving on one day
 * do not meet. What the claiming stays have now stands in nobody's way. One sweep a site, however many there are.
 */
export function findConflicts(claims: readonly Claim[], taken: readonly TakenNights[]): Conflict[] {
  const moving = new Set(claims.flatMap(({ stay }) => stay ?? []));
  const bySite = new Map<string, Entry[]>();
  const enter = (site: string, entry: Entry) => void (bySite.get(site)?.push(entry) ?? bySite.set(site, [entry]));
  for (const claim of claims) enter(claim.site, { nights: claim.nights, claim, by: { kind: "row", row: claim.row } });
  for (const { site, nights, stay, by } of taken) if (bySite.has(site) && !(stay !== null && moving.has(stay))) enter(site, { nights, claim: null, by });
  return [...bySite.values()].flatMap(sweep);
}

interface Entry {
  readonly nights: Nights;
  /** Null: they have it already. */
  readonly claim: Claim | null;
  readonly by: Occupant;
}

/** Goes through a site's nights in order. `unmet` are claims that nobody has met yet: they never meet each other, so they are one at most. */
function sweep(entries: readonly Entry[]): Conflict[] {
  const found: Conflict[] = [];
  let latest: Entry | null = null, unmet: Entry | null = null;
  const tell = ({ claim }: Entry, { by, nights }: Entry) => void found.push({ claim: claim!, by, nights });
  for (const entry of [...entries].sort((a, b) => compareDates(a.nights.arrive, b.nights.arrive) || Number(a.claim !== null) - Number(b.claim !== null))) {
    const before = latest && latest.nights.depart > entry.nights.arrive ? latest : null;
    if (unmet && unmet.nights.depart <= entry.nights.arrive) unmet = null;
    if (before && entry.claim) tell(entry, before);
    else if (entry.claim) unmet = entry;
    else if (unmet) {
      tell(unmet, entry);
      unmet = null;
    }
    if (!latest || entry.nights.depart > latest.nights.depart) latest = entry;
  }
  return found;
}
