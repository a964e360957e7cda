import { readFileSync } from "node:fs";
import postgres from "postgres";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";

/**
 * schema.prisma (from which the typed client is made) and the migrated database (made by our SQL) say the same:
 * columns, types, nullability, defaults, keys, uniques, indexes, foreign keys.
 */

interface Column {
  name: string;
  type: string;
  nullable: boolean;
  default: string | null;
}

interface Table {
  columns: Column[];
  keys: string[];
  foreign: string[];
}

const nativeTypes: Record<string, string> = {
  "@db.Uuid": "uuid",
  "@db.Timestamptz(3)": "timestamp(3) with time zone",
  "@db.Date": "date",
  'Unsupported("daterange")': "daterange",
};
const plainTypes: Record<string, string> = { String: "text", Int: "integer", Json: "jsonb", Boolean: "boolean", BigInt: "bigint", DateTime: "timestamp(3) without time zone" };

function readPrismaSchema(text: string): Map<string, Table> {
  const models = [...text.matchAll(/^model (\w+) \{\n([\s\S]*?)^\}/gm)].map(([, name, body]) => ({ name: name!, lines: body!.split("\n").map((line) => line.trim()) }));
  const tableOf = new Map(models.map(({ name, lines }) => [name, /@@map\("(\w+)"\)/.exec(lines.join("\n"))?.[1] ?? name]));
  const columnsOf = new Map(models.map(({ name, lines }) => [name, readColumnNames(lines)]));
  return new Map(models.map(({ name, lines }) => [tableOf.get(name)!, readModel(lines, tableOf, columnsOf)]));
}

/** The column of each field of a model that has a name of its own for it. */
function readColumnNames(lines: string[]): Map<string, string> {
  return new Map(lines.flatMap((line) => {
    const found = /^(\w+)\s.*@map\("(\w+)"\)/.exec(line);
    return found ? [[found[1]!, found[2]!] as const] : [];
  }));
}

function readModel(lines: string[], tableOf: Map<string, string>, columnsOf: Map<string, Map<string, string>>): Table {
  const table: Table = { columns: [], keys: [], foreign: [] };
  const columnOf = readColumnNames(lines);
  const columns = (list: string, names = columnOf) => list.split(",").map((field) => names.get(field.trim()) ?? field.trim()).join(",");
  for (const line of lines) {
    const field = /^(\w+)\s+(\w+)(\[\])?(\?)?\s*(.*)$/.exec(line);
    const block = /^@@(unique|index|id)\(\[([^\]]+)\]/.exec(line);
    if (block) table.keys.push(`${block[1] === "index" ? "index" : "unique"} ${columns(block[2]!)}`);
    if (!field || line.startsWith("//") || line.startsWith("@@")) continue;
    const [, name, type, list, optional, rest] = field as unknown as [string, string, string, string?, string?, string?];
    const attributes = rest ?? "";
    if (tableOf.has(type)) {
      const relation = /fields: \[([^\]]+)\], references: \[([^\]]+)\](?:, onDelete: (\w+))?/.exec(attributes);
      if (relation && !list) table.foreign.push(`${columns(relation[1]!)} -> ${tableOf.get(type)}(${columns(relation[2]!, columnsOf.get(type))}) on delete ${(relation[3] ?? "Restrict").toLowerCase()}`);
      continue;
    }
    const column = /@map\("(\w+)"\)/.exec(attributes)?.[1] ?? name;
    if (/@id\b/.test(attributes)) table.keys.push(`primary ${column}`);
    if (/@unique\b/.test(attributes)) table.keys.push(`unique ${column}`);
    const native = type === "Unsupported" ? `Unsupported${attributes.split(" ")[0]}` : /@db\.\w+(\(\d+\))?/.exec(attributes)?.[0];
    const known = native ? nativeTypes[native] : plainTypes[type];
    if (!known) throw new Error(`schema.test.ts does not know the type of: ${line}`);
    table.columns.push({ name: column, type: known, nullable: optional === "?", default: readDefault(attributes) });
  }
  return table;
}

function readDefault(attributes: string): string | null {
  const given = /@default\((dbgenerated\("(.*?)"\)|"(.*?)"|now\(\)|[\w.-]+)\)/.exec(attributes);
  if (!given) return null;
  if (given[2] !== undefined) return given[2];
  if (given[3] !== undefined) return `'${given[3]}'`;
  return given[1] === "now()" ? "CURRENT_TIMESTAMP" : given[1]!;
}

let sql: postgres.Sql;
beforeAll(() => {
  sql = postgres(inject("databaseUrl"), { max: 1 });
});
afterAll(() => sql.end());

async function readDatabase(): Promise<Map<string, Table>> {
  const tables = new Map<string, Table>();
  const names = await sql<{ name: string }[]>`
    select table_name as name from information_schema.tables
    where table_schema = 'public' and table_name <> '_prisma_migrations'`;
  for (const { name } of names) {
    tables.set(name, { columns: await readColumns(name), keys: await readKeys(name), foreign: await readForeign(name) });
  }
  return tables;
}

async function readColumns(table: string): Promise<Column[]> {
  const rows = await sql<Column[]>`
    select a.attname as name, format_type(a.atttypid, a.atttypmod) as type, not a.attnotnull as nullable,
           pg_get_expr(d.adbin, d.adrelid) as default
    from pg_attribute a left join pg_attrdef d on d.adrelid = a.attrelid and d.adnum = a.attnum
    where a.attrelid = ${table}::regclass and a.attnum > 0 and not a.attisdropped order by a.attnum`;
  return rows.map((row) => ({ ...row, default: row.default?.replace(/::\w+$/, "") ?? null }));
}

async function readKeys(table: string): Promise<string[]> {
  const rows = await sql<{ primary: boolean; unique: boolean; columns: string }[]>`
    select i.indisprimary as primary, i.indisunique as unique,
           (select string_agg(a.attname, ',' order by k.n)
            from unnest(i.indkey) with ordinality k(attnum, n) join pg_attribute a on a.attrelid = i.indrelid and a.attnum = k.attnum) as columns
    from pg_index i join pg_class c on c.oid = i.indexrelid join pg_am m on m.oid = c.relam
    -- What schema.prisma has no words for is looked at below.
    where i.indrelid = ${table}::regclass and m.amname = 'btree' and i.indpred is null`;
  return rows.map((row) => `${row.primary ? "primary" : row.unique ? "unique" : "index"} ${row.columns}`);
}

async function readForeign(table: string): Promise<string[]> {
  const rows = await sql<{ definition: string }[]>`
    select pg_get_constraintdef(oid) as definition from pg_constraint where conrelid = ${table}::regclass and contype = 'f'`;
  return rows.map(({ definition }) => {
    const [, from, to, columns] = /FOREIGN KEY \((.*?)\) REFERENCES (\w+)\((.*?)\)/.exec(definition)!;
    const onDelete = /ON DELETE (CASCADE|RESTRICT|SET NULL)/.exec(definition)?.[1] ?? "no action";
    return `${from!.replaceAll(" ", "")} -> ${to}(${columns!.replaceAll(" ", "")}) on delete ${onDelete.toLowerCase().replace(" ", "")}`;
  });
}

const sorted = (tables: Map<string, Table>) =>
  Object.fromEntries(
    [...tables].sort(([a], [b]) => a.localeCompare(b)).map(([name, { columns, keys, foreign }]) => [
      name,
      { columns: [...columns].sort((a, b) => a.name.localeCompare(b.name)), keys: [...keys].sort(), foreign: [...foreign].sort() },
    ]),
  );

describe("schema.prisma and the migrations", () => {
  it("describe the same tables", async () => {
    const described = readPrismaSchema(readFileSync("prisma/schema.prisma", "utf8"));
    expect(described.size).toBeGreaterThan(0);
    expect(sorted(await readDatabase())).toEqual(sorted(described));
  });

  it("let no two occupants have one site on one night", async () => {
    const rows = await sql<{ definition: string }[]>`select pg_get_constraintdef(oid) as definition from pg_constraint where contype = 'x'`;
    expect(rows.map(({ definition }) => definition)).toEqual(["EXCLUDE USING gist (site_id WITH =, nights WITH &&)"]);
  });

  it("give every table but the park's own and those of the whole server its park", async () => {
    const others = ["park", "rate_limit", "secret"];
    for (const [name, { columns }] of await readDatabase()) {
      if (!others.includes(name)) expect(columns.find((column) => column.name === "park_id"), name).toMatchObject({ type: "uuid", nullable: false });
    }
  });
});
