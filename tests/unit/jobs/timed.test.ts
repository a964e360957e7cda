import { availableParallelism } from "node:os";
import { afterAll, describe, expect, it } from "vitest";
import type { CalendarText } from "@/lib/jobs/calendar-events";
import { closePool, runTimed } from "@/lib/jobs/threads";
import { asDate } from "@/lib/stays";

afterAll(() => closePool());

const calendarOf = (...rules: string[]): CalendarText => ({
  text: ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Elsewhere//EN", "BEGIN:VEVENT", "UID:a", "DTSTAMP:20260101T000000Z", "DTSTART;VALUE=DATE:20260705", "DTEND;VALUE=DATE:20260708", ...rules, "END:VEVENT", "END:VCALENDAR", ""].join("\r\n"),
  zone: "America/Chicago",
  today: asDate("2026-07-01")!,
});
/** February 30: the library looks for one and never stops. */
const endless = calendarOf("RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30");
const read = (calendar: CalendarText, timeLimit: number) => runTimed("readEvents", calendar, timeLimit, "Reading a calendar");

describe("a task with a time of its own", () => {
  it("is answered though it waits longer for threads at other work than it may take itself", async () => {
    const others = Array.from({ length: availableParallelism() }, () => read(endless, 3000).catch((error: unknown) => error));
    expect(await read(calendarOf(), 2000)).toMatchObject({ events: [{ starts: "2026-07-05", ends: "2026-07-08" }] });
    for (const given of await Promise.all(others)) expect(given).toMatchObject({ name: "RankingStopped", why: "time", message: "Reading a calendar took longer than 3 s and was given up." });
  });
});
