import { bounds } from "@/lib/exchange/bounds";
import { inventory } from "@/lib/wording/en/inventory";

const { in: words } = inventory;

/** Why files could not be taken at all. */
export type Refused = "none" | "too-large" | "too-many" | "broken";

/** The most that may be sent at once, as people say it. */
export const most = `${bounds.bytes / 1_000_000} MB`;

const sentences: Readonly<Record<Refused, string>> = { none: words.none, "too-large": words.tooLarge(most), "too-many": words.tooMany(bounds.files), broken: words.broken };

/** The sentence for what the address says was refused; null where it says nothing of the kind. */
export function refusal(said: string | undefined): string | null {
  return said !== undefined && Object.hasOwn(sentences, said) ? sentences[said as Refused] : null;
}
