import { answering } from "@/app/api/answering";
import { paramsOf } from "../../../../components/rig-form/params";
import { staffActorOf } from "../../../../staff-session";
import { getPark } from "@/lib/store/parks";
import { unitsOf } from "../../../../components/rig-form/read";
import { shortParams } from "../read-policy";

/** Where the form goes: answers with the address that holds no more than what was changed. */
export const GET = answering(async (request) => {
  const actor = await staffActorOf(request);
  const params = paramsOf(new URL(request.url).searchParams);
  const park = actor?.kind === "manager" ? await getPark(actor.park) : null;
  if (!park) return redirectTo("/manage/settings/fit");
  const units = unitsOf(params, park.units), short = shortParams(params, units);
  short.set("units", units);
  short.set("based", String(params.based ?? "").slice(0, 9));
  short.set("checked", "yes");
  return redirectTo(`/manage/settings/fit?${short}#found`);
});

/** Relative, so that it holds behind any proxy. */
function redirectTo(location: string): Response {
  return new Response(null, { status: 303, headers: { location, "cache-control": "no-store" } });
}
