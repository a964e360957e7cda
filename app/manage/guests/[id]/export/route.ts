import { StoreError } from "@/lib/store/errors";
import { exportGuest } from "@/lib/store/guests-export";
import { catalogueOf } from "@/lib/wording";
import { paramsOf } from "../../../../components/rig-form/params";
import { staffActorOf } from "../../../../staff-session";
import { chosenIn } from "../../chosen";

export const dynamic = "force-dynamic";

const { manageGuests: { inFile } } = catalogueOf();

/** Everything kept with the records ticked, as one file. For managers: 403 for the desk, 401 for who is not signed in. */
export async function GET(request: Request, { params }: { readonly params: Promise<{ id: string }> }): Promise<Response> {
  const actor = await staffActorOf(request);
  if (!actor) return new Response(null, { status: 401 });
  if (actor.kind !== "manager") return new Response(null, { status: 403 });
  const chosen = chosenIn(paramsOf(new URL(request.url).searchParams));
  if (chosen.stays.length + chosen.unmet.length === 0) return new Response(null, { status: 303, headers: { location: `/manage/guests/${encodeURIComponent((await params).id)}?none` } });
  try {
    const made = await exportGuest(actor, actor.park, chosen);
    const reference = made.stays[0]?.["reference"];
    return new Response(`${JSON.stringify({ about: inFile.about, ...made }, null, 2)}\n`, {
      headers: {
        "content-type": "application/json; charset=utf-8",
        "content-disposition": `attachment; filename="${inFile.name(typeof reference === "string" ? reference : null)}"`,
        "cache-control": "no-store",
      },
    });
  } catch (error) {
    if (error instanceof StoreError && error.kind === "missing") return new Response(null, { status: 404 });
    throw error;
  }
}
