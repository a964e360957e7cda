import { guestMayHave } from "@/lib/jobs/stay-fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { countNights } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import type { Asked } from "../context";
import type { Offers } from "../offers";
import { Ranking } from "../ranking";
import { addressOf, type Standpoint } from "./address";
import type { Entry } from "./filters";
import { TakenList } from "./taken-list";
import styles from "./nights.module.css";

/** The entries of an answer for some nights, each kind best first. */
export interface Split {
  /** Fit and are free. */
  readonly offered: readonly Entry[];
  /** Fit, and somebody has one of the nights. */
  readonly taken: readonly Entry[];
  /** Do not fit, whoever has them. */
  readonly refused: readonly Entry[];
}

export function splitFor(entries: readonly Entry[], { isFree }: Pick<Offers, "isFree">): Split {
  const fitting = entries.filter(({ result }) => guestMayHave(result.verdict));
  return {
    offered: fitting.filter(({ site }) => isFree(site.id)),
    taken: fitting.filter(({ site }) => !isFree(site.id)),
    refused: entries.filter(({ result }) => !guestMayHave(result.verdict)),
  };
}

interface ForDatesProps {
  readonly asked: Asked;
  readonly rig: Rig;
  readonly offers: Offers;
  /** Of the entries that pass the filters. */
  readonly split: Split;
  readonly standpoint: Standpoint;
  /** Others can be had: the filters alone leave none. */
  readonly elsewhere: boolean;
}

/** The list for some nights: what can be had, with its price; below it, folded away, what is taken and what does not fit. */
export function ForDates({ asked, rig, offers, split: { offered, taken, refused }, standpoint, elsewhere }: ForDatesProps) {
  const { guestStay: { sites: words } } = catalogueOf();
  const common = { rig, policy: asked.park.policy, standpoint };
  return (
    <>
      {offered.length === 0 && elsewhere && <p className={styles.none}>{words.found(0, taken.length, offers.nights)}</p>}
      <Ranking entries={offered} {...common} priceOf={(site) => priceInWords(offers, site, rig)} />
      {offered.length > 0 && <p className={styles.quiet}>{words.perNight}</p>}
      {taken.length > 0 && <TakenList asked={asked} offers={offers} entries={taken} standpoint={standpoint} />}
      {refused.length > 0 && (
        <details className={styles.fold}>
          <summary>{words.refused(refused.length)}</summary>
          <Ranking entries={refused} {...common} />
        </details>
      )}
    </>
  );
}

/** "$104.86 in all, $52.43 a night", or why there is no price. */
export function priceInWords({ nights, quoteOn }: Offers, site: Site, rig: Rig): string {
  const { guestStay: { sites: words }, stays } = catalogueOf();
  const quote = quoteOn(site, rig);
  if (!quote) return words.noPrice;
  return quote.ok ? words.price(quote.quote.total, quote.quote.currency, countNights(nights)) : quote.faults.map(stays.fault).join(" ");
}

/** For who has no favourite: the desk chooses. */
export function AnyThatFits({ standpoint }: { readonly standpoint: Standpoint }) {
  const { any: words } = catalogueOf().guestStay;
  return <p className={styles.any}>{words.invite} <a href={addressOf("/stay/any", { ...standpoint, picked: [] })}>{words.link}</a></p>;
}
