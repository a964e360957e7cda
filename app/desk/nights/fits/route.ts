import { staffActorOf } from "@/app/staff-session";
import { failed, json } from "@/app/api/answers";
import { answering } from "@/app/api/answering";
import { rankOn } from "@/lib/jobs/stay-fit";
import { getPark } from "@/lib/store/parks";
import { listSites } from "@/lib/store/sites";
import { getStay } from "@/lib/store/stays-change";

/** How the rig of a stay would stand on every site, by verdict: for whoever has it in hand on the ledger. */
export const GET = answering(async (request) => {
  const actor = await staffActorOf(request);
  const park = actor && (await getPark(actor.park));
  if (!actor || !park) return failed(401, "Sign in first.");
  const stay = await getStay(actor, park.slug, new URL(request.url).searchParams.get("stay") ?? "");
  const ids = (await listSites(park.slug)).map(({ id }) => id);
  const results = await rankOn(park, stay.rig, ids, { signal: request.signal });
  return json({ verdicts: Object.fromEntries(results.map(({ site, verdict }) => [site, verdict])) });
});
