import { createHash } from "node:crypto";
import ical, { ICalCalendarMethod, ICalEventStatus, ICalEventTransparency } from "ical-generator";
import { findFeed, type FeedContent } from "@/lib/store/calendars";
import { manageCalendars } from "@/lib/wording/en/manage-calendars";

const { feed: words } = manageCalendars;

/** How often a reader should ask again, seconds. */
const readAgain = 15 * 60;

/**
 * A site's nights as a calendar (RFC 5545): whole days, from the first night up to the day the site is free again, and nothing of who
 * has it. A reader that shows it has the same already is told so, by the ETag alone: a time would not show what the clock changes.
 */
export async function GET(request: Request, { params }: { readonly params: Promise<{ token: string }> }): Promise<Response> {
  const token = /^([\w-]+)\.ics$/.exec((await params).token)?.[1];
  const content = token === undefined ? null : await findFeed(token);
  if (!content) return new Response(words.gone, { status: 404, headers: { "Content-Type": "text/plain; charset=utf-8", "Cache-Control": "no-store" } });
  const body = writeCalendar(content);
  const etag = `"${createHash("sha256").update(body).digest("base64url")}"`;
  const headers = { ETag: etag, "Last-Modified": new Date(content.changed).toUTCString(), "Cache-Control": "private, no-cache", "X-Robots-Tag": "noindex, nofollow" };
  if (knows(request.headers.get("if-none-match"), etag)) return new Response(null, { status: 304, headers });
  return new Response(body, { headers: { ...headers, "Content-Type": "text/calendar; charset=utf-8", "Content-Disposition": 'inline; filename="nights.ics"' } });
}

function writeCalendar({ parkName, siteLabel, nights }: FeedContent): string {
  const calendar = ical({ name: words.name(siteLabel, parkName), prodId: { company: "Padwright", product: "Nights", language: "EN" }, method: ICalCalendarMethod.PUBLISH, ttl: readAgain });
  for (const { uid, kind, nights: { arrive, depart }, changed } of nights) {
    calendar.createEvent({
      id: uid, start: arrive, end: depart, allDay: true,
      // The same text as long as nothing changed.
      stamp: new Date(changed), lastModified: new Date(changed),
      summary: kind === "stay" ? words.taken : words.closed,
      status: ICalEventStatus.CONFIRMED, transparency: ICalEventTransparency.OPAQUE,
    });
  }
  return calendar.toString();
}

/** RFC 9110, 13.1.2: any of a list, weak or not, or whatever there is. */
function knows(header: string | null, etag: string): boolean {
  return header !== null && header.split(",").some((each) => each.trim() === "*" || each.trim().replace(/^W\//, "") === etag);
}
