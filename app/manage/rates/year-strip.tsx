import { addDays, asDate, seasonOf, type IsoDate, type RateCard } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import { manageRates as words } from "@/lib/wording/en/manage-rates";
import styles from "./rates.module.css";

const { months } = catalogueOf().stays.calendar;

/** A leap year, so that every day there is has its place. */
const firstDay = asDate("2028-01-01");
const daysOfYear = 366, width = 732, top = 16, height = 34;

interface Run {
  readonly at: number;
  readonly days: number;
  readonly season: number;
}

/** The seasons of every year on a strip from January to December, told apart by hatching and by name; those of one year alone below it. */
export function YearStrip({ card }: { readonly card: RateCard }) {
  const yearly = card.seasons.map((season) => ({ ...season, periods: season.periods.filter(({ first }) => first.length === 5) }));
  const dated = card.seasons.map((season) => ({ ...season, periods: season.periods.filter(({ first }) => first.length === 10) })).filter(({ periods }) => periods.length > 0);
  const runs = runsOf((date) => yearly.findIndex(({ id }) => id === seasonOf(date, yearly)?.id));
  return (
    <figure className={styles.year}>
      <svg viewBox={`0 0 ${width} 84`} role="img" aria-label={words.yearPicture(yearly.filter(({ periods }) => periods.length > 0).map(({ name, periods }) => words.dated(name, periods)))}>
        <defs>{card.seasons.map((_, i) => <Hatch key={i} at={i} />)}</defs>
        <rect x={.75} y={top} width={width - 1.5} height={height} fill="var(--sheet-bright)" stroke="var(--ink)" strokeWidth={1.5} />
        {runs.map(({ at, days, season }) => <rect key={at} x={2 * at} y={top} width={2 * days} height={height} fill={`url(#season-${season})`} stroke="var(--ink)" strokeWidth={1.5} />)}
        {months.map((name, i) => {
          const x = 2 * dayOf(i);
          return <g key={name}><line x1={x} x2={x} y1={top + height} y2={top + height + 6} stroke="var(--ink)" /><text className={styles.monthWide} x={x + 4} y={68} fontSize={15} fill="var(--ink)">{name.slice(0, 3)}</text><text className={styles.monthNarrow} x={x + 14} y={81} fontSize={30} fill="var(--ink)">{name.slice(0, 1)}</text></g>;
        })}
      </svg>
      <ul className={styles.key}>
        {yearly.map(({ id, name, periods }, i) => periods.length > 0 && <li key={id}><svg viewBox="0 0 28 18" aria-hidden="true"><rect x={.75} y={.75} width={26.5} height={16.5} fill={`url(#season-${i})`} stroke="var(--ink)" strokeWidth={1.5} /></svg> {words.dated(name, periods)}</li>)}
        {dated.map(({ id, name, periods }) => <li key={`dated ${id}`}>{words.dated(name, periods)}</li>)}
      </ul>
    </figure>
  );
}

/** A hatching of its own for each season: another angle, another spacing. */
function Hatch({ at }: { readonly at: number }) {
  const gap = 6 + 2 * (Math.floor(at / 4) % 3);
  return (
    <pattern id={`season-${at}`} width={gap} height={gap} patternUnits="userSpaceOnUse" patternTransform={`rotate(${[45, -45, 90, 0][at % 4]})`}>
      <rect width={gap} height={gap} fill="var(--sheet-bright)" /><line x1={0} x2={0} y1={0} y2={gap} stroke="var(--ink)" strokeWidth={3} />
    </pattern>
  );
}

function dayOf(month: number): number {
  return (Date.UTC(2028, month, 1) - Date.UTC(2028, 0, 1)) / 86_400_000;
}

function runsOf(seasonAt: (date: IsoDate) => number): Run[] {
  const runs: Run[] = [];
  for (let at = 0; at < daysOfYear; at += 1) {
    const season = seasonAt(addDays(firstDay, at)), last = runs.at(-1);
    if (season < 0) continue;
    if (last && last.season === season && last.at + last.days === at) runs[runs.length - 1] = { ...last, days: last.days + 1 };
    else runs.push({ at, days: 1, season });
  }
  return runs;
}
