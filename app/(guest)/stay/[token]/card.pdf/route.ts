import { cardPdf, notFoundPdf } from "../../../../card-pdf";
import { linkBase } from "../../../../link-base";
import { readStayOf } from "../read-stay";

/** The arrival card of a guest's stay on paper. */
export async function GET(request: Request, { params }: { readonly params: Promise<{ token: string }> }): Promise<Response> {
  const { token } = await params;
  const data = await readStayOf(token);
  if (!data?.site || !data.result || data.stay.state === "cancelled") return notFoundPdf();
  const { site, result, stay, park, context } = data;
  return cardPdf(request, { site, rig: stay.rig, result, units: park.units, lends: context.settings.lends, park: park.name, address: `${linkBase(request.headers)}/stay/${token}/card` });
}
