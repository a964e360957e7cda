import http from "node:http";
import https from "node:https";
import { isIP } from "node:net";
import { CalendarFault } from "./calendar-fault";
import { lookUpPublic, requirePublic } from "./public-address";

export interface FetchLimits {
  /** For all of it: looking up, connecting, being led on, reading. Milliseconds. */
  readonly time: number;
  /** Largest answer that is read, bytes. */
  readonly bytes: number;
  /** This machine and private networks are read from as well: for tests, and for who serves calendars within. */
  readonly local: boolean;
}

export const usualLimits: Omit<FetchLimits, "local"> = { time: 15_000, bytes: 2_000_000 };

/** How often an address may lead on to another. */
const mostRedirects = 3;

/**
 * The text at `address`. Throws a {@link CalendarFault} that says why there is none. Whoever enters an address has this machine ask
 * for it, so it asks no one within: see `public-address.ts`.
 */
export async function fetchCalendar(address: string, limits: FetchLimits): Promise<string> {
  const clock = AbortSignal.timeout(limits.time);
  try {
    let url = readAddress(address);
    for (let leads = 0; ; leads++) {
      const answer = await ask(url, limits, clock);
      if (typeof answer === "string") return answer;
      if (leads >= mostRedirects) throw new CalendarFault("redirect");
      url = follow(url, answer.location);
    }
  } catch (error) {
    throw explain(error, clock);
  }
}

/** An address that is read from: http or https, without a name and password. */
export function readAddress(address: string): URL {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (!url || !/^https?:$/.test(url.protocol) || url.username !== "" || url.password !== "") throw new CalendarFault("address");
  return url;
}

/** From https never back to http: what was asked for in secret is not then asked for in the open. */
function follow(from: URL, location: string): URL {
  const to = URL.canParse(location, from) ? new URL(location, from) : null;
  const kept = to && (to.protocol === from.protocol || (from.protocol === "http:" && to.protocol === "https:"));
  if (!to || !kept || to.username !== "" || to.password !== "") throw new CalendarFault("redirect");
  return to;
}

/** The text, or where it leads on to. */
async function ask(url: URL, { bytes, local }: FetchLimits, signal: AbortSignal): Promise<string | { location: string }> {
  const host = url.hostname.replace(/^\[|\]$/g, "");
  // A name is judged as it is looked up; an address is connected to without that.
  if (!local && isIP(host)) requirePublic(host);
  return new Promise((resolve, reject) => {
    const request = (url.protocol === "https:" ? https : http).get(url, {
      signal,
      agent: false,
      headers: { accept: "text/calendar, */*;q=0.5", "accept-encoding": "identity", "user-agent": "Padwright" },
      ...(local ? {} : { lookup: lookUpPublic }),
    });
    request.on("error", reject);
    request.on("response", (response) => {
      const fail = (fault: CalendarFault) => { request.destroy(); reject(fault); };
      const { statusCode = 0, headers } = response;
      if ([301, 302, 303, 307, 308].includes(statusCode) && headers.location) {
        request.destroy();
        return resolve({ location: headers.location });
      }
      if (statusCode !== 200) return fail(new CalendarFault("status", statusCode));
      if ((headers["content-encoding"] ?? "identity") !== "identity") return fail(new CalendarFault("not-a-calendar"));
      readBody(response, bytes).then(resolve, (error: unknown) => { request.destroy(); reject(error); });
    });
  });
}

async function readBody(response: http.IncomingMessage, bytes: number): Promise<string> {
  const parts: Buffer[] = [];
  let size = 0;
  for await (const part of response as AsyncIterable<Buffer>) {
    size += part.length;
    if (size > bytes) throw new CalendarFault("too-large", bytes);
    parts.push(part);
  }
  return Buffer.concat(parts).toString("utf8");
}

function explain(error: unknown, clock: AbortSignal): CalendarFault {
  if (error instanceof CalendarFault) return error;
  if (clock.aborted) return new CalendarFault("timeout", null, { cause: error });
  const code = (error as NodeJS.ErrnoException).code ?? "";
  return new CalendarFault(/^(ENOTFOUND|EAI_\w+|ENODATA)$/.test(code) ? "unknown-host" : "unreachable", null, { cause: error });
}
