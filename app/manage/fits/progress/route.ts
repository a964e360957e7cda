import { fitMatrix, type MatrixProgress } from "@/lib/jobs/fit-matrix";
import { RankingStopped } from "@/lib/jobs/fit-pool";
import { log } from "@/lib/store/log";
import { readChoice } from "../choice";
import { columnsFor } from "../columns";
import { staffActorOf } from "../../../staff-session";
import { fitsOf } from "../context";
import { shownSites } from "../shown-sites";

export const dynamic = "force-dynamic";

/** No park has a matrix that takes longer: 2,000 sites and 40 rigs take a minute on one core. */
const TIME_LIMIT = 300_000;

/**
 * Works out the matrix that the address of `/manage/fits` asks for and tells how far it is: a line of JSON,
 * `{ "done", "total" }`, after each share, the last with `"complete": true`. Ends when the one who asked goes.
 */
export async function GET(request: Request): Promise<Response> {
  const actor = await staffActorOf(request);
  if (!actor) return new Response(null, { status: 401 });
  const context = await fitsOf(actor.park);
  if (!context) return new Response(null, { status: 404 });
  const { park, sites, rigs } = context;
  const choice = readChoice(Object.fromEntries(new URL(request.url).searchParams), { sites, keptRigs: rigs.length, parkUnits: park.units });
  const gone = new AbortController();
  const signal = AbortSignal.any([request.signal, gone.signal]);
  const encoder = new TextEncoder();
  const body = new ReadableStream<Uint8Array>({
    async start(stream) {
      const tell = (line: MatrixProgress & { complete?: boolean }) => { if (!signal.aborted) stream.enqueue(encoder.encode(`${JSON.stringify(line)}\n`)); };
      try {
        const shown = shownSites(sites, choice), columns = columnsFor(choice, rigs);
        await fitMatrix(shown, columns.map(({ rig }) => rig), park.policy, { signal, timeLimit: TIME_LIMIT, onProgress: tell });
        tell({ done: shown.length * columns.length, total: shown.length * columns.length, complete: true });
        if (!signal.aborted) stream.close();
      } catch (error) {
        if (!(error instanceof RankingStopped)) log.error({ err: error }, "a matrix could not be worked out");
        if (!signal.aborted) stream.close();
      }
    },
    cancel: () => gone.abort(),
  });
  return new Response(body, { headers: { "content-type": "application/x-ndjson; charset=utf-8", "cache-control": "no-store, no-transform", "x-accel-buffering": "no" } });
}
