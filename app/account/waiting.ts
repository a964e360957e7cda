import { getStayContext } from "@/lib/store/park-settings";
import { getDefaultPark } from "@/lib/store/parks";
import { catalogueOf } from "@/lib/wording";

/** The zone of the clock on the wall of the park; UTC where no park is loaded. */
export async function parkZone(slug?: string): Promise<string> {
  const park = slug ?? (await getDefaultPark())?.slug;
  return (park && (await getStayContext(park))?.settings.zone) || "UTC";
}

/** How many minutes are left until `until`, and what the park's clock says then. */
export async function waitUntil(until: Date, slug?: string): Promise<[minutes: number, clock: string]> {
  const minutes = Math.max(1, Math.ceil((until.getTime() - Date.now()) / 60_000));
  return [minutes, catalogueOf().accounts.clock(until, await parkZone(slug))];
}
