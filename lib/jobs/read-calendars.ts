import type { Actor } from "@/lib/store/stays-actor";
import { keepReading } from "@/lib/store/calendar-closures";
import { environment } from "@/lib/store/environment";
import { toStoreError } from "@/lib/store/errors";
import { log } from "@/lib/store/log";
import { keepFault, takeDueTurns, takeTurn, type CalendarTurn } from "@/lib/store/outside-calendars";
import { getStayContext } from "@/lib/store/park-settings";
import type { CalendarText, EventsRead } from "./calendar-events";
import { CalendarFault } from "./calendar-fault";
import { fetchCalendar, usualLimits } from "./fetch-calendar";
import { RankingStopped, runTimed } from "./threads";

/** Reads the outside calendars that are due, some at a time; how many. Once `stop` is aborted no more are begun. */
export async function readDueCalendars(stop?: AbortSignal): Promise<number> {
  for (let read = 0; ; ) {
    const turns = stop?.aborted || read >= mostInARow ? [] : await takeDueTurns(atOnce);
    if (turns.length === 0) return read;
    await Promise.all(turns.map(readOne));
    read += turns.length;
  }
}

/** Reads one calendar now, for a manager. What came of it stands in the list of calendars. */
export async function readCalendarNow(actor: Actor, parkSlug: string, calendarId: string): Promise<void> {
  await readOne(await takeTurn(actor, parkSlug, calendarId));
}

const atOnce = 4;
/** The rest waits for the next time the chore is done. */
const mostInARow = 200;
/** For understanding what was read, milliseconds. */
const readingTime = 5_000;

async function readOne(turn: CalendarTurn): Promise<void> {
  try {
    const context = await getStayContext(turn.park);
    if (!context) return;
    const text = await fetchCalendar(turn.url, { ...usualLimits, local: environment().PADWRIGHT_ALLOW_LOCAL_CALENDARS });
    const answer = (await runTimed("readEvents", { text, zone: context.settings.zone, today: context.today } satisfies CalendarText, readingTime, "Reading a calendar")) as EventsRead;
    if ("fault" in answer) throw new CalendarFault(answer.fault);
    await keepReading(turn, answer.events);
  } catch (error) {
    const fault = faultOf(error);
    // What the database refuses is not the calendar's fault; the next turn comes all the same.
    if (!fault) log.warn({ calendar: turn.id, kind: toStoreError(error).kind, err: error }, "an outside calendar was read and could not be kept");
    await keepFault(turn, fault?.message ?? "not-kept");
  }
}

function faultOf(error: unknown): CalendarFault | null {
  if (error instanceof CalendarFault) return error;
  return error instanceof RankingStopped ? new CalendarFault(error.why === "busy" ? "busy" : "timeout", null, { cause: error }) : null;
}
