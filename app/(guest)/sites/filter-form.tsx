import { Busy } from "../../components/rig-form/busy";
import { catalogueOf } from "@/lib/wording";
import { addressOf, pairsOf, type Standpoint } from "./address";
import { filterNames, isFiltered, leftWith, leftWithout, without, type Dropped, type Entry } from "./filters";
import styles from "./filters.module.css";

interface FilterFormProps {
  readonly entries: readonly Entry[];
  readonly standpoint: Standpoint;
  /** Loops of the park, in its order, with their names. */
  readonly loops: readonly { readonly id: string; readonly name?: string | undefined }[];
  readonly shown: number;
}

/** The form that the ticks of the list belong to as well: one form, two ways to send it. */
export const ANSWER_FORM = "answer-form";

/** What to show and what not: a plain form, so that it works without script and the address holds it. */
export function FilterForm({ entries, standpoint, loops, shown }: FilterFormProps) {
  const { guestSites: { filters: words } } = catalogueOf();
  const { filters } = standpoint, on = isFiltered(filters);
  return (
    <div className={styles.filters}>
      <details className={styles.fold}>
        <summary><span>{words.title}</span>{on && <span className={styles.on}>{words.on(filters.only.length + (filters.loop === null ? 0 : 1))}</span>}</summary>
        <form id={ANSWER_FORM} action="/sites" method="get" className={styles.form}>
          <Kept standpoint={standpoint} />
          <fieldset className={styles.set}>
            <legend>{words.legend}</legend>
            {filterNames.map((name) => (
              <label key={name} className={styles.check}>
                <input type="checkbox" name="only" value={name} defaultChecked={filters.only.includes(name)} />
                <span>{words.names[name]} <span className={styles.left}>{words.left(leftWith(entries, filters, name))}</span></span>
              </label>
            ))}
          </fieldset>
          {loops.length > 1 && <LoopChoice loops={loops} loop={filters.loop} />}
          <Busy className={styles.submit} label={words.submit} busy={words.busy} />
        </form>
      </details>
      {on && <On entries={entries} standpoint={standpoint} shown={shown} />}
    </div>
  );
}

/** The rig and the units go along unseen. The filters are the form's own fields, and so are the ticks. */
function Kept({ standpoint }: { readonly standpoint: Standpoint }) {
  return pairsOf({ ...standpoint, filters: { only: [], loop: null }, picked: [] }).map(([name, value], i) => <input key={`${name} ${i}`} type="hidden" name={name} value={value} />);
}

function LoopChoice({ loops, loop }: { readonly loops: FilterFormProps["loops"]; readonly loop: string | null }) {
  const { guestSites: { filters: words, loop: loopName } } = catalogueOf();
  return (
    <label className={styles.loop}>
      <span>{words.loop}</span>
      <select name="loop" defaultValue={loop ?? ""}>
        <option value="">{words.anyLoop}</option>
        {loops.map(({ id, name }) => <option key={id} value={id}>{loopName(id, name)}</option>)}
      </select>
    </label>
  );
}

/** What is on, each with one tap to drop it; where nothing is left, how many each one keeps out. */
function On({ entries, standpoint, shown }: Omit<FilterFormProps, "loops">) {
  const { guestSites: { filters: words } } = catalogueOf();
  const { filters } = standpoint;
  const nameOf = (dropped: Dropped) => (dropped === "loop" ? `${words.loop} ${filters.loop}` : words.names[dropped]);
  return (
    <div className={shown === 0 ? styles.none : styles.now}>
      <p><b>{shown === 0 ? words.none : words.shown(shown, entries.length)}</b></p>
      <ul>
        {leftWithout(entries, filters).map(({ dropped, left }) => (
          <li key={dropped}>
            {shown === 0 && <span>{words.without(nameOf(dropped), left)} </span>}
            <a className={styles.drop} href={addressOf("/sites", { ...standpoint, filters: without(filters, dropped) })} aria-label={words.drop(nameOf(dropped))}>
              {shown === 0 ? words.dropShort : <>{nameOf(dropped)} <span aria-hidden="true">×</span></>}
            </a>
          </li>
        ))}
        {(filters.only.length + (filters.loop === null ? 0 : 1) > 1) && <li><a className={styles.drop} href={addressOf("/sites", { ...standpoint, filters: { only: [], loop: null } })}>{words.clear}</a></li>}
      </ul>
    </div>
  );
}
