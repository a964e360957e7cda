import type { CancellationStep, IsoDate } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";

/** What the park keeps of the price, by when one cancels. */
export function Terms({ steps, arrive, currency }: { readonly steps: readonly CancellationStep[]; readonly arrive: IsoDate; readonly currency: string }) {
  const { quote: words, terms } = catalogueOf().guestStay;
  return <><h3>{words.terms}</h3><ul>{terms(steps, arrive, currency).map((line) => <li key={line}>{line}</li>)}</ul></>;
}
