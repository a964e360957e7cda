import { RankingStopped } from "@/lib/jobs/fit-pool";
import { StoreError } from "@/lib/store/errors";
import { log } from "@/lib/store/log";
import { failed } from "./answers";

/** Every call answers JSON, the one that goes wrong on our side too: logged in full, told in a line. What may go better in a moment says so. */
export function answering<Rest extends unknown[]>(handle: (request: Request, ...rest: Rest) => Promise<Response>) {
  return async (request: Request, ...rest: Rest): Promise<Response> => {
    try {
      return await handle(request, ...rest);
    } catch (error) {
      if (error instanceof RankingStopped) return failed(error.why === "time" ? 504 : 503, error.message, soon);
      const path = new URL(request.url).pathname;
      if (error instanceof StoreError && (error.kind === "busy" || error.kind === "unreachable")) {
        // While the database is away this happens with every call: a line each is enough.
        log.warn({ path, why: error.message }, "a call was put off");
        return failed(503, "The database cannot be reached just now. Try again in a moment.", soon);
      }
      log.error({ err: error, path }, "a call failed");
      return failed(500, "Something went wrong on our side.");
    }
  };
}

const soon = { "Retry-After": "5" };
