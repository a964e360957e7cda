import { occupyingStates, type Nights } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";

/**
 * How many stays for any site that fits share a night with these and have none yet. They occupy nothing, and each will need
 * a site: who offers one more counts them off what is free. A number alone: it tells of nobody.
 */
export async function countUnassigned(parkSlug: string, { arrive, depart }: Nights): Promise<number> {
  const [row] = await inStore(() => client().$queryRaw<{ many: number }[]>`
    select count(*)::int as many from stay
    where park_id = (select id from park where slug = ${parkSlug}) and site_id is null and state = any(${[...occupyingStates]})
      and daterange(arrive, depart) && daterange(${arrive}::date, ${depart}::date)
      and (held_until is null or held_until > clock_timestamp())`);
  return row?.many ?? 0;
}
