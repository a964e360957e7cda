import { daysBetween, type IsoDate } from "./dates";
import { share, type Minor } from "./money";
import { countNights, type Nights } from "./nights";
import type { AcceptedQuote } from "./quote";
import type { CancellationStep } from "./settings";

/** What cancelling comes to. Noted, not paid: no money moves here. */
export interface CancellationCost {
  /** What the park keeps, at most the price. */
  readonly kept: Minor;
  /** What of the money noted as paid goes back. */
  readonly back: Minor;
  /** What the guest still owes. One of this and `back` is 0. */
  readonly owed: Minor;
  /** The step that applied; null where the park has none. */
  readonly step: CancellationStep | null;
}

/** The terms a stay is canceled under: those agreed to with its first price, else the park's present ones. */
export function termsOf(quotes: readonly Pick<AcceptedQuote, "terms">[], present: readonly CancellationStep[]): readonly CancellationStep[] {
  return quotes.find(({ terms }) => terms !== undefined)?.terms ?? present;
}

/**
 * What the park keeps of `total` when a stay is cancelled on `today`. Of the steps, the one with most days that are all
 * still left before the arrival; exactly so many days before is early enough. After the arrival the step of 0 days applies.
 */
export function costOfCancelling(steps: readonly CancellationStep[], { nights, total, paid, today }: {
  readonly nights: Nights;
  readonly total: Minor;
  readonly paid: Minor;
  readonly today: IsoDate;
}): CancellationCost {
  const left = Math.max(0, daysBetween(today, nights.arrive));
  const step = steps.filter(({ daysBefore }) => daysBefore <= left).sort((a, b) => b.daysBefore - a.daysBefore)[0] ?? null;
  const kept = step ? Math.min(total, keptBy(step.keep, total, countNights(nights))) : 0;
  return { kept, back: Math.max(0, paid - kept), owed: Math.max(0, kept - paid), step };
}

/** So many nights are that part of the whole price, rounded up to the whole unit. */
function keptBy(keep: CancellationStep["keep"], total: Minor, nights: number): Minor {
  switch (keep.kind) {
    case "share":
      return share(total, keep.basisPoints);
    case "nights":
      return Math.ceil((total * Math.min(keep.nights, nights)) / nights);
    case "amount":
      return keep.amount;
  }
}
