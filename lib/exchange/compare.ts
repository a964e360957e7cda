import type { CellKind, Json } from "./cells";
import { sameJson, valueAt } from "./paths";
import { tables, type Path, type Table } from "./tables";

/** One thing that differs between two records. */
export interface RecordChange {
  /** What it is in: the record itself, or one of its lists. */
  readonly table: Table["name"];
  /** Which thing of the list, by its id or, where it has none, its number from 1; null: the record itself. */
  readonly thing: string | null;
  /** The column; null: the whole thing came or went, or a part that no table has, which `field` names. */
  readonly column: string | null;
  readonly field: string | null;
  readonly kind: CellKind["takes"] | null;
  readonly before: Json | undefined;
  readonly after: Json | undefined;
}

/** What differs between two sites, or two rigs with their names: by columns, and by name where a part is in no table. */
export function compareRecords(of: "site" | "rig", before: Json, after: Json): RecordChange[] {
  const own = Object.values(tables).filter((table) => table.of === of);
  const whole = own.find(({ list }) => list === null)!, lists = own.filter(({ list }) => list !== null);
  const covered: Path[] = own.flatMap(({ list, columns }) => (list === null ? columns.map(({ path }) => path) : [list]));
  return [
    ...columnChanges(whole, null, before, after),
    ...lists.flatMap((table) => listChanges(table, asList(valueAt(before, table.list!)), asList(valueAt(after, table.list!)))),
    ...restChanges(whole, before, after, covered, []),
  ];
}

function columnChanges({ name, columns }: Table, thing: string | null, before: Json, after: Json): RecordChange[] {
  return columns.flatMap(({ name: column, path, kind }) => {
    const [was, is] = [valueAt(before, path), valueAt(after, path)];
    return sameJson(was ?? null, is ?? null) ? [] : [{ table: name, thing, column, field: null, kind: kind.takes, before: was, after: is }];
  });
}

function listChanges(table: Table, before: readonly Json[], after: readonly Json[]): RecordChange[] {
  const name = (one: Json, i: number) => (table.id ? String(valueAt(one, table.id.path)) : String(i + 1));
  const was = new Map(before.map((one, i) => [name(one, i), one])), is = new Map(after.map((one, i) => [name(one, i), one]));
  const whole = (thing: string, from: Json | undefined, to: Json | undefined): RecordChange => ({ table: table.name, thing, column: null, field: null, kind: null, before: from, after: to });
  return [
    ...[...was].flatMap(([thing, from]) => (is.has(thing) ? [] : [whole(thing, from, undefined)])),
    ...[...is].flatMap(([thing, to]) => {
      const from = was.get(thing);
      if (from === undefined) return [whole(thing, undefined, to)];
      return [...columnChanges(table, thing, from, to), ...restChanges(table, from, to, table.columns.map(({ path }) => path), [], thing)];
    }),
  ];
}

/** Parts that no column holds, such as a site's way in or a note of one's own, told as a whole. */
function restChanges(table: Table, before: Json, after: Json, covered: readonly Path[], at: Path, thing: string | null = null): RecordChange[] {
  const keys = new Set([...keysOf(valueAt(before, at)), ...keysOf(valueAt(after, at))]);
  return [...keys].flatMap((key) => {
    const path = [...at, key], [was, is] = [valueAt(before, path), valueAt(after, path)];
    if (covered.some((one) => one.length === path.length && one.every((part, i) => part === path[i])) || sameJson(was ?? null, is ?? null)) return [];
    if (covered.some((one) => one.length > path.length && path.every((part, i) => part === one[i])) && !Array.isArray(was ?? is)) return restChanges(table, before, after, covered, path, thing);
    if (covered.some((one) => one.length > path.length && path.every((part, i) => part === one[i]))) return [];
    return [{ table: table.name, thing, column: null, field: path.join("."), kind: null, before: was, after: is }];
  });
}

function asList(held: Json | undefined): readonly Json[] {
  return Array.isArray(held) ? held : [];
}

function keysOf(held: Json | undefined): string[] {
  return typeof held === "object" && held !== null && !Array.isArray(held) ? Object.keys(held) : [];
}
