import type { Paper, PdfCard } from "@/lib/card/pdf";
import { renderCard } from "@/lib/card/pdf";

/** The answer that is the card as a PDF, on the paper that the address asks for, US letter where it names none. */
export async function cardPdf(request: Request, card: Omit<PdfCard, "paper">): Promise<Response> {
  const paper: Paper = new URL(request.url).searchParams.get("paper") === "a4" ? "a4" : "letter";
  const pdf = await renderCard({ ...card, paper });
  if (!pdf) return notFoundPdf();
  return new Response(new Uint8Array(pdf), { headers: { "Content-Type": "application/pdf", "Content-Disposition": `inline; filename="arrival-${card.site.id}.pdf"`, "Cache-Control": "no-store" } });
}

export function notFoundPdf(): Response {
  return new Response("No such card.", { status: 404, headers: { "Content-Type": "text/plain; charset=utf-8" } });
}
