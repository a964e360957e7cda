import { siteSchema, type Site } from "@/lib/park";
import { client } from "./client";
import { inStore } from "./errors";

/** The sites of a park in the park's own order; none where there is no such park. */
export async function listSites(parkSlug: string): Promise<Site[]> {
  const rows = await inStore(() =>
    client().site.findMany({
      where: { park: { slug: parkSlug }, retiredAt: null },
      orderBy: [{ position: "asc" }, { siteId: "asc" }],
      select: { record: true },
    }),
  );
  return rows.map(({ record }) => siteSchema.parse(record));
}

/** The records of a park's sites exactly as they came in, in the park's own order. For handing out again. */
export async function listSiteRecords(parkSlug: string): Promise<unknown[]> {
  const rows = await inStore(() =>
    client().site.findMany({
      where: { park: { slug: parkSlug }, retiredAt: null },
      orderBy: [{ position: "asc" }, { siteId: "asc" }],
      select: { record: true },
    }),
  );
  return rows.map(({ record }) => record);
}

/** The ids of a park's sites in the park's own order. */
export async function listSiteIds(parkSlug: string): Promise<string[]> {
  const rows = await inStore(() =>
    client().site.findMany({ where: { park: { slug: parkSlug }, retiredAt: null }, orderBy: [{ position: "asc" }, { siteId: "asc" }], select: { siteId: true } }),
  );
  return rows.map(({ siteId }) => siteId);
}

/** What the site's post says, by which people know it; its id where it says nothing, or there is no such site. */
export async function getSiteLabel(parkSlug: string, siteId: string): Promise<string> {
  return (await getSiteOnRecord(parkSlug, siteId))?.label ?? siteId;
}

/** One site of a park by its id; null where there is none, or it is out of use. */
export async function getSite(parkSlug: string, siteId: string): Promise<Site | null> {
  const row = await inStore(() =>
    client().site.findFirst({ where: { siteId, park: { slug: parkSlug }, retiredAt: null }, select: { record: true } }),
  );
  return row && siteSchema.parse(row.record);
}

/** One site of a park by its id, in use or not: past stays are still on it. */
export async function getSiteOnRecord(parkSlug: string, siteId: string): Promise<Site | null> {
  const row = await inStore(() =>
    client().site.findFirst({ where: { siteId, park: { slug: parkSlug } }, select: { record: true } }),
  );
  return row && siteSchema.parse(row.record);
}
