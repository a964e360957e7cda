import type { ReactNode } from "react";
import type { Units } from "@/lib/measure";
import { catalogueOf } from "@/lib/wording";
import { fieldSheet as words } from "@/lib/wording/en/field-sheet";
import { gridHeight } from "./grid-scale";
import { PaperTable, type Column } from "./paper-table";
import type { SheetSite } from "./sheet-site";
import { SketchGrid } from "./sketch-grid";
import styles from "./sheet.module.css";

interface SheetProps {
  readonly sheet: SheetSite;
  readonly park: string;
  readonly units: Units;
}

/** The two pages of one site, in the order one walks: pad, slope, hookups; what stands around, the road, the sketch. */
export function FieldSheet({ sheet, park, units }: SheetProps) {
  return (
    <article className={styles.sheet} aria-label={sheet.label ? words.sheet(sheet.label) : words.blank}>
      <section className={styles.page}>
        <Head sheet={sheet} park={park} page={1} />
        <dl className={styles.who}>{Object.values(words.head).map((name) => <div key={name}><dt>{name}</dt><dd /></div>)}</dl>
        <p className={styles.safety}>{words.safety} {words.writeIn[units]}</p>
        <Pad sheet={sheet} />
        <Slope />
        <Hookups sheet={sheet} />
      </section>
      <section className={styles.page}>
        <Head sheet={sheet} park={park} page={2} />
        <Obstacles sheet={sheet} />
        <Road pullThrough={sheet.pullThrough} />
        <Part number={6} title={words.grid.title}><SketchGrid corners={sheet.corners} extent={sheet.extent} height={gridHeight(sheet.obstacles.length)} units={units} /></Part>
        <div className={styles.notes}><h3>{words.notes}</h3><p /><p /></div>
      </section>
    </article>
  );
}

function Head({ sheet, park, page }: { readonly sheet: SheetSite; readonly park: string; readonly page: 1 | 2 }) {
  return (
    <header className={styles.head}>
      {page === 1 ? <h2>{sheet.label ? words.sheet(sheet.label) : <Blank name={words.blankSheet} />}</h2> : <p className={styles.again}>{sheet.label ? words.sheet(sheet.label) : <Blank name={words.blankSheet} />}</p>}
      <p>{park}{sheet.loop !== null && ` · ${words.ofLoop(sheet.loop)}`}</p>
      <p>{words.part(page)}</p>
    </header>
  );
}

function Blank({ name }: { readonly name: string }) {
  return <>{name} <span className={styles.line} /></>;
}

function Part({ number, title, how, children }: { readonly number: number; readonly title: string; readonly how?: string; readonly children: ReactNode }) {
  return (
    <section className={styles.part}>
      <h3><span className={styles.number}>{number}</span>{title}</h3>
      {how && <p className={styles.how}>{how}</p>}
      {children}
    </section>
  );
}

function Pad({ sheet: { letters } }: { readonly sheet: SheetSite }) {
  const { pad } = words;
  const columns: Column[] = [
    { id: "corner", name: pad.corner, width: "tick" }, { id: "before", name: pad.before, width: "number" }, { id: "a", name: pad.fromA, width: "number" },
    { id: "b", name: pad.fromB, width: "number" }, { id: "inward", name: pad.inward, width: "tick" },
  ];
  // The side from A to B is B’s tape from A, the one from B to C is C’s from B: each is read once.
  const none = (i: number) => (i === 0 ? { before: null, b: null, inward: null } : i === 1 ? { b: null } : {});
  return (
    <Part number={1} title={pad.title} how={pad.how}>
      <div className={styles.beside}>
        <PaperTable caption={pad.title} columns={columns} rows={letters.map((letter, i) => ({ id: letter, name: letter, cells: none(i) }))} />
        <div>
          <CornersSketch />
          <p className={styles.blankLine}>{pad.surface}</p>
        </div>
      </div>
    </Part>
  );
}

/** Which corner has which letter. */
function CornersSketch() {
  const corners = [["A", 14, 78], ["B", 46, 78], ["C", 46, 12], ["D", 14, 12]] as const;
  return (
    <svg className={styles.corners} viewBox="0 0 60 100" role="img" aria-label={words.pad.sketch}>
      <path className={styles.outline} d="M14 78H46V12H14Z" />
      <path className={styles.diagonal} d="M14 78L46 12M46 78L14 12" />
      <path className={styles.roadLine} d="M2 88H58" />
      {corners.map(([letter, x, y]) => <text key={letter} className={styles.cornerLetter} x={x < 30 ? x - 6 : x + 6} y={y + 3} textAnchor="middle">{letter}</text>)}
      <text className={styles.cornerWord} x="30" y="97" textAnchor="middle">{words.grid.road}</text>
    </svg>
  );
}

function Slope() {
  const { slope } = words;
  const columns: Column[] = [
    { id: "where", name: slope.where, width: "word" }, { id: "length", name: slope.length, width: "number" }, { id: "rise", name: slope.rise, width: "number" },
    { id: "high", name: slope.high, width: "number" }, { id: "degrees", name: slope.degrees, width: "number" },
  ];
  return <Part number={2} title={slope.title} how={slope.how}><PaperTable caption={slope.title} columns={columns} rows={slope.rows.map(({ where, ends }) => ({ id: where, name: where, cells: { high: <span className={styles.choose}>{ends}</span> } }))} /></Part>;
}

function Hookups({ sheet }: { readonly sheet: SheetSite }) {
  const { hookups } = words;
  const columns: Column[] = [
    { id: "what", name: hookups.what, width: "word" }, { id: "a", name: hookups.fromA, width: "number" }, { id: "b", name: hookups.fromB, width: "number" }, { id: "road", name: hookups.road, width: "tick" },
    { id: "height", name: hookups.height, width: "some" }, { id: "girth", name: hookups.girth, width: "some" }, { id: "post", name: hookups.postHeight, width: "some" }, { id: "label", name: hookups.label, width: "some" },
  ];
  const rows = sheet.hookups.map((hookup, i) => hookup
    ? { id: `of-${hookup.id}`, name: cap(hookups.name(hookup.kind, hookup.id, hookup.alone)), cells: { label: <span className={styles.choose}>{hookups.labelHint[hookup.kind]}</span> } }
    : { id: `spare-${i}`, name: <span className="visually-hidden">{words.another}</span> });
  return <Part number={3} title={hookups.title} how={hookups.how}><PaperTable caption={hookups.title} columns={columns} rows={rows} /></Part>;
}

function Obstacles({ sheet }: { readonly sheet: SheetSite }) {
  const { obstacles } = words, { things } = catalogueOf();
  const columns: Column[] = [
    { id: "what", name: obstacles.what, width: "word" }, { id: "a", name: obstacles.fromA, width: "number" }, { id: "b", name: obstacles.fromB, width: "number" }, { id: "road", name: obstacles.road, width: "tick" },
    { id: "girth", name: obstacles.girth, width: "some" }, { id: "low", name: obstacles.low, width: "some" }, { id: "top", name: obstacles.top, width: "some" }, { id: "reach", name: obstacles.reach, width: "some" }, { id: "again", name: obstacles.again, width: "some" },
  ];
  const rows = sheet.obstacles.map((known, i) => known
    ? { id: `of-${known.obstacle.id}`, name: cap(things.full({ type: "obstacle", ...known }).replace(/^the /, "")), cells: known.obstacle.kind === "tree" ? {} : { reach: null } }
    : { id: `spare-${i}`, name: <span className="visually-hidden">{words.another}</span> });
  return <Part number={4} title={obstacles.title} how={obstacles.how}><PaperTable caption={obstacles.title} columns={columns} rows={rows} /></Part>;
}

function Road({ pullThrough }: { readonly pullThrough: boolean }) {
  const { road } = words;
  return <Part number={5} title={road.title}><dl className={styles.fields}>{[...road.fields, ...(pullThrough ? [road.farSide] : [])].map((name) => <div key={name}><dt>{name}</dt><dd /></div>)}</dl></Part>;
}

function cap(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
