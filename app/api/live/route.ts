import { staffActorOf } from "@/app/staff-session";
import { listen } from "@/lib/store/notices";
import { getParkRowId } from "@/lib/store/parks";
import { failed } from "../answers";

/** A word now and then, so that a connection that hangs is noticed: the page takes silence beyond twice this as lost. */
const heartbeat = 10_000;
/** How often it is asked whether the session still stands, milliseconds. */
const sessionCheck = 30_000;

/**
 * Tells staff of a park, as server-sent events, that something changed: `change` with its subject, `lost` and `linked` for
 * the way to the database, `beat`. Never what changed: the page asks for that itself, with its own right to it.
 */
export async function GET(request: Request): Promise<Response> {
  const actor = await staffActorOf(request);
  const parkId = actor && (await getParkRowId(actor.park));
  if (!parkId) return failed(401, "Sign in first.");
  return new Response(stream(request, parkId), { headers: { "Content-Type": "text/event-stream; charset=utf-8", "Cache-Control": "no-store, no-transform", "X-Accel-Buffering": "no" } });
}

function stream(request: Request, parkId: string): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  let end: () => void = () => undefined;
  return new ReadableStream({
    start(controller) {
      let linked = false;
      const send = (event: string, data = "") => controller.enqueue(encoder.encode(`event: ${event}\ndata: ${data}\n\n`));
      controller.enqueue(encoder.encode("retry: 1000\n\n"));
      const leave = listen(parkId, {
        onNotice: ({ subject }) => send("change", subject),
        onLink: (now) => { linked = now; send(now ? "linked" : "lost"); },
      });
      // No beat while the database is away: a page that hears nothing says so.
      const beating = setInterval(() => linked && send("beat"), heartbeat);
      const checking = setInterval(() => void staffActorOf(request).then((still) => still || end(), () => undefined), sessionCheck);
      end = () => {
        end = () => undefined;
        leave();
        clearInterval(beating);
        clearInterval(checking);
        try { controller.close(); } catch { /* the reader has gone already */ }
      };
      request.signal.addEventListener("abort", () => end());
    },
    cancel: () => end(),
  });
}
