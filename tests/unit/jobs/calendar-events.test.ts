import { describe, expect, it } from "vitest";
import { asDate } from "@/lib/stays";
import { readEvents } from "@/lib/jobs/calendar-events";

const zone = "America/New_York";
const today = asDate("2027-03-01");

/** A calendar of these events; each is its lines. */
const calendar = (...events: string[][]) => ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Two Pines//EN", ...events.flatMap((lines) => ["BEGIN:VEVENT", "DTSTAMP:20270101T000000Z", ...lines, "END:VEVENT"]), "END:VCALENDAR", ""].join("\r\n");
const read = (text: string) => readEvents({ text, zone, today });
/** What the events take, without their names. */
const taken = (...events: string[][]) => {
  const answer = read(calendar(...events));
  return "fault" in answer ? answer.fault : answer.events.map(({ starts, ends }) => `${starts} ${ends}`);
};

describe("a single event", () => {
  it("of whole days takes the nights that begin on them", () => {
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270310", "DTEND;VALUE=DATE:20270313"])).toEqual(["2027-03-10 2027-03-13"]);
  });
  it("without an end, or one that ends when it begins, is one day", () => {
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270310"], ["UID:b", "DTSTART;VALUE=DATE:20270320", "DTEND;VALUE=DATE:20270320"])).toEqual(["2027-03-10 2027-03-11", "2027-03-20 2027-03-21"]);
  });
  it("with times takes the nights between its dates in the park", () => {
    expect(taken(["UID:a", "DTSTART:20270310T200000Z", "DTEND:20270312T150000Z"])).toEqual(["2027-03-10 2027-03-12"]);
    // Three in the morning at Greenwich is still the evening before in New York.
    expect(taken(["UID:a", "DTSTART:20270310T030000Z", "DTEND:20270311T030000Z"])).toEqual(["2027-03-09 2027-03-10"]);
    expect(taken(["UID:a", "DTSTART:20270310T140000", "DURATION:P2DT18H"])).toEqual(["2027-03-10 2027-03-13"]);
  });
  it("within one date takes no night, up to midnight one", () => {
    expect(taken(["UID:a", "DTSTART:20270310T090000", "DTEND:20270310T170000"])).toEqual([]);
    expect(taken(["UID:a", "DTSTART:20270310T090000", "DTEND:20270311T000000"])).toEqual(["2027-03-10 2027-03-11"]);
  });
  it("in a zone known by name is put on the park's dates", () => {
    // 01:00 on the 11th in Berlin is 20:00 on the 10th in New York; 23:00 there is 18:00.
    expect(taken(["UID:a", "DTSTART;TZID=Europe/Berlin:20270311T010000", "DTEND;TZID=Europe/Berlin:20270313T230000"])).toEqual(["2027-03-10 2027-03-13"]);
  });
  it("in a zone that the file defines goes by that definition", () => {
    const text = calendar(["UID:a", "DTSTART;TZID=Camp:20270311T010000", "DTEND;TZID=Camp:20270312T010000"]).replace("BEGIN:VEVENT", ["BEGIN:VTIMEZONE", "TZID:Camp", "BEGIN:STANDARD", "DTSTART:19700101T000000", "TZOFFSETFROM:+0900", "TZOFFSETTO:+0900", "END:STANDARD", "END:VTIMEZONE", "BEGIN:VEVENT"].join("\r\n"));
    // Nine hours ahead of Greenwich 01:00 is 11:00 the day before in New York.
    expect(read(text)).toMatchObject({ events: [{ starts: "2027-03-10", ends: "2027-03-11" }] });
  });
  it("takes no night of a clock put forward too many", () => {
    expect(taken(["UID:a", "DTSTART;TZID=America/New_York:20270313T150000", "DTEND;TZID=America/New_York:20270315T110000"])).toEqual(["2027-03-13 2027-03-15"]);
  });
  it("that is over is left out, one under way is not", () => {
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270226", "DTEND;VALUE=DATE:20270301"])).toEqual([]);
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270226", "DTEND;VALUE=DATE:20270302"])).toEqual(["2027-02-26 2027-03-02"]);
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:18990101", "DTEND;VALUE=DATE:19000101"])).toEqual([]);
  });
  it("without end in sight is closed as far as anybody can ask for", () => {
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270310", "DTEND;VALUE=DATE:99991231"])).toEqual(["2027-03-10 2030-04-01"]);
  });
  it("that is cancelled takes nothing, and one marked as free does", () => {
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270310", "STATUS:CANCELLED"])).toEqual([]);
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270310", "TRANSP:TRANSPARENT"])).toEqual(["2027-03-10 2027-03-11"]);
  });
  it("counts in its later version; two of one version are two", () => {
    expect(taken(["UID:a", "SEQUENCE:2", "DTSTART;VALUE=DATE:20270320"], ["UID:a", "SEQUENCE:1", "DTSTART;VALUE=DATE:20270310"])).toEqual(["2027-03-20 2027-03-21"]);
    expect(read(calendar(["UID:a", "DTSTART;VALUE=DATE:20270320"], ["UID:a", "DTSTART;VALUE=DATE:20270310"]))).toMatchObject({ events: [{ key: "a#2", starts: "2027-03-10" }, { key: "a", starts: "2027-03-20" }] });
  });
});

describe("an event that repeats", () => {
  const weekly = ["UID:w", "DTSTART;VALUE=DATE:20270305", "DTEND;VALUE=DATE:20270307", "RRULE:FREQ=WEEKLY;COUNT=4"];

  it("takes the nights of each occurrence, without those left out", () => {
    expect(taken([...weekly, "EXDATE;VALUE=DATE:20270312"])).toEqual(["2027-03-05 2027-03-07", "2027-03-19 2027-03-21", "2027-03-26 2027-03-28"]);
  });
  it("has occurrences moved and cancelled", () => {
    expect(taken(
      weekly,
      ["UID:w", "RECURRENCE-ID;VALUE=DATE:20270312", "DTSTART;VALUE=DATE:20270315", "DTEND;VALUE=DATE:20270316"],
      ["UID:w", "RECURRENCE-ID;VALUE=DATE:20270319", "DTSTART;VALUE=DATE:20270319", "DTEND;VALUE=DATE:20270321", "STATUS:CANCELLED"],
    )).toEqual(["2027-03-05 2027-03-07", "2027-03-15 2027-03-16", "2027-03-26 2027-03-28"]);
  });
  it("keeps its time of day over a change of clocks", () => {
    expect(taken(["UID:d", "DTSTART;TZID=America/New_York:20270313T230000", "DTEND;TZID=America/New_York:20270314T060000", "RRULE:FREQ=DAILY;COUNT=3"])).toEqual(["2027-03-13 2027-03-14", "2027-03-14 2027-03-15", "2027-03-15 2027-03-16"]);
  });
  it("without end is followed 400 nights ahead", () => {
    const nights = taken(["UID:d", "DTSTART;VALUE=DATE:20260101", "RRULE:FREQ=DAILY"]);
    expect(nights).toHaveLength(400);
    expect(nights[0]).toBe("2027-03-01 2027-03-02");
    expect(nights.at(-1)).toBe("2028-04-03 2028-04-04");
  });
  it("names each occurrence the same each time", () => {
    expect(read(calendar(weekly))).toMatchObject({ events: ["05", "12", "19", "26"].map((date) => ({ key: `w#2027-03-${date}` })) });
  });
  it("is given up where it repeats beyond all bounds", () => {
    expect(taken(["UID:d", "DTSTART:20270101T000000Z", "RRULE:FREQ=SECONDLY"])).toBe("too-many");
  });
});

describe("a file", () => {
  it("without events is an empty calendar", () => {
    expect(taken()).toEqual([]);
  });
  it.each([
    ["nothing", ""],
    ["a page", "<!doctype html><title>Sign in</title>"],
    ["one cut short", calendar(["UID:a", "DTSTART;VALUE=DATE:20270310"]).slice(0, -30)],
    ["something else", "BEGIN:VCARD\r\nVERSION:3.0\r\nFN:Ada\r\nEND:VCARD\r\n"],
  ])("that is %s is refused", (_, text) => {
    expect(read(text)).toEqual({ fault: "not-a-calendar" });
  });
  it("with an event that begins nowhere is refused as a whole", () => {
    expect(taken(["UID:a", "DTSTART;VALUE=DATE:20270310"], ["UID:b", "SUMMARY:Sometime"])).toBe("event-without-date");
    expect(taken(["UID:b", "DTSTART;VALUE=DATE:2027"])).toMatch(/^(event-without-date|not-a-calendar)$/);
  });
  it("that takes events back takes nothing", () => {
    expect(read(calendar(["UID:a", "DTSTART;VALUE=DATE:20270310"]).replace("VERSION:2.0", "VERSION:2.0\r\nMETHOD:CANCEL"))).toEqual({ events: [] });
  });
});
