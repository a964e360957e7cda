import { cardPdf, notFoundPdf } from "../../../../card-pdf";
import { linkBase } from "../../../../link-base";
import { readCardOf } from "../read-card";

/** The arrival card of a rig on a site on paper. */
export async function GET(request: Request, { params }: { readonly params: Promise<{ id: string }> }): Promise<Response> {
  const { id } = await params;
  const asked = new URL(request.url).searchParams;
  const found = await readCardOf(id, Object.fromEntries([...asked.keys()].map((key) => [key, asked.getAll(key)])));
  if (!found) return notFoundPdf();
  return cardPdf(request, { ...found.card, address: `${linkBase(request.headers)}/sites/${encodeURIComponent(id)}/card?${found.query}` });
}
