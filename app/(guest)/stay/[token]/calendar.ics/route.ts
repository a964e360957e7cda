import ical, { ICalCalendarMethod, ICalEventStatus } from "ical-generator";
import { catalogueOf } from "@/lib/wording";
import { readStayOf } from "../read-stay";

/** The stay as a calendar's event (RFC 5545): whole days, from the arrival up to the day of leaving; the same event each time, counted up with every change. */
export async function GET(request: Request, { params }: { readonly params: Promise<{ token: string }> }): Promise<Response> {
  const { token } = await params;
  const data = await readStayOf(token);
  if (!data) return new Response(catalogueOf().guestStay.missing.title, { status: 404, headers: { "Content-Type": "text/plain; charset=utf-8" } });
  const { stay, park, context, label } = data;
  const { calendar: words } = catalogueOf().guestStay;
  const calendar = ical({ name: park.name, prodId: { company: "Padwright", product: "Stays", language: "EN" }, method: stay.state === "cancelled" ? ICalCalendarMethod.CANCEL : ICalCalendarMethod.PUBLISH });
  calendar.createEvent({
    id: `${stay.id}@padwright`,
    start: stay.nights.arrive,
    end: stay.nights.depart,
    allDay: true,
    stamp: new Date(context.now),
    sequence: stay.version,
    summary: words.summary(label, park.name),
    description: [words.about(stay.reference, context.settings.checkIn, context.settings.checkOut), ...(stay.state === "requested" || stay.state === "held" ? [words.tentative] : [])].join("\n"),
    url: `${new URL(request.url).protocol}//${request.headers.get("host") ?? new URL(request.url).host}/stay/${token}`,
    status: stay.state === "cancelled" ? ICalEventStatus.CANCELLED : stay.state === "requested" || stay.state === "held" ? ICalEventStatus.TENTATIVE : ICalEventStatus.CONFIRMED,
  });
  return new Response(calendar.toString(), { headers: { "Content-Type": "text/calendar; charset=utf-8", "Content-Disposition": `attachment; filename="stay-${stay.reference}.ics"`, "Cache-Control": "no-store" } });
}
