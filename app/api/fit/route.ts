import { policySchema, type Policy } from "@/lib/fit";
import { MAX_SITES_WITH_REMEDIES, parseFitRequest, type FitRequest } from "@/lib/fit/request";
import { rankInPool } from "@/lib/jobs/fit-pool";
import type { Site } from "@/lib/park";
import { getPark } from "@/lib/store/parks";
import { listSites } from "@/lib/store/sites";
import { answerOf } from "@/lib/wording/answer";
import { answering } from "../answering";
import { failed, faulty, json, readJson } from "../answers";

/** Sites and a rig in, results out, best first. Nothing is stored. */
export const POST = answering(async (request) => {
  const body = await readJson(request);
  if (!body.ok) return body.answer;
  const parsed = parseFitRequest(body.value);
  if (!parsed.ok) return faulty(parsed.faults);
  const asked = await sitesAskedFor(parsed.request, body.value);
  if (!asked) return failed(404, `There is no park "${parsed.request.park}".`);
  const { rig, units } = parsed.request;
  const results = await rankInPool(asked.sites, rig, asked.policy, { signal: request.signal, unknowns: parsed.unknowns, remedies: asked.sites.length <= MAX_SITES_WITH_REMEDIES, access: true });
  return json(answerOf(results, asked.sites, rig, units));
});

/** The sites sent along, or the stored ones of a park with that park's settings beneath those sent. Null for an unknown park. */
async function sitesAskedFor({ sites, park: slug, policy }: FitRequest, body: unknown): Promise<{ sites: readonly Site[]; policy: Policy } | null> {
  if (slug === undefined) return { sites: sites ?? [], policy };
  const park = await getPark(slug);
  if (!park) return null;
  const sent = (body as { policy?: Record<string, unknown> }).policy ?? {};
  const merged = policySchema.parse({ ...park.policy, ...sent, longest: { ...park.policy.longest, ...(sent.longest as object | undefined) } });
  return { sites: await listSites(slug), policy: merged };
}
