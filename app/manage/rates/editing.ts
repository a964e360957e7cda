import type { Draft } from "./draft";

/** A review in words, as it is shown. */
export interface ReviewShown {
  readonly lines: readonly string[];
  readonly note: string;
  readonly samples: readonly { readonly key: string; readonly hookups: string; readonly when: string; readonly prices: readonly { readonly before: string; readonly after: string }[] }[];
  readonly unpriced: readonly string[];
}

/** Where the editing of rates stands: what is typed, what is wrong with it, and what it would change. */
export interface Editing {
  readonly draft: Draft;
  /** The card that is edited; 0 where there was none. */
  readonly basedOn: number;
  readonly faults: Readonly<Record<string, string>>;
  readonly said: string | null;
  readonly review: (ReviewShown & { /** Tells the card that was looked at from every other. */ readonly looked: string }) | null;
}
