import type { QuoteOutcome } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import { manageRates as words } from "@/lib/wording/en/manage-rates";
import type { Review } from "./compare";
import type { ReviewShown } from "./editing";

const { stays } = catalogueOf();

export function reviewInWords({ lines, samples, changed, priced, unpriced }: Review): ReviewShown {
  return {
    lines: lines.map(({ before, after }) => words.was(before, after)),
    note: words.review.samplesNote(changed, priced),
    samples: samples.map(({ hookups, season, formerly, arrive, prices }, i) => {
      const named = words.classOf(hookups), when = words.review.from(season, stays.day(arrive), formerly);
      return { key: `${named} ${when} ${i}`, hookups: named, when, prices: prices.map(({ before, after }) => ({ before: before ? priceOf(before) : words.review.noPrice, after: priceOf(after) })) };
    }),
    unpriced: unpriced.map(({ season, sites }) => words.unpriced(season, sites)),
  };
}

function priceOf(outcome: QuoteOutcome): string {
  return outcome.ok ? stays.money(outcome.quote.total, outcome.quote.currency) : outcome.faults.map((fault) => (fault.code === "no-price" ? words.review.noPrice : stays.fault(fault))).join(" ");
}
