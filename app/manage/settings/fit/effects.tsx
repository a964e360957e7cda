import { turns, typicalColumns, type PolicyEffects, type PolicyTurn } from "@/lib/insight";
import type { Units } from "@/lib/measure/parse";
import type { StayAhead } from "@/lib/store/stays-ahead";
import { catalogueOf, formatLength, unbroken } from "@/lib/wording";
import type { EffectsContext } from "./context";
import styles from "../settings.module.css";

const { settings: { effects: words }, stays: stayWords, things, tag } = catalogueOf();

interface EffectsProps {
  readonly effects: PolicyEffects;
  readonly over: EffectsContext;
  readonly units: Units;
}

/** The stays that would change, since each is somebody's; then the verdicts of typical rigs, site by site. */
export function Effects(props: EffectsProps) {
  return <><StayEffects {...props} /><CellEffects {...props} /></>;
}

function StayEffects({ effects: { stays, staysAsked, notWorkedOut }, over, units }: EffectsProps) {
  const byId = new Map(over.asked.stays.map((stay) => [stay.id, stay]));
  const labels = new Map(over.sites.map((site) => [site.id, site.label ?? site.id]));
  const item = (id: string, why?: string) => { const stay = byId.get(id); return stay && <li key={id}><StayLine stay={stay} labels={labels} units={units} />{why && <> {why}.</>}</li>; };
  return (
    <div className={styles.effects}>
      <h3>{words.stays}</h3>
      <p role="status">{stays.length === 0 ? words.staysNone(staysAsked) : words.staysSome(stays.length, staysAsked)}</p>
      {turns.map((turn) => {
        const turned = stays.filter((stay) => stay.turn === turn);
        return turned.length > 0 && <div key={turn}><h4>{words.stayTurns[turn]} ({turned.length})</h4><ul className={styles.stays}>{turned.map(({ id }) => item(id))}</ul></div>;
      })}
      {stays.length > 0 && <p className={styles.note}>{words.kept}</p>}
      {notWorkedOut.length > 0 && <div><h4>{words.notWorkedOut} ({notWorkedOut.length})</h4><ul className={styles.stays}>{notWorkedOut.map(({ id, why }) => item(id, words.whys[why]))}</ul></div>}
    </div>
  );
}

function StayLine({ stay: { id, reference, guest, site, nights, rig, state, overridden }, labels, units }: { readonly stay: StayAhead; readonly labels: ReadonlyMap<string, string>; readonly units: Units }) {
  const length = rig && formatLength(rig.body.length + (rig.hitch?.length ?? 0), units, "nearest");
  return (
    <>
      <a href={`/desk/stays/${id}`}>{guest ?? words.nameless}, {reference}</a>: {site === null ? words.anySite : words.site(labels.get(site) ?? site)}, {stayWords.span(nights)}. {stayWords.states[state]}.
      {rig && <> {things.rigKinds[rig.kind]}, {unbroken(length ?? "")}.</>}{overridden && <> ({words.overridden})</>}
    </>
  );
}

function CellEffects({ effects: { cells }, over, units }: EffectsProps) {
  const { changed, counts, asked, notWorkedOut } = cells, grouped = (n: number) => n.toLocaleString(tag);
  return (
    <div className={styles.effects}>
      <h3>{words.cells}</h3>
      <p>{changed.length === 0 ? words.cellsNone(grouped(asked)) : words.cellsSome(grouped(changed.length), grouped(asked))}</p>
      {turns.filter((turn) => counts[turn] > 0).map((turn) => <Turned key={turn} turn={turn} cells={cells} over={over} units={units} />)}
      {notWorkedOut > 0 && <p className={styles.warning}>{words.cellsUnknown(notWorkedOut)}</p>}
      {over.unreadable.length > 0 && <p className={styles.warning}>{words.sitesUnknown(over.unreadable)}</p>}
    </div>
  );
}

/** So many sites are read at a glance; more are opened on demand. */
const openUpTo = 12;

function Turned({ turn, cells: { changed, counts }, over, units }: { readonly turn: PolicyTurn; readonly cells: PolicyEffects["cells"]; readonly over: EffectsContext; readonly units: Units }) {
  const bySite = new Map<number, number[]>();
  for (const cell of changed) if (cell.turn === turn) bySite.set(cell.site, [...(bySite.get(cell.site) ?? []), cell.rig]);
  return (
    <details className={styles.turned} open={bySite.size <= openUpTo || undefined}>
      <summary><strong>{words.cellTurns[turn]}</strong>: {words.pairs(counts[turn])} {words.onSites(bySite.size)}</summary>
      {turn === "unclear" && <p className={styles.note}>{words.unclearHelp}</p>}
      <ul className={styles.sites}>
        {[...bySite].map(([s, rigs]) => { const site = over.sites[s]!; return <li key={site.id}><a href={`/manage/sites/${encodeURIComponent(site.id)}`}>{site.label ?? site.id}</a> <span>{rigsText(rigs, units)}</span></li>; })}
      </ul>
    </details>
  );
}

/** "Travel trailer 28, 31 ft; Van 19 ft": typical rigs by their kinds. */
function rigsText(rigs: readonly number[], units: Units): string {
  const columns = typicalColumns(), byKind = new Map<string, number[]>();
  for (const r of rigs) { const { kind, length } = columns[r]!; byKind.set(things.rigKinds[kind], [...(byKind.get(things.rigKinds[kind]) ?? []), length]); }
  return [...byKind].map(([kind, lengths]) => unbroken(`${kind} ${units === "metric" ? lengths.map((mm) => formatLength(mm, units, "nearest")).join(", ") : words.feet(lengths.map((mm) => Math.round(mm / 304.8)))}`)).join("; ");
}
