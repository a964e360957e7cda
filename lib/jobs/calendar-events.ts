import ICAL from "ical.js";
import { asDate, dateOfDay, dayNumber, isTimeZone, type DayNumber, type IsoDate } from "@/lib/stays";
import { CalendarFault, type CalendarFaultCode } from "./calendar-fault";
import { dayIn, instantOf, type Wall } from "./wall-clock";

/** A calendar's text, and what its events are nights of. */
export interface CalendarText {
  readonly text: string;
  /** The park's own: times without a zone are its, and a timed event takes nights by its dates. */
  readonly zone: string;
  readonly today: IsoDate;
}

/** Nights `[starts, ends)` that an event takes. `key` names the event, or the one occurrence of it, the same each time it is read. */
export interface OutsideEvent {
  readonly key: string;
  readonly starts: IsoDate;
  readonly ends: IsoDate;
}

export type EventsRead = { readonly events: OutsideEvent[] } | { readonly fault: CalendarFaultCode };

/** Repeated events are followed this many nights ahead. */
export const nightsAhead = 400;

/**
 * The nights that the events of an iCalendar file (RFC 5545) take, by their beginning; those that are over are left out.
 *
 * Whole days take the nights that begin on them. An event with times takes the nights between its dates in the park: none where it
 * begins and ends on one date. Cancelled events and occurrences take none; one marked as free (`TRANSP`) does, as programs mark whole
 * days so unasked, and a night too many is put right more easily than two guests on a site. A file is taken whole or refused.
 *
 * Call it on a worker thread, under a time limit: some rules that are never met keep the library looking for ever.
 */
export function readEvents({ text, zone, today }: CalendarText): EventsRead {
  try {
    return { events: new Reader(zone, dayNumber(today)).read(text) };
  } catch (error) {
    return { fault: error instanceof CalendarFault ? error.code : "not-a-calendar" };
  }
}

/** How many events, occurrences counted, one calendar may have. */
const mostEvents = 2000;
/** How many occurrences are stepped over for one event and for all of them: 27 years of days for the one. */
const mostSteps = { one: 10_000, all: 100_000 };
/** Nobody can ask for nights further on: a stay begins within 730 days, and has at most 400 nights. Whole months, so that it does not move every day. */
const furthest = 1130;

/** An event's first day and the day after its last night. */
interface Days {
  readonly from: DayNumber;
  readonly to: DayNumber;
}

class Reader {
  private readonly found = new Map<string, Days>();
  private steps = 0;
  private readonly horizon: DayNumber;

  constructor(
    private readonly zone: string,
    private readonly today: DayNumber,
  ) {
    const last = dateOfDay(today + furthest);
    this.horizon = dayNumber(asDate(`${last.slice(0, 8)}01`));
  }

  read(text: string): OutsideEvent[] {
    for (const calendar of parseCalendars(text)) {
      if (/^cancel$/i.test(String(calendar.getFirstPropertyValue("method") ?? ""))) continue;
      for (const event of newestOf(calendar.getAllSubcomponents("vevent"))) this.addEvent(event);
    }
    return [...this.found]
      .map(([key, { from, to }]) => ({ key, starts: dateOfDay(from), ends: dateOfDay(to) }))
      .sort((a, b) => (a.starts < b.starts ? -1 : a.starts > b.starts ? 1 : a.key < b.key ? -1 : 1));
  }

  private addEvent({ own, changed }: EventParts): void {
    for (const part of changed) if (!isCancelled(part)) this.addOne(part, `${uidOf(part)}#${String(part.getFirstPropertyValue("recurrence-id"))}`);
    if (!own || isCancelled(own)) return;
    if (own.hasProperty("rrule") || own.hasProperty("rdate")) this.addOccurrences(own, changed);
    else this.addOne(own, uidOf(own));
  }

  private addOne(component: ICAL.Component, key: string): void {
    const { startDate, endDate } = eventOf(component);
    this.add(key, this.daysOf(component, startDate, endDate));
  }

  /** Occurrences that were changed have been added as they now are. */
  private addOccurrences(component: ICAL.Component, changed: readonly ICAL.Component[]): void {
    const event = new ICAL.Event(component, { strictExceptions: false });
    for (const part of changed) event.relateException(part);
    eventOf(component);
    const iterator = event.iterator(), moved = new Set(Object.keys(event.exceptions));
    for (let step = 0; ; step++) {
      if (step >= mostSteps.one || ++this.steps > mostSteps.all) throw new CalendarFault("too-many");
      const start: ICAL.Time | null | undefined = iterator.next();
      if (!start) return;
      const { startDate, endDate, item } = event.getOccurrenceDetails(start);
      const days = this.daysOf(component, startDate, endDate);
      if (days.from >= this.today + nightsAhead) return;
      const isMoved = moved.has(start.toString()) || moved.has(start.convertToZone(ICAL.Timezone.utcTimezone).toString());
      if (!isMoved && !isCancelled(item.component)) this.add(`${uidOf(component)}#${start.toString()}`, days);
    }
  }

  private add(key: string, { from, to }: Days): void {
    if (to <= from || to <= this.today || from >= this.horizon) return;
    if (this.found.size >= mostEvents) throw new CalendarFault("too-many");
    let unused = key;
    for (let i = 2; this.found.has(unused); i++) unused = `${key}#${i}`;
    this.found.set(unused, { from: Math.max(from, this.today - mostBegun), to: Math.min(to, this.horizon) });
  }

  private daysOf(component: ICAL.Component, start: ICAL.Time, end: ICAL.Time): Days {
    if (start.isDate) {
      const from = dayOf(start);
      // Some programs write a single day as one that ends when it begins.
      return { from, to: Math.max(from + 1, end.isDate ? dayOf(end) : this.dayAt(component, "dtend", end)) };
    }
    return { from: this.dayAt(component, "dtstart", start), to: this.dayAt(component, "dtend", end) };
  }

  /** The date in the park at a time of the event. Its zone is as the file defines it, else as it is known by name; else the time is the park's. */
  private dayAt(component: ICAL.Component, property: "dtstart" | "dtend", time: ICAL.Time): DayNumber {
    if (time.zone && time.zone !== ICAL.Timezone.localTimezone) return dayIn(this.zone, time.toUnixTime() * 1000);
    const named = (component.getFirstProperty(property) ?? component.getFirstProperty("dtstart"))?.getFirstParameter("tzid");
    return named && named !== this.zone && isTimeZone(named) ? dayIn(this.zone, instantOf(wallOf(time), named)) : dayOf(time);
  }
}

/** An event under way is followed back this far: its beginning no longer matters, and years before those we know are no dates. */
const mostBegun = 400;

/** An event's own component, and those that change single occurrences of it. */
interface EventParts {
  readonly own: ICAL.Component | null;
  readonly changed: readonly ICAL.Component[];
}

function parseCalendars(text: string): ICAL.Component[] {
  const parsed: unknown = ICAL.parse(text);
  // One calendar comes as itself, several as a list of them.
  const list = (Array.isArray(parsed) && Array.isArray(parsed[0]) ? parsed : [parsed]) as unknown[];
  const calendars = list.map((each) => new ICAL.Component(each as ConstructorParameters<typeof ICAL.Component>[0]));
  if (calendars.length === 0 || calendars.some(({ name }) => name !== "vcalendar")) throw new CalendarFault("not-a-calendar");
  return calendars;
}

/** Of two versions of an event the later one counts (RFC 5545, 3.8.7.4); two of the same version are two events that were given one name. */
function newestOf(components: readonly ICAL.Component[]): EventParts[] {
  const groups = new Map<string, ICAL.Component[]>();
  for (const component of components) {
    const name = `${uidOf(component)} ${String(component.getFirstPropertyValue("recurrence-id") ?? "")}`;
    const [first] = groups.get(name) ?? [];
    const order = first ? sequenceOf(component) - sequenceOf(first) : 1;
    if (order > 0) groups.set(name, [component]);
    else if (order === 0) groups.get(name)!.push(component);
  }
  const kept = [...groups.values()].flat();
  const changes = groupByUid(kept.filter(isChange));
  const parts: EventParts[] = kept.filter((component) => !isChange(component)).map((own) => {
    const uid = uidOf(own), changed = changes.get(uid) ?? [];
    // Where one name stands for two events, the changes are the first one's.
    changes.delete(uid);
    return { own, changed };
  });
  for (const changed of changes.values()) parts.push({ own: null, changed });
  return parts;
}

function groupByUid(components: readonly ICAL.Component[]): Map<string, ICAL.Component[]> {
  const groups = new Map<string, ICAL.Component[]>();
  for (const component of components) {
    const uid = uidOf(component), group = groups.get(uid);
    if (group) group.push(component);
    else groups.set(uid, [component]);
  }
  return groups;
}

function isChange(component: ICAL.Component): boolean {
  return component.hasProperty("recurrence-id");
}

function isCancelled(component: ICAL.Component): boolean {
  return /^cancelled$/i.test(String(component.getFirstPropertyValue("status") ?? ""));
}

/** An event without a name is named by when it begins. Names go into our own feeds, so they are of one line. */
function uidOf(component: ICAL.Component): string {
  const name = String(component.getFirstPropertyValue("uid") ?? `at ${String(component.getFirstPropertyValue("dtstart"))}`);
  return name.replace(/[\p{Cc}\u2028\u2029]+/gu, " ").slice(0, 500);
}

function sequenceOf(component: ICAL.Component): number {
  return Number(component.getFirstPropertyValue("sequence") ?? 0) || 0;
}

/** Throws where the beginning is no date. */
function eventOf(component: ICAL.Component): ICAL.Event {
  const event = new ICAL.Event(component);
  const start: unknown = event.startDate;
  if (!(start instanceof ICAL.Time) || !Number.isFinite(dayOf(start))) throw new CalendarFault("event-without-date");
  return event;
}

function dayOf(time: ICAL.Time): DayNumber {
  return Math.floor(Date.UTC(time.year, time.month - 1, time.day) / 86_400_000);
}

function wallOf({ year, month, day, hour, minute, second }: ICAL.Time): Wall {
  return { year, month, day, hour, minute, second };
}
