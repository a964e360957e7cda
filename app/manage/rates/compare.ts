import { addDays, hookupsOf, priceFor, quoteStay, seasonOf, type Hookups, type IsoDate, type Nights, type QuoteOutcome, type RateCard } from "@/lib/stays";
import type { Site } from "@/lib/park";
import { manageRates as words } from "@/lib/wording/en/manage-rates";

/** One stay priced by two cards. */
export interface Sample {
  readonly hookups: Hookups;
  /** The season's name; null for nights of none. */
  readonly season: string | null;
  readonly nights: Nights;
  readonly before: QuoteOutcome | null;
  readonly after: QuoteOutcome;
}

/** What a new card changes. */
export interface Review {
  /** What the card says otherwise, in words. */
  readonly lines: readonly { readonly before: string | null; readonly after: string | null }[];
  /** Stays of two and seven nights whose price changes. */
  readonly samples: readonly Sample[];
  /** Of how many that were priced. */
  readonly priced: number;
  readonly unpriced: readonly Unpriced[];
}

/** Sites that a card has no price for, in a season or (null) outside any. */
export interface Unpriced {
  readonly season: string | null;
  readonly sites: readonly string[];
}

const sampleNights = [2, 7];
/** Two adults with one vehicle: the extras differ with who comes, the lines of the card tell how. */
const party = { persons: 2, vehicles: 1, pets: 0 };

/** What saving `after` would change for the park's sites, from `today` on. */
export function review(before: RateCard | null, after: RateCard, sites: readonly Site[], today: IsoDate): Review {
  const samples = hookupClasses(sites).flatMap((hookups) => stretches(after, today).flatMap(({ season, first }) => sampleNights.map((count): Sample => {
    const ask = { nights: { arrive: first, depart: addDays(first, count) }, hookups, party };
    return { hookups, season, nights: ask.nights, before: before && quoteStay(before, ask), after: quoteStay(after, ask) };
  })));
  return { lines: changedLines(before, after), samples: samples.filter(isChanged), priced: samples.length, unpriced: unpricedSites(after, sites) };
}

/** What a card says otherwise than another, line by line. */
export function changedLines(before: RateCard | null, after: RateCard): Review["lines"] {
  const [old, now] = [before ? words.linesOf(before) : new Map<string, string>(), words.linesOf(after)];
  const keys = [...new Set([...old.keys(), ...now.keys()])];
  return keys.filter((key) => old.get(key) !== now.get(key)).map((key) => ({ before: old.get(key) ?? null, after: now.get(key) ?? null }));
}

/** The sites of a park that a card leaves without a price, by season. */
export function unpricedSites(card: RateCard, sites: readonly Site[]): Unpriced[] {
  return [null, ...card.seasons].flatMap((season) => {
    const without = sites.filter((site) => priceFor(card.prices, season?.id ?? null, hookupsOf(site)) === null);
    return without.length > 0 ? [{ season: season?.name ?? null, sites: without.map(({ id, label }) => label ?? id) }] : [];
  });
}

/** The different hookups that sites have, fewest first. */
function hookupClasses(sites: readonly Site[]): Hookups[] {
  const classes = new Map(sites.map(hookupsOf).map((hookups) => [`${hookups.services.join("+")} ${hookups.amps ?? ""}`, hookups]));
  return [...classes.values()].sort((a, b) => a.services.length - b.services.length || (a.amps ?? 0) - (b.amps ?? 0));
}

const longestSample = Math.max(...sampleNights);
/** Seasons are looked for this far ahead: a season of every year has come by then. */
const horizon = 800;

/** For every season, and for nights of none, the first night from tomorrow on after which the longest sample still lies in it. */
function stretches(card: RateCard, today: IsoDate): { readonly season: string | null; readonly first: IsoDate }[] {
  return [null, ...card.seasons].flatMap((season) => {
    let run = 0;
    for (let i = 1, night = addDays(today, 1); i <= horizon; i += 1, night = addDays(night, 1)) {
      run = (seasonOf(night, card.seasons)?.id ?? null) === (season?.id ?? null) ? run + 1 : 0;
      if (run === longestSample) return [{ season: season?.name ?? null, first: addDays(night, 1 - longestSample) }];
    }
    return [];
  });
}

function isChanged({ before, after }: Sample): boolean {
  return JSON.stringify(before && outcomeOf(before)) !== JSON.stringify(outcomeOf(after));
}

function outcomeOf(outcome: QuoteOutcome): unknown {
  return outcome.ok ? [outcome.quote.currency, outcome.quote.total, outcome.quote.deposit] : outcome.faults;
}
