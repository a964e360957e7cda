import type { CancellationStep, IsoDate } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import styles from "./terms.module.css";

interface TermsProps {
  readonly steps: readonly CancellationStep[];
  readonly arrive: IsoDate;
  readonly currency: string;
  readonly today: IsoDate;
}

/** What the park keeps of the price, by when one cancels. */
export function Terms({ steps, arrive, currency, today }: TermsProps) {
  const { quote: words, terms } = catalogueOf().guestStay;
  return <><h3>{words.terms}</h3><ul className={styles.terms}>{terms(steps, arrive, currency, today).map((line) => <li key={line}>{line}</li>)}</ul></>;
}
