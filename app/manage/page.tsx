import type { Metadata } from "next";
import { catalogueOf } from "@/lib/wording";
import type { Params } from "../components/rig-form/params";
import { partsOf } from "./age";
import { rowsFor, staffContext, type Loop } from "./context";
import { loopsOf } from "./site-rows";
import { SiteTable } from "./site-table";
import styles from "./manage.module.css";

const { pages, staff: { table: words } } = catalogueOf();

export const metadata: Metadata = { title: words.title };

/** Every site as it was measured, in one table. */
export default async function ManagePage({ searchParams }: { readonly searchParams: Promise<Params> }) {
  const [params, context] = await Promise.all([searchParams, staffContext()]);
  if (!context) return <main className={styles.main}><h1>{words.title}</h1><p className={styles.notice}>{words.noPark}</p></main>;
  const { rows, units, today } = rowsFor(context, params);
  return (
    <main className={styles.main}>
      <div className={styles.head}>
        <p className={styles.park}>{context.park.name}</p>
        <h1>{words.title}</h1>
        <p className={styles.lead}>{words.lead}</p>
        <p className={styles.printed}>{words.printed(context.park.name, words.date(partsOf(today)))}</p>
      </div>
      {rows.length === 0 ? <p className={styles.notice}>{words.noSites}</p> : (
        <SiteTable rows={rows} loops={namedLoops(loopsOf(rows), context.loops)} units={units} unitNames={pages.units} namesUnits={units !== context.park.units} />
      )}
    </main>
  );
}

/** "A, Hemlock Hollow": the loops that occur, with their names where the park has given them some. */
function namedLoops(ids: readonly string[], loops: readonly Loop[]): { id: string; name: string }[] {
  return ids.map((id) => {
    const name = loops.find((loop) => loop.id === id)?.name;
    return { id, name: name ? words.loopName(id, name) : id };
  });
}
