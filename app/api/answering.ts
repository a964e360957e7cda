import { StoreError } from "@/lib/store/errors";
import { log } from "@/lib/store/log";
import { failed } from "./answers";

/** Every call answers JSON, the one that goes wrong on our side too: logged in full, told in a line. */
export function answering<Rest extends unknown[]>(handle: (request: Request, ...rest: Rest) => Promise<Response>) {
  return async (request: Request, ...rest: Rest): Promise<Response> => {
    try {
      return await handle(request, ...rest);
    } catch (error) {
      log.error({ err: error, path: new URL(request.url).pathname }, "a call failed");
      const later = error instanceof StoreError && (error.kind === "busy" || error.kind === "unreachable");
      return later
        ? failed(503, "The database cannot be reached just now. Try again in a moment.", { "Retry-After": "5" })
        : failed(500, "Something went wrong on our side.");
    }
  };
}
