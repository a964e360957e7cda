import type { Fault } from "@/lib/fit/request";

/** Bodies larger than this are refused before they are read to the end: 10 MB holds 2,000 sites with room to spare. */
export const MAX_BODY_BYTES = 10_000_000;

/** A vehicle with eight units takes two kilobytes. */
export const MAX_TURNING_BYTES = 100_000;

export function json(body: unknown, status = 200, headers: Record<string, string> = {}): Response {
  return Response.json(body, { status, headers: { "Cache-Control": "no-store", ...headers } });
}

/** Readable, but not what was asked for: every fault at once, each with the path of its field. */
export function faulty(faults: readonly Fault[]): Response {
  const [first] = faults;
  const error = faults.length === 1 && first ? `${first.path || "The request"} ${first.message}` : `${faults.length} things in the request are not as they should be.`;
  return json({ error, faults }, 422);
}

export function failed(status: number, error: string, headers?: Record<string, string>): Response {
  return json({ error, faults: [] }, status, headers);
}

export type ReadBody = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly answer: Response };

/** The body as JSON, counted as it arrives: a length that is not told, or told wrong, makes no difference. */
export async function readJson(request: Request, limit = MAX_BODY_BYTES): Promise<ReadBody> {
  const tooLarge = () => ({ ok: false as const, answer: failed(413, `The body is larger than ${limit >= 1_000_000 ? `${limit / 1_000_000} MB` : `${limit / 1000} kB`}.${limit === MAX_BODY_BYTES ? " Send fewer sites in one call." : ""}`) });
  if (Number(request.headers.get("content-length") ?? 0) > limit) return tooLarge();
  const bytes = await readUpTo(request, limit);
  if (bytes === null) return tooLarge();
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch (error) {
    const detail = error instanceof SyntaxError ? error.message : "it is not UTF-8 text";
    return { ok: false, answer: failed(400, `The body cannot be read as JSON: ${detail}`) };
  }
}

async function readUpTo(request: Request, limit: number): Promise<Uint8Array | null> {
  if (!request.body) return new Uint8Array();
  const chunks: Uint8Array[] = [];
  let size = 0;
  const reader = request.body.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.byteLength;
    if (size > limit) {
      await reader.cancel();
      return null;
    }
    chunks.push(value);
  }
  return Buffer.concat(chunks);
}
