import { cardPdf, notFoundPdf } from "../../../../card-pdf";
import { staffActorOf } from "../../../../staff-session";
import { readStaffCard } from "../read-card";

/** The arrival card of a stay on paper, for the desk to hand over. */
export async function GET(request: Request, { params }: { readonly params: Promise<{ id: string }> }): Promise<Response> {
  const actor = await staffActorOf(request);
  if (!actor) return new Response(null, { status: 401 });
  const card = await readStaffCard(actor, (await params).id);
  return card ? cardPdf(request, card) : notFoundPdf();
}
