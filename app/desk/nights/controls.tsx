import { addDays, type IsoDate } from "@/lib/stays";
import { catalogueOf } from "@/lib/wording";
import styles from "./nights.module.css";

const { nights: words } = catalogueOf();

interface ControlsProps {
  readonly from: IsoDate;
  readonly today: IsoDate;
  readonly weeks: number;
  readonly zooms: readonly number[];
  readonly loop: string;
  readonly text: string;
  readonly loops: readonly { readonly id: string; readonly name?: string | undefined }[];
  readonly asTable: boolean;
  /** How many weeks earlier and later go. */
  readonly step: number;
}

/** From when, how far, which sites: all of it in the address. */
export function Controls({ from, today, weeks, zooms, loop, text, loops, asTable, step }: ControlsProps) {
  const href = (date: IsoDate, view = asTable) => `/desk/nights?${new URLSearchParams({ from: date, weeks: String(weeks), ...(loop ? { loop } : {}), ...(text ? { q: text } : {}), ...(view ? { view: "table" } : {}) })}`;
  return (
    <div className={styles.controls}>
      <form action="/desk/nights" className={styles.form}>
        <label>{words.from}<input type="date" name="from" defaultValue={from} /></label>
        <label>{words.weeks}<select name="weeks" defaultValue={String(weeks)}>{zooms.map((zoom) => <option key={zoom} value={zoom}>{zoom}</option>)}</select></label>
        <label>{words.loop}<select name="loop" defaultValue={loop}><option value="">{words.everyLoop}</option>{loops.map(({ id, name }) => <option key={id} value={id}>{name ? `${id} · ${name}` : id}</option>)}</select></label>
        <label>{words.find}<input name="q" defaultValue={text} size={12} /></label>
        {asTable && <input type="hidden" name="view" value="table" />}
        <button type="submit">{words.show}</button>
      </form>
      <nav className={styles.ways} aria-label={words.from}>
        <a href={href(addDays(from, -7 * step))}>← {words.earlier}</a>
        <a href={href(addDays(today, -1))}>{words.today}</a>
        <a href={href(addDays(from, 7 * step))}>{words.later} →</a>
        <a href={href(from, !asTable)}>{asTable ? words.asLedger : words.asTable}</a>
      </nav>
    </div>
  );
}
