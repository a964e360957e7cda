import { addDays, hookupsOf, priceFor, quoteStay, seasonOf, type Hookups, type IsoDate, type QuoteOutcome, type RateCard } from "@/lib/stays";
import type { Site } from "@/lib/park";
import { manageRates as words } from "@/lib/wording/en/manage-rates";

/** Stays of one class of hookups from one day on, priced by two cards: one for each length in {@link sampleNights}. */
export interface Sample {
  /** What the price that applies asks for; what the site has where none does. */
  readonly hookups: Hookups;
  /** The season's name; null for nights of none. */
  readonly season: string | null;
  /** Where these nights were in another season before: which, null for none. */
  readonly formerly: { readonly season: string | null } | null;
  readonly arrive: IsoDate;
  readonly prices: readonly { readonly before: QuoteOutcome | null; readonly after: QuoteOutcome }[];
}

/** What a new card changes. */
export interface Review {
  /** What the card says otherwise, in words. */
  readonly lines: readonly { readonly before: string | null; readonly after: string | null }[];
  /** Those with a price that changes. */
  readonly samples: readonly Sample[];
  /** How many prices change, and of how many. */
  readonly changed: number;
  readonly priced: number;
  readonly unpriced: readonly Unpriced[];
}

/** Sites that a card has no price for, in a season or (null) outside any. */
export interface Unpriced {
  readonly season: string | null;
  readonly sites: readonly string[];
}

export const sampleNights = [2, 7];
/** Two adults with one vehicle: the extras differ with who comes, the lines of the card tell how. */
const party = { persons: 2, vehicles: 1, pets: 0 };

/** What saving `after` would change for the park's sites, from `today` on. */
export function review(before: RateCard | null, after: RateCard, sites: readonly Site[], today: IsoDate): Review {
  const samples = stretches(before, after, today).flatMap((stretch) => pricedClasses(before, after, sites, stretch).map(({ site, named }): Sample => ({
    hookups: named,
    season: stretch.season?.name ?? null,
    formerly: before && stretch.former?.name !== stretch.season?.name ? { season: stretch.former?.name ?? null } : null,
    arrive: stretch.arrive,
    prices: sampleNights.map((count) => {
      const ask = { nights: { arrive: stretch.arrive, depart: addDays(stretch.arrive, count) }, hookups: site, party };
      return { before: before && quoteStay(before, ask), after: quoteStay(after, ask) };
    }),
  })));
  const prices = samples.flatMap((sample) => sample.prices);
  return { lines: changedLines(before, after), samples: samples.filter((sample) => sample.prices.some(isChanged)), changed: prices.filter(isChanged).length, priced: prices.length, unpriced: unpricedSites(after, sites, today) };
}

/** What a card says otherwise than another, line by line. */
export function changedLines(before: RateCard | null, after: RateCard): Review["lines"] {
  const [old, now] = [before ? words.linesOf(before) : new Map<string, string>(), words.linesOf(after)];
  const keys = [...new Set([...old.keys(), ...now.keys()])];
  return keys.filter((key) => old.get(key) !== now.get(key)).map((key) => ({ before: old.get(key) ?? null, after: now.get(key) ?? null }));
}

/** The sites of a park that a card leaves without a price, by season. A season whose nights have all passed is none. */
export function unpricedSites(card: RateCard, sites: readonly Site[], today: IsoDate): Unpriced[] {
  const coming = new Set(nightsFrom(today).map((night) => seasonOf(night, card.seasons)?.id ?? null));
  return [null, ...card.seasons].filter((season) => coming.has(season?.id ?? null)).flatMap((season) => {
    const without = sites.filter((site) => priceFor(card.prices, season?.id ?? null, hookupsOf(site)) === null);
    return without.length > 0 ? [{ season: season?.name ?? null, sites: without.map(({ id, label }) => label ?? id) }] : [];
  });
}

type CardSeason = RateCard["seasons"][number] | null;

/** Nights in a row that are in one season by the new card, and in one by the card before. */
interface Stretch {
  readonly season: CardSeason;
  readonly former: CardSeason;
  readonly arrive: IsoDate;
}

/**
 * One site's hookups for every price some site has in a season, fewest hookups first, named as the price asks. Sites that
 * share a price but did not before, or will no longer, are told apart.
 */
function pricedClasses(before: RateCard | null, after: RateCard, sites: readonly Site[], { season, former }: Stretch): { readonly site: Hookups; readonly named: Hookups }[] {
  const classes = new Map<string, { site: Hookups; named: Hookups }>();
  for (const site of sites.map(hookupsOf)) {
    const [old, price] = [before && priceFor(before.prices, former?.id ?? null, site), priceFor(after.prices, season?.id ?? null, site)];
    const key = `${old ? before!.prices.indexOf(old) : ""} ${price ? after.prices.indexOf(price) : ""}`;
    if (!classes.has(key)) classes.set(key, { site, named: old && price && hooksOf(old) > hooksOf(price) ? old : (price ?? old ?? site) });
  }
  return [...classes.values()].sort(({ named: a }, { named: b }) => hooksOf(a) - hooksOf(b));
}

/** The order of classes: by services, then by receptacle. */
function hooksOf({ services, amps }: Hookups): number {
  return services.length * 1000 + (amps ?? 0);
}

const longestSample = Math.max(...sampleNights);
/** Seasons are looked for this far ahead: a season of every year has come by then. */
const horizon = 800;

function nightsFrom(today: IsoDate): IsoDate[] {
  return Array.from({ length: horizon }, (_, i) => addDays(today, i));
}

/**
 * For every pair of a new and a former season that some coming night is in, where to begin a stay: the first run of
 * such nights as long as the longest sample, or else the longest run there is.
 */
function stretches(before: RateCard | null, after: RateCard, today: IsoDate): Stretch[] {
  const found = new Map<string, Stretch & { readonly length: number }>();
  let run = { key: "", season: null as CardSeason, former: null as CardSeason, arrive: today, length: 0 };
  for (const night of nightsFrom(addDays(today, 1))) {
    const season = seasonOf(night, after.seasons), former = before && seasonOf(night, before.seasons);
    const key = `${season?.id ?? ""} ${former?.id ?? ""}`;
    run = run.length > 0 && run.key === key ? { ...run, length: run.length + 1 } : { key, season, former, arrive: night, length: 1 };
    if (run.length <= longestSample && run.length > (found.get(key)?.length ?? 0)) found.set(key, run);
  }
  const place = (season: CardSeason) => after.seasons.findIndex(({ id }) => id === season?.id);
  return [...found.values()].sort((a, b) => place(a.season) - place(b.season) || (a.arrive < b.arrive ? -1 : 1));
}

function isChanged({ before, after }: Sample["prices"][number]): boolean {
  return JSON.stringify(before && outcomeOf(before)) !== JSON.stringify(outcomeOf(after));
}

function outcomeOf(outcome: QuoteOutcome): unknown {
  return outcome.ok ? [outcome.quote.currency, outcome.quote.total, outcome.quote.deposit] : outcome.faults;
}
