import { wayIn } from "@/lib/jobs/way-in";
import { cardPdf, notFoundPdf } from "../../../../card-pdf";
import { linkBase } from "../../../../link-base";
import { readStayOf } from "../read-stay";

/** The arrival card of a guest's stay on paper. */
export async function GET(request: Request, { params }: { readonly params: Promise<{ token: string }> }): Promise<Response> {
  const { token } = await params;
  const data = await readStayOf(token);
  if (!data?.site || !data.result?.pose || data.stay.state === "cancelled") return notFoundPdf();
  const { site, result, stay, park, context } = data;
  const way = await wayIn({ site, rig: stay.rig, pose: result.pose!, policy: park.policy });
  return cardPdf(request, { site, way, rig: stay.rig, result, units: park.units, lends: context.settings.lends, park: park.name, address: `${linkBase(request.headers)}/stay/${token}/card` });
}
