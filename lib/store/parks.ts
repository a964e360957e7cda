import { policySchema, type Policy } from "@/lib/fit/policy";
import type { Units } from "@/lib/measure";
import { client } from "./client";
import { inStore } from "./errors";
import type { Park as ParkRow } from "./generated/client";

export interface Park {
  readonly slug: string;
  readonly name: string;
  /** What people here measure in. Data is in millimetres all the same. */
  readonly units: Units;
  /** The park's settings, defaults filled in. */
  readonly policy: Policy;
  /** The park's file as it came in: its map, loops and whatever else it carries. */
  readonly record: unknown;
}

/** The park of that slug, or null. */
export async function getPark(slug: string): Promise<Park | null> {
  const row = await inStore(() => client().park.findUnique({ where: { slug } }));
  return row && toPark(row);
}

/** The park shown where none is named: the first that was made. Null in an empty database. */
export async function getDefaultPark(): Promise<Park | null> {
  const row = await inStore(() => client().park.findFirst({ orderBy: [{ createdAt: "asc" }, { slug: "asc" }] }));
  return row && toPark(row);
}

/** The id of a park's own row, by which the database tells of changes; null where there is no such park. */
export async function getParkRowId(slug: string): Promise<string | null> {
  return (await inStore(() => client().park.findUnique({ where: { slug }, select: { id: true } })))?.id ?? null;
}

/** Every park, by name. */
export async function listParks(): Promise<Park[]> {
  const rows = await inStore(() => client().park.findMany({ orderBy: [{ name: "asc" }, { slug: "asc" }] }));
  return rows.map(toPark);
}

function toPark(row: ParkRow): Park {
  return {
    slug: row.slug,
    name: row.name,
    units: row.units === "metric" ? "metric" : "ft-in",
    policy: policySchema.parse(row.policy),
    record: row.record,
  };
}
