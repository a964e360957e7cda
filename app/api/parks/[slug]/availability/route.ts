import { faultsOf, type Fault } from "@/lib/fit/request";
import { countNights, nightsSchema, type IsoDate } from "@/lib/stays";
import { listAvailability } from "@/lib/store/stays-nights";
import { getStayContext } from "@/lib/store/park-settings";
import { listSiteIds } from "@/lib/store/sites";
import { answering } from "../../../answering";
import { failed, faulty, json } from "../../../answers";
import { noSuchSite } from "../../../stays/refusals";

/** Which sites of a park nobody has for some nights. Nothing about who has the others. */
export const GET = answering(async (request, { params }: { params: Promise<{ slug: string }> }) => {
  const { slug } = await params;
  const context = await getStayContext(slug);
  if (!context) return failed(404, `There is no park "${slug}".`);
  const query = new URL(request.url).searchParams;
  const asked = { arrive: query.get("arrive") ?? undefined, depart: query.get("depart") ?? undefined };
  const read = nightsSchema.safeParse(asked);
  const [wanted, known] = [query.getAll("site"), query.has("site") ? await listSiteIds(slug) : []];
  const unknown = [...new Set(wanted)].filter((id) => !known.includes(id)).map(noSuchSite);
  const faults = [...(read.success ? [] : faultsOf(read.error)), ...pastFault(asked.arrive, context.today), ...unknown];
  if (!read.success || faults.length > 0) return faulty(faults);
  const all = await listAvailability(slug, read.data);
  const sites = wanted.length > 0 ? all.filter(({ id }) => wanted.includes(id)) : all;
  return json({ park: slug, ...read.data, nights: countNights(read.data), free: sites.filter(({ free }) => free).map(({ id }) => id), sites });
});

/** Of two dates as text the smaller is the earlier. What is no date at all is told elsewhere. */
function pastFault(arrive: string | undefined, today: IsoDate): Fault[] {
  return arrive !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(arrive) && arrive < today ? [{ path: "arrive", message: `must be today, ${today}, or later` }] : [];
}
