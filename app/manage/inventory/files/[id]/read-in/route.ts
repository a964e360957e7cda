import { answering } from "@/app/api/answering";
import { isSameOrigin } from "@/app/api/origin";
import { staffActorOf } from "../../../../../staff-session";
import type { ReadInLine } from "../../../follow-read-in";
import { readIn } from "../../../read-in";

export const dynamic = "force-dynamic";

/** The form's fields: a reason of 300 characters and a digest. Bytes. */
const MOST = 20_000;

/**
 * Reads an upload in and tells how far it is: a line of JSON, `{ "done", "of" }`, after each part of the sites, and at its end `{ "to" }`, the address
 * that says what came of it. Goes on when the one who asked goes: half an inventory is never left, and a whole one need not be watched. For managers.
 */
export const POST = answering(async (request: Request, { params }: { readonly params: Promise<{ id: string }> }) => {
  const { id } = await params, here = `/manage/inventory/files/${encodeURIComponent(id)}`, actor = await staffActorOf(request);
  if (!isSameOrigin(request)) return new Response(null, { status: 403 });
  if (!actor) return linesOf(async () => `/sign-in?next=${encodeURIComponent(here)}`);
  if (actor.kind !== "manager") return linesOf(async () => "/for-managers");
  const fields = await readFields(request);
  if (!fields) return new Response(null, { status: 400 });
  return linesOf((tell) => readIn(actor, { id, ...fields }, (done, of) => tell({ done, of })));
});

/** Null where the body is cut off, too long, or no form. */
async function readFields(request: Request): Promise<{ seen: string; why: string } | null> {
  if (Number(request.headers.get("content-length")) > MOST) return null;
  try {
    const form = await request.formData();
    return { seen: String(form.get("seen") ?? ""), why: String(form.get("why") ?? "") };
  } catch {
    return null;
  }
}

/** The answer, line by line, ending with where `work` leads. Nobody hearing it any more is no reason to stop. */
function linesOf(work: (tell: (line: ReadInLine) => void) => Promise<string>): Response {
  const encoder = new TextEncoder();
  let heard = true;
  const body = new ReadableStream<Uint8Array>({
    async start(stream) {
      const tell = (line: ReadInLine) => { if (heard) stream.enqueue(encoder.encode(`${JSON.stringify(line)}\n`)); };
      try {
        tell({ to: await work(tell) });
        if (heard) stream.close();
      } catch (error) {
        if (heard) stream.error(error);
      }
    },
    cancel() {
      heard = false;
    },
  });
  return new Response(body, { headers: { "content-type": "application/x-ndjson; charset=utf-8", "cache-control": "no-store, no-transform", "x-accel-buffering": "no" } });
}
