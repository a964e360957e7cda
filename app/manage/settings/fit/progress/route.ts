import { RankingStopped } from "@/lib/jobs/fit-pool";
import type { MatrixProgress } from "@/lib/jobs/fit-matrix";
import { weighPolicy } from "@/lib/jobs/settings-effects";
import { log } from "@/lib/store/log";
import { paramsOf } from "../../../../components/rig-form/params";
import { staffActorOf } from "../../../../staff-session";
import { effectsContext, policyContextOf, readAddress } from "../context";

export const dynamic = "force-dynamic";

/** A park of 2,000 sites takes a minute for each of the two settings on one core. */
const timeLimit = 600_000;

/**
 * Works out what the address of `/manage/settings/fit` would change and tells how far it is: a line of JSON, `{ "done", "total" }`, after each
 * share, the last with `"complete": true`. Ends when the one who asked goes.
 */
export async function GET(request: Request): Promise<Response> {
  const actor = await staffActorOf(request);
  if (!actor) return new Response(null, { status: 401 });
  if (actor.kind !== "manager") return new Response(null, { status: 403 });
  const context = await policyContextOf(actor);
  if (!context) return new Response(null, { status: 404 });
  const { form: { policy } } = readAddress(paramsOf(new URL(request.url).searchParams), context);
  if (!policy) return new Response(null, { status: 400 });
  const { asked } = await effectsContext(context);
  const gone = new AbortController();
  const signal = AbortSignal.any([request.signal, gone.signal]);
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async start(stream) {
      let last: MatrixProgress = { done: 1, total: 1 };
      const tell = (line: MatrixProgress & { complete?: boolean }) => { if (!signal.aborted) stream.enqueue(encoder.encode(`${JSON.stringify(line)}\n`)); };
      try {
        await weighPolicy(asked, context.policy, policy, { signal, timeLimit, onProgress: (progress) => { last = progress; tell(progress); } });
        tell({ done: last.total, total: last.total, complete: true });
      } catch (error) {
        if (!(error instanceof RankingStopped)) log.error({ err: error }, "what other settings would change could not be worked out");
      }
      if (!signal.aborted) stream.close();
    },
    cancel: () => gone.abort(),
  });
  return new Response(body, { headers: { "content-type": "application/x-ndjson; charset=utf-8", "cache-control": "no-store, no-transform", "x-accel-buffering": "no" } });
}
