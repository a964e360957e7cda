import { RankingStopped } from "@/lib/jobs/fit-pool";
import type { MatrixProgress } from "@/lib/jobs/fit-matrix";
import { weighSites } from "@/lib/jobs/site-effects";
import { log } from "@/lib/store/log";
import { staffActorOf } from "../../../../../staff-session";
import { changeContext, effectsAsked } from "../context";

export const dynamic = "force-dynamic";

/** Hundreds of stays for any site, on a park of thousands. */
const timeLimit = 600_000;

/**
 * Works out what the change of `?draft=` means for the stays ahead and tells how far it is: a line of JSON, `{ "done", "total" }`, after each
 * stay, the last with `"complete": true`. Ends when the one who asked goes.
 */
export async function GET(request: Request, { params }: { readonly params: Promise<{ id: string }> }): Promise<Response> {
  const actor = await staffActorOf(request);
  if (!actor) return new Response(null, { status: 401 });
  if (actor.kind !== "manager") return new Response(null, { status: 403 });
  const context = await changeContext(actor, (await params).id, new URL(request.url).searchParams.get("draft") ?? "");
  if (!context) return new Response(null, { status: 404 });
  const asked = await effectsAsked(context);
  const gone = new AbortController();
  const signal = AbortSignal.any([request.signal, gone.signal]);
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async start(stream) {
      let last: MatrixProgress = { done: 0, total: 0 };
      const tell = (line: MatrixProgress & { complete?: boolean }) => { if (!signal.aborted) stream.enqueue(encoder.encode(`${JSON.stringify(line)}\n`)); };
      try {
        await weighSites(asked, context.park.policy, { signal, timeLimit, onProgress: (progress) => { last = progress; tell(progress); } });
        tell({ ...last, complete: true });
      } catch (error) {
        if (!(error instanceof RankingStopped)) log.error({ err: error }, "what a site's change means for stays could not be worked out");
      }
      if (!signal.aborted) stream.close();
    },
    cancel: () => gone.abort(),
  });
  return new Response(body, { headers: { "content-type": "application/x-ndjson; charset=utf-8", "cache-control": "no-store, no-transform", "x-accel-buffering": "no" } });
}
