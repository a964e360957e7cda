import type { Metadata } from "next";
import { priceFor, type RateCard } from "@/lib/stays";
import { getPark } from "@/lib/store/parks";
import { getStayContext } from "@/lib/store/park-settings";
import { listRates, type SavedCard } from "@/lib/store/rates";
import { listSites } from "@/lib/store/sites";
import { catalogueOf } from "@/lib/wording";
import { manageRates as words } from "@/lib/wording/en/manage-rates";
import { requireManager } from "../../staff-session";
import { changedLines, unpricedSites } from "./compare";
import { classesOf, type PriceClass } from "./draft";
import styles from "./rates.module.css";
import { YearStrip } from "./year-strip";

const { stays } = catalogueOf();
/** So many cards are listed; one more is read, for what the oldest of them changed. */
const mostCards = 20;

export const metadata: Metadata = { title: words.title };

/** What the park asks for, as a person reads it. */
export default async function RatesPage() {
  const { actor } = await requireManager();
  const [cards, sites, park, context] = await Promise.all([listRates(actor, actor.park, mostCards + 1), listSites(actor.park), getPark(actor.park), getStayContext(actor.park)]);
  const [latest] = cards, zone = context?.settings.zone ?? "UTC";
  const unpriced = latest ? unpricedSites(latest.card, sites, context!.today) : [];
  return (
    <main className={styles.main}>
      <p className={styles.park}>{park?.name}</p>
      <h1>{words.title}</h1>
      <p className={styles.lead}>{words.lead}</p>
      <p><a className={styles.button} href="/manage/rates/edit">{latest ? words.change : words.begin}</a></p>
      {!latest ? <p>{words.none}</p> : (
        <>
          <p className={styles.quietly}>{words.number(latest.number, words.moment(latest.at, zone), latest.who)} {words.agreed}</p>
          {unpriced.length > 0 && <div className={styles.warning}><h2>{words.unpricedTitle}</h2><ul>{unpriced.map(({ season, sites: names }) => <li key={season}>{words.unpriced(season, names)}</li>)}</ul><p>{words.unpricedNote}</p></div>}
          <h2>{words.year}</h2>
          <YearStrip card={latest.card} />
          <Prices card={latest.card} />
          <Rest card={latest.card} />
          <History cards={cards} when={(at) => words.moment(at, zone)} />
        </>
      )}
    </main>
  );
}

function Prices({ card }: { readonly card: RateCard }) {
  const columns = [{ id: null, name: words.otherNights }, ...card.seasons.map(({ id, name }) => ({ id, name }))];
  return (
    <>
      <h2 id="nights">{words.prices}</h2>
      <div className={styles.scroll} tabIndex={0} role="region" aria-labelledby="nights">
        <table className={styles.prices}>
          <thead><tr><th scope="col">{words.hookups}</th>{columns.map(({ id, name }) => <th key={id} scope="col">{name}</th>)}</tr></thead>
          <tbody>
            {classesOf(card).map((of) => (
              <tr key={words.classOf(of)}>
                <th scope="row">{words.classOf(of)}</th>
                {columns.map(({ id }) => <td key={id}><Cell card={card} of={of} season={id} /></td>)}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p className={styles.quietly}>{words.pricesNote}</p>
    </>
  );
}

/** What a class asks in a season; where it asks nothing of its own, what its sites pay there all the same. */
function Cell({ card, of, season }: { readonly card: RateCard; readonly of: PriceClass; readonly season: string | null }) {
  const own = of.prices.find((price) => price.season === season), price = own ?? priceFor(card.prices, season, of);
  if (!price) return <span className={styles.quietly}>{words.review.noPrice}</span>;
  if (!own) return <span className={styles.quietly}>{price.season === null && of.prices.includes(price) ? words.asOther : words.asClass(stays.money(price.night, card.currency), price, nameOf(card, price.season))}</span>;
  const { night, week, month } = own, { currency } = card;
  return <><strong>{stays.money(night, currency)}</strong>{week !== null && <span>{words.perWeek(stays.money(week, currency))}</span>}{month !== null && <span>{words.perMonth(stays.money(month, currency))}</span>}</>;
}

function nameOf({ seasons }: RateCard, season: string | null): string {
  return seasons.find(({ id }) => id === season)?.name ?? words.otherNights.toLowerCase();
}

function Rest({ card }: { readonly card: RateCard }) {
  const parts: [string, readonly string[]][] = [
    [words.least, [words.leastOf(null, card.minNights), ...card.seasons.filter(({ minNights }) => minNights > card.minNights).map(({ name, minNights }) => words.leastOf(name, minNights))]],
    [words.longStays, card.longStay.map(words.longStay)],
    [words.extras, (["vehicle", "person", "pet"] as const).map((kind) => words.extra(card, kind)).filter((line) => line !== null)],
    [words.fees, card.fees.map((fee) => words.fee(fee, card.currency))],
    [words.taxes, card.taxes.map(words.tax)],
    [words.depositTitle, [words.deposit(card)]],
  ];
  return (
    <>
      <h2>{words.rest}</h2>
      <dl className={styles.rest}>{parts.map(([title, lines]) => <div key={title}><dt>{title}</dt>{(lines.length > 0 ? lines : [words.noneOf]).map((line) => <dd key={line}>{line}</dd>)}</div>)}</dl>
      <p className={styles.quietly}>{stays.rounding}</p>
    </>
  );
}

function History({ cards, when }: { readonly cards: readonly SavedCard[]; readonly when: (at: number) => string }) {
  return (
    <>
      <h2>{words.history}</h2>
      {cards.slice(0, mostCards).map(({ number, at, who, card }, i) => {
        const before = cards[i + 1], lines = before ? changedLines(before.card, card) : [];
        return (
          <details key={number} className={styles.past}>
            <summary>{words.historyEntry(number, when(at), who)}</summary>
            {lines.length > 0 ? <ul>{lines.map((line) => <li key={`${line.before} ${line.after}`}>{words.was(line.before, line.after)}</li>)}</ul> : <p>{number === 1 ? words.first : words.same}</p>}
          </details>
        );
      })}
      {cards.length > mostCards && <p className={styles.quietly}>{words.older(mostCards)}</p>}
    </>
  );
}
