import type { Json } from "./cells";
import { guard, writeCsv } from "./csv-text";
import { writeGeoJson } from "./geo-write";
import { rigEntry, type Inventory } from "./inventory";
import { writeJson } from "./json-text";
import { unitsOf } from "./numbers";
import { readOrigin } from "./origin";
import { valueAt } from "./paths";
import { tables, type Column, type Table, type TableName } from "./tables";

export const formats = ["json", "csv", "geojson"] as const;
export type Format = (typeof formats)[number];

export interface WrittenFile {
  readonly name: string;
  readonly text: string;
  /** Sites that are not in it, since they have no place on the park's map. */
  readonly without?: readonly string[];
}

/**
 * The files of an inventory in one format. JSON holds everything; tables hold what is flat; a map holds what has a place, and is empty (null)
 * where the park's record does not say where on earth it lies.
 */
export function writeInventory(inventory: Inventory, format: Format): readonly WrittenFile[] | null {
  if (format === "json") {
    return [
      { name: "park.json", text: writeJson(inventory.park) },
      { name: "sites.json", text: writeJson({ sites: inventory.sites.map(({ record }) => record) }) },
      { name: "rigs.json", text: writeJson({ rigs: inventory.rigs.map(rigEntry) }) },
    ];
  }
  if (format === "csv") return (Object.keys(tables) as TableName[]).map((name) => ({ name: `${name}.csv`, text: writeTable(tables[name], inventory) }));
  const origin = readOrigin(inventory.park);
  if (!origin) return null;
  const { collection, without } = writeGeoJson(inventory.sites.map(({ record }) => record), origin);
  return [{ name: "sites.geojson", text: writeJson(collection), without }];
}

/** One table of an inventory, with a byte order mark, by which spreadsheets know UTF-8. */
export function writeTable(table: Table, inventory: Inventory): string {
  const records = table.of === "site" ? inventory.sites.map(({ record }) => record) : inventory.rigs.map(rigEntry);
  const { list, owner, columns } = table, whole = list === null ? columns : [owner, ...columns];
  const rows = records.flatMap((record) => {
    if (list === null) return [columns.map((column) => cellOf(column, record))];
    const held = valueAt(record, list);
    return Array.isArray(held) ? held.map((thing: Json) => [cellOf(owner, record), ...columns.map((column) => cellOf(column, thing))]) : [];
  });
  return `\uFEFF${writeCsv(whole.map(headerOf), rows)}`;
}

/** As an export writes it: with the unit that records hold. */
export function headerOf({ name, kind }: Column): string {
  return kind.dimension === null ? name : `${name} (${unitsOf[kind.dimension][0].name})`;
}

/** Numbers stand as they are; whatever else could be taken for a formula is made safe. */
function cellOf({ path, kind }: Column, record: Json): string {
  const value = valueAt(record, path), cell = value === undefined ? "" : (kind.write(value) ?? "");
  return typeof value === "number" ? cell : guard(cell);
}
