"use client";

import { manageRates } from "@/lib/wording/en/manage-rates";
import type { ClassDraft, Draft } from "./draft";
import { Choice, PartFault, Text, Tick } from "./fields";
import styles from "./rates.module.css";

const { form: words, otherNights: otherWord, classOf, night, week, month } = manageRates;

/** As `otherNights` of the draft, which reads schemas and is not for the browser. */
const otherNights = "ALL";

/** The seasons and the days each is from and to. */
export function Seasons({ draft }: { readonly draft: Draft }) {
  return (
    <fieldset className={styles.part}>
      <legend>{words.seasons}</legend>
      <p className={styles.hint}>{words.seasonsHint}</p>
      {draft.seasons.map(({ id, name, minNights, periods }, i) => (
        <div key={id} role="group" aria-label={words.season(name)} className={styles.block}>
          <input type="hidden" name={`card.seasons.${i}.id`} value={id} />
          <div className={styles.row}>
            <Text name={`seasons.${i}.name`} label={words.seasonName} value={name} />
            <Text name={`seasons.${i}.minNights`} label={words.least} value={minNights} short />
            <button type="submit" name="do" value={`remove seasons ${i}`} className={styles.quiet}>{words.remove(name || words.newOne("season"))}</button>
          </div>
          {periods.map(({ first, last }, j) => (
            <div key={j} className={styles.row}>
              <Text name={`seasons.${i}.periods.${j}.first`} label={words.first} value={first} short />
              <Text name={`seasons.${i}.periods.${j}.last`} label={words.last} value={last} short />
              {periods.length > 1 && <button type="submit" name="do" value={`remove seasons ${i} periods ${j}`} className={styles.quiet}>{words.removePeriod}</button>}
            </div>
          ))}
          <PartFault name={`seasons.${i}.periods`} />
          <button type="submit" name="do" value={`add seasons ${i} periods`} className={styles.quiet}>{words.addPeriod}</button>
        </div>
      ))}
      <button type="submit" name="do" value="add seasons" className={styles.quiet}>{words.addSeason}</button>
    </fieldset>
  );
}

/** What nights cost: for each class of hookups a small table of seasons by night, week and month. */
export function Classes({ draft }: { readonly draft: Draft }) {
  const seasons = [[otherNights, otherWord], ...draft.seasons.map(({ id, name }) => [id, name || words.season("")])] as [string, string][];
  return (
    <fieldset className={styles.part}>
      <legend>{words.classes}</legend>
      <p className={styles.hint}>{words.classesHint}</p>
      <PartFault name="classes" />
      {draft.classes.map((of, i) => <ClassBlock key={i} of={of} at={i} seasons={seasons} />)}
      <button type="submit" name="do" value="add classes" className={styles.quiet}>{words.addClass}</button>
    </fieldset>
  );
}

function ClassBlock({ of: { services, amps, cells }, at, seasons }: { readonly of: ClassDraft; readonly at: number; readonly seasons: readonly (readonly [string, string])[] }) {
  const name = classOf({ services, amps: amps === "" ? null : Number(amps) });
  const columns = [["night", night], ["week", week], ["month", month]] as const;
  return (
    <div role="group" aria-label={name} className={styles.block}>
      <div className={styles.row}>
        <Tick name={`classes.${at}.services`} label={words.has} values={services} among={Object.entries(words.serviceNames)} />
        <Choice name={`classes.${at}.amps`} label={words.amps} value={amps} among={[["", words.anyAmps], ...[50, 30, 20, 15].map((one) => [String(one), words.ampsOf(one)] as const)]} />
        <button type="submit" name="do" value={`remove classes ${at}`} className={styles.quiet}>{words.remove(words.classWord)}</button>
      </div>
      <PartFault name={`classes.${at}`} />
      <table className={styles.cells}>
        <caption className={styles.aside}>{name}</caption>
        <thead><tr><td />{columns.map(([key, word]) => <th key={key} scope="col">{word}</th>)}</tr></thead>
        <tbody>
          {seasons.map(([season, word]) => (
            <tr key={season}>
              <th scope="row">{word}</th>
              {columns.map(([key, column]) => <td key={key}><Text name={`classes.${at}.cells.${season}.${key}`} label={column} spoken={words.cell(word, column)} value={cells[season]?.[key] ?? ""} short /></td>)}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
