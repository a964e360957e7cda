import type postgres from "postgres";
import { Fault } from "../fault";
import type { Sequences } from "./format";

/** A table as COPY needs to know it. */
export interface Table {
  readonly name: string;
  /** All that hold something: generated ones are made again. */
  readonly columns: readonly string[];
  /** The SQL by which its rows are put into an order that is the same on every server. */
  readonly order: string;
}

interface Found {
  readonly name: string;
  readonly columns: string[];
  readonly key: { readonly column: string; readonly isText: boolean }[] | null;
  readonly refersTo: string[];
}

/** The table in which the history of migrations stands. It is made by migrating and not copied. */
const historyTable = "_prisma_migrations";

/** The tables of the database, extensions' own apart; what is referred to comes before what refers to it. */
export async function readTables(sql: postgres.ReservedSql): Promise<Table[]> {
  const found = await sql<Found[]>`
    select c.relname as name,
      (select array_agg(a.attname order by a.attnum) from pg_attribute a
        where a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped and a.attgenerated = '') as columns,
      (select json_agg(json_build_object('column', a.attname, 'isText', a.attcollation <> 0) order by k.n)
        from pg_index i, unnest(i.indkey) with ordinality k(attnum, n), pg_attribute a
        where i.indrelid = c.oid and i.indisprimary and a.attrelid = c.oid and a.attnum = k.attnum) as key,
      coalesce((select array_agg(distinct p.relname) from pg_constraint f join pg_class p on p.oid = f.confrelid
        where f.conrelid = c.oid and f.contype = 'f' and p.oid <> c.oid), '{}') as "refersTo"
    from pg_class c
    where c.relnamespace = (select oid from pg_namespace where nspname = current_schema()) and c.relkind = 'r' and c.relname <> ${historyTable}
      and not exists (select 1 from pg_depend d where d.classid = 'pg_class'::regclass and d.objid = c.oid and d.deptype = 'e')
    order by c.relname`;
  return inOrder(found.filter(({ columns }) => columns)).map(({ name, columns, key }) => ({ name, columns, order: orderBy(key) }));
}

/** Where every sequence stands. Read after the rows: a number may be left out, none comes twice. */
export async function readSequences(sql: postgres.ReservedSql): Promise<Sequences> {
  const names = await sql<{ name: string }[]>`
    select c.relname as name from pg_class c
    where c.relnamespace = (select oid from pg_namespace where nspname = current_schema()) and c.relkind = 'S'
      and not exists (select 1 from pg_depend d where d.classid = 'pg_class'::regclass and d.objid = c.oid and d.deptype = 'e')
    order by c.relname`;
  const sequences: Sequences = [];
  for (const { name } of names) {
    const [row] = await sql.unsafe<{ lastValue: string; isCalled: boolean }[]>(`select last_value::text as "lastValue", is_called as "isCalled" from ${quoted(name)}`);
    if (row) sequences.push({ name, ...row });
  }
  return sequences;
}

export interface History {
  readonly name: string;
  readonly sha256: string;
}

/** The migrations that the database has had, oldest first; null where it never had any. */
export async function readHistory(sql: postgres.ReservedSql): Promise<History[] | null> {
  const [made] = await sql<{ there: boolean }[]>`select to_regclass(${historyTable}) is not null as there`;
  if (!made?.there) return null;
  return [...(await sql<History[]>`
    select migration_name as name, checksum as sha256 from _prisma_migrations
    where rolled_back_at is null and finished_at is not null order by started_at, migration_name`)];
}

/** An identifier as SQL reads it, whatever is in it. */
export function quoted(name: string): string {
  return `"${name.replaceAll('"', '""')}"`;
}

/** Text is ordered by its bytes: languages order differently from machine to machine. Without a key, whole rows are. */
function orderBy(key: Found["key"]): string {
  if (!key) return 'row_of::text collate "C"';
  return key.map(({ column, isText }) => `${quoted(column)}${isText ? ' collate "C"' : ""}`).join(", ");
}

function inOrder(found: readonly Found[]): Found[] {
  const placed = new Set<string>();
  const order: Found[] = [];
  while (order.length < found.length) {
    const next = found.filter(({ name, refersTo }) => !placed.has(name) && refersTo.every((other) => placed.has(other) || !found.some((table) => table.name === other)));
    if (next.length === 0) throw new Fault(`The tables ${found.filter(({ name }) => !placed.has(name)).map(({ name }) => name).join(", ")} refer to each other in a ring: there is no order in which they could be restored.`);
    for (const table of next) placed.add(table.name);
    order.push(...next);
  }
  return order;
}
