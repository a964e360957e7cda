import type { Board, BoardStay } from "@/lib/store/stays-board";
import { catalogueOf } from "@/lib/wording";
import styles from "./nights.module.css";

const { nights: words, stays: stayWords } = catalogueOf();

interface PlainTableProps {
  readonly board: Board;
  readonly sites: readonly { readonly id: string; readonly label: string }[];
  readonly rigOf: (kind: string, length: number) => string;
}

/** Two weeks as a table: without script, for a screen reader, and on paper. */
export function PlainTable({ board, sites, rigOf }: PlainTableProps) {
  const standing = board.stays.filter(({ until }) => until === null || until > board.at);
  const bySite = (id: string | null) => standing.filter(({ site }) => site === id);
  const homeless = bySite(null);
  return (
    <div className={styles.tableFrame} tabIndex={0} role="group" aria-label={words.heading}>
      <table className={styles.table}>
        <caption>{stayWords.span(board.window)}</caption>
        <thead><tr><th scope="col">{words.table.site}</th><th scope="col">{words.table.nights}</th><th scope="col">{words.table.guest}</th><th scope="col">{words.table.state}</th><th scope="col">{words.table.rig}</th></tr></thead>
        <tbody>
          {homeless.map((stay) => <StayLine key={stay.id} site={words.noSite} stay={stay} rig={rigOf(stay.rigKind, stay.rigLength)} />)}
          {sites.flatMap(({ id, label }) => {
            const closures = board.closures.filter(({ site }) => site === id);
            const stays = bySite(id);
            return stays.length + closures.length === 0
              ? [<tr key={id}><th scope="row">{label}</th><td colSpan={4} className={styles.free}>{words.table.free}</td></tr>]
              : [
                  ...stays.map((stay) => <StayLine key={stay.id} site={label} stay={stay} rig={rigOf(stay.rigKind, stay.rigLength)} />),
                  ...closures.map((closure) => <tr key={closure.id}><th scope="row">{label}</th><td>{stayWords.span(closure.nights)}</td><td>{closure.reason}</td><td>{words.states.closed}</td><td /></tr>),
                ];
          })}
        </tbody>
      </table>
    </div>
  );
}

function StayLine({ site, stay, rig }: { readonly site: string; readonly stay: BoardStay; readonly rig: string }) {
  return (
    <tr>
      <th scope="row">{site}</th>
      <td>{stayWords.span(stay.nights)}</td>
      <td><a href={`/desk/stays/${stay.id}`}>{stay.guest ?? words.nameless}</a></td>
      <td>{words.states[stay.state]}</td>
      <td>{rig}</td>
    </tr>
  );
}
