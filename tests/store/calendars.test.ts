import { createServer, type RequestListener, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll, beforeAll, describe, expect, inject, it, vi } from "vitest";
import { GET as feedRoute } from "@/app/calendar/[token]/route";
import { closePool } from "@/lib/jobs/threads";
import { readCalendarNow, readDueCalendars } from "@/lib/jobs/read-calendars";
import { findFeed, issueFeed, listFeeds, revokeFeed } from "@/lib/store/calendars";
import { closeSite, liftClosure } from "@/lib/store/closures";
import { addOutsideCalendar, listOutsideCalendars, removeOutsideCalendar, takeDueTurns } from "@/lib/store/outside-calendars";
import { bookStay, cancelStay, holdStay, requestStay } from "@/lib/store/stays";
import { getStay } from "@/lib/store/stays-change";
import { withStore } from "./client";
import { ask, byHand, day, desk, guest, manager, occupants, openPark, park, refusal, runOut, stayFrom, today } from "./stays-park";

// The settings are read once, by whatever is imported first.
vi.hoisted(() => {
  process.env["DATABASE_URL"] = inject("databaseUrl");
  process.env["PADWRIGHT_ALLOW_LOCAL_CALENDARS"] = "1";
});
withStore();

/** What the server below answers with; each test sets its own. */
let answer: RequestListener;
let server: Server;
let base: string;

beforeAll(async () => {
  server = createServer((request, response) => answer(request, response));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterAll(async () => {
  await new Promise((resolve) => server.close(resolve));
  await closePool();
});

const compact = (date: string) => date.replaceAll("-", "");
/** An event of whole days, by how far they are away. */
const event = (uid: string, from: number, to: number, ...more: string[]) => ["BEGIN:VEVENT", `UID:${uid}`, "DTSTAMP:20260101T000000Z", `DTSTART;VALUE=DATE:${compact(day(from))}`, `DTEND;VALUE=DATE:${compact(day(to))}`, "SUMMARY:Bob Example", ...more, "END:VEVENT"];
const calendar = (...events: string[][]) => ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Elsewhere//EN", ...events.flat(), "END:VCALENDAR", ""].join("\r\n");
const serve = (text: string): void => { answer = (_, response) => void response.writeHead(200, { "content-type": "text/calendar" }).end(text); };
const span = (from: number, to: number) => `[${day(from)},${day(to)})`;

async function addOne(site = "a01", url = `${base}/one.ics`): Promise<string> {
  return addOutsideCalendar(manager, park, site, { name: "Elsewhere", url });
}
const listed = async () => (await listOutsideCalendars(manager, park, today()));
const onSite = async (site = "a01") => (await occupants()).filter((row) => row.site === site).map(({ nights }) => nights);

/** The feed as a program over HTTP gets it. */
async function fetchFeed(token: string, headers: Record<string, string> = {}): Promise<Response> {
  return feedRoute(new Request(`${base}/calendar/${token}.ics`, { headers }), { params: Promise.resolve({ token: `${token}.ics` }) });
}

describe("an outside calendar", () => {
  it("closes its events, moves those that moved and opens those that are gone, cancelled ones too", async () => {
    await openPark();
    const id = await addOne();
    serve(calendar(event("a", 5, 8), event("b", 10, 12), event("c", 20, 21), event("past", -9, -5)));
    await readCalendarNow(manager, park, id);
    expect(await onSite()).toEqual([span(5, 8), span(10, 12), span(20, 21)]);
    expect(await listed()).toMatchObject([{ id, name: "Elsewhere", site: "a01", fault: null, conflicts: [], closed: 6 }]);
    serve(calendar(event("a", 6, 11), event("b", 4, 6), event("c", 20, 21, "STATUS:CANCELLED")));
    await readCalendarNow(manager, park, id);
    expect(await onSite()).toEqual([span(4, 6), span(6, 11)]);
    serve(calendar());
    await readCalendarNow(manager, park, id);
    expect(await onSite()).toEqual([]);
  });

  it("read again without news changes nothing, and keeps no name of anybody's guest", async () => {
    await openPark();
    const id = await addOne();
    serve(calendar(event("under-way", -3, 2), event("a", 5, 8)));
    await readCalendarNow(manager, park, id);
    const rows = () => byHand((sql) => sql`select id, starts::text, ends::text, reason, lifted_at, updated_at from closure order by starts`);
    const before = [...(await rows())];
    expect(before.map(({ reason }) => reason)).toEqual(["Elsewhere", "Elsewhere"]);
    await readCalendarNow(manager, park, id);
    expect([...(await rows())]).toEqual(before);
    const kept = await byHand((sql) => sql`select count(*)::int as n from audit_entry where after::text like '%Bob%' or reason like '%Bob%'`);
    expect(kept[0]!["n"]).toBe(0);
  });

  it("never moves a stay: what both have is a conflict, and the nights around it are closed", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(6, 2) });
    const id = await addOne();
    serve(calendar(event("a", 5, 10)));
    await readCalendarNow(manager, park, id);
    expect(await onSite()).toEqual([span(5, 6), span(6, 8), span(8, 10)]);
    expect(await getStay(desk, park, stay.id)).toMatchObject({ state: "booked", site: "a01", nights: stayFrom(6, 2), version: stay.version });
    expect(await listed()).toMatchObject([{ conflicts: [{ nights: stayFrom(5, 5), stays: [{ id: stay.id, reference: stay.reference }] }], closed: 3 }]);
    await cancelStay(desk, park, stay.id);
    await readCalendarNow(manager, park, id);
    expect(await listed()).toMatchObject([{ conflicts: [], closed: 5 }]);
  });

  it("passes over what the desk has closed itself, and takes it up when that is lifted", async () => {
    await openPark();
    const closure = await closeSite(desk, park, "a01", { starts: day(5), ends: day(7), reason: "repairs" });
    const id = await addOne();
    serve(calendar(event("a", 6, 9)));
    await readCalendarNow(manager, park, id);
    expect(await listed()).toMatchObject([{ conflicts: [], closed: 2 }]);
    await liftClosure(desk, park, closure);
    await readCalendarNow(manager, park, id);
    expect(await onSite()).toEqual([span(6, 9)]);
  });

  it("takes the nights of a hold that has run out, not those of one that has not", async () => {
    await openPark();
    const { stay } = await holdStay(guest, park, { request: ask(5, 2, { guest: null }) });
    const id = await addOne();
    serve(calendar(event("a", 5, 7)));
    await readCalendarNow(manager, park, id);
    expect(await listed()).toMatchObject([{ conflicts: [{ stays: [{ id: stay.id }] }], closed: 0 }]);
    await runOut(stay.id);
    await readCalendarNow(manager, park, id);
    expect(await listed()).toMatchObject([{ conflicts: [], closed: 2 }]);
  });

  it("gives an event that is over its nights, and its name to the same event at another time", async () => {
    await openPark();
    const id = await addOne();
    serve(calendar(event("a", 5, 7)));
    await readCalendarNow(manager, park, id);
    await byHand((sql) => sql`update closure set starts = starts - 20, ends = ends - 20`);
    serve(calendar(event("a", 9, 10)));
    await readCalendarNow(manager, park, id);
    expect(await onSite()).toEqual([span(-15, -13), span(9, 10)]);
  });

  it("that cannot be read leaves the last good state, and says why", async () => {
    await openPark();
    const id = await addOne();
    serve(calendar(event("a", 5, 8)));
    await readCalendarNow(manager, park, id);
    const good = (await listed())[0]!.readAt;
    for (const [listener, fault] of [
      [(_, response) => response.writeHead(404).end(), "status:404"],
      [(_, response) => response.end("<!doctype html><title>Sign in</title>"), "not-a-calendar"],
      [(_, response) => response.end(calendar(event("a", 5, 9)).slice(0, -40)), "not-a-calendar"],
      [(request) => request.socket.destroy(), "unreachable"],
      [(_, response) => response.end(calendar(event("d", 1, 2, "RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30"))), "timeout"],
    ] as [RequestListener, string][]) {
      answer = listener;
      await readCalendarNow(manager, park, id);
      expect(await listed()).toMatchObject([{ fault, readAt: good, closed: 3 }]);
    }
    expect(await onSite()).toEqual([span(5, 8)]);
    serve(calendar(event("a", 5, 9)));
    await readCalendarNow(manager, park, id);
    expect(await listed()).toMatchObject([{ fault: null, closed: 4 }]);
  });

  it("removed opens what it closed and is read no more", async () => {
    await openPark();
    const id = await addOne();
    serve(calendar(event("a", 5, 8)));
    await readDueCalendars();
    expect(await onSite()).toEqual([span(5, 8)]);
    await removeOutsideCalendar(manager, park, id);
    expect(await onSite()).toEqual([]);
    await byHand((sql) => sql`update outside_calendar set next_read_at = now() - interval '1 hour'`);
    expect(await readDueCalendars()).toBe(0);
    expect(await refusal(readCalendarNow(manager, park, id))).toMatchObject({ kind: "missing" });
  });

  it("is due every 15 minutes, and of several who ask one gets the turn", async () => {
    await openPark();
    await addOne();
    const turns = await Promise.all([1, 2, 3, 4].map(() => takeDueTurns(10)));
    expect(turns.flat()).toHaveLength(1);
    const [wait] = await byHand((sql) => sql<{ minutes: number }[]>`select extract(epoch from next_read_at - now())::float8 / 60 as minutes from outside_calendar`);
    expect(wait!.minutes).toBeGreaterThan(14);
    expect(wait!.minutes).toBeLessThanOrEqual(15);
    expect(await readDueCalendars()).toBe(0);
  });

  it("is a manager's alone, and each change of it has its entry in the audit, a reading none", async () => {
    await openPark();
    expect(await refusal(addOutsideCalendar(desk, park, "a01", { name: "x", url: base }))).toMatchObject({ kind: "missing" });
    expect(await refusal(addOutsideCalendar(manager, park, "z99", { name: "x", url: base }))).toMatchObject({ kind: "missing" });
    const id = await addOne();
    expect(await refusal(listOutsideCalendars(desk, park, today()))).toMatchObject({ kind: "missing" });
    expect(await refusal(readCalendarNow(desk, park, id))).toMatchObject({ kind: "missing" });
    serve(calendar());
    await readCalendarNow(manager, park, id);
    await removeOutsideCalendar(manager, park, id);
    const entries = await byHand((sql) => sql<{ actor: string; before: unknown }[]>`select actor, before from audit_entry where subject = 'outside_calendar' order by at`);
    expect(entries.map(({ actor, before }) => [actor, before === null])).toEqual([["the-manager", true], ["the-manager", false]]);
  });
});

describe("a feed", () => {
  it("says which nights are taken or closed, and of nobody who", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(5, 2) });
    await requestStay(guest, park, { request: ask(9, 1) });
    await holdStay(guest, park, { request: ask(12, 1, { guest: null }) });
    await closeSite(desk, park, "a01", { starts: day(20), ends: day(23), reason: "Ada Quill broke the post" });
    await bookStay(desk, park, { request: ask(5, 2, { site: "a02" }) });
    const answered = await fetchFeed(await issueFeed(manager, park, "a01", "the listing"));
    expect(answered.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    const text = await answered.text();
    expect([...text.matchAll(/DTSTART;VALUE=DATE:(\d+)\r\nDTEND;VALUE=DATE:(\d+)[\s\S]*?SUMMARY:(\w+)/g)].map(([, from, to, what]) => [from, to, what])).toEqual([
      [compact(day(5)), compact(day(7)), "Taken"], [compact(day(9)), compact(day(10)), "Taken"], [compact(day(20)), compact(day(23)), "Closed"],
    ]);
    expect(text).not.toMatch(/Ada|Quill|example\.org|555|the listing|post/);
    for (const line of text.split("\r\n")) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  });

  it("is the same text until something changes, and says so", async () => {
    await openPark();
    const token = await issueFeed(manager, park, "a01", "the listing");
    const { stay } = await bookStay(desk, park, { request: ask(5, 2) });
    const first = await fetchFeed(token), etag = first.headers.get("etag")!, text = await first.text();
    const again = await fetchFeed(token, { "if-none-match": `"other", W/${etag}` });
    expect([again.status, await again.text(), again.headers.get("etag")]).toEqual([304, "", etag]);
    const changed = Date.parse(first.headers.get("last-modified")!);
    expect(Math.abs(changed - Date.now())).toBeLessThan(60_000);
    await cancelStay(desk, park, stay.id);
    const after = await fetchFeed(token, { "if-none-match": etag });
    expect(after.status).toBe(200);
    expect(await after.text()).not.toBe(text);
    expect(Date.parse(after.headers.get("last-modified")!)).toBeGreaterThanOrEqual(changed);
  });

  it("ended, mistyped or unknown is not there; its token is nowhere in the database", async () => {
    await openPark();
    const token = await issueFeed(manager, park, "a01", "the listing");
    expect(await listFeeds(manager, park)).toMatchObject([{ name: "the listing", site: "a01" }]);
    const kept = await byHand((sql) => sql`select count(*)::int as n from calendar_feed f, audit_entry e where f::text like ${`%${token}%`} or e::text like ${`%${token}%`}`);
    expect(kept[0]!["n"]).toBe(0);
    await revokeFeed(manager, park, (await listFeeds(manager, park))[0]!.id);
    expect((await fetchFeed(token)).status).toBe(404);
    expect((await fetchFeed("x".repeat(43))).status).toBe(404);
    expect(await listFeeds(manager, park)).toEqual([]);
    expect(await refusal(issueFeed(desk, park, "a01", "x"))).toMatchObject({ kind: "missing" });
  });

  it("read in elsewhere closes the same nights, names them the same and follows every change", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(5, 2) });
    await closeSite(desk, park, "a01", { starts: day(7), ends: day(10), reason: "repairs" });
    const token = await issueFeed(manager, park, "a01", "the other site");
    answer = (request, response) => void fetchFeed(token).then(async (got) => response.writeHead(got.status, Object.fromEntries(got.headers)).end(await got.text()));
    const id = await addOne("a02", `${base}/calendar/${token}.ics`);
    await readCalendarNow(manager, park, id);
    expect(await onSite("a02")).toEqual(await onSite("a01"));
    const uids = (content: Awaited<ReturnType<typeof findFeed>>) => content!.nights.map(({ uid }) => uid);
    expect(uids(await findFeed(await issueFeed(manager, park, "a02", "back")))).toEqual(uids(await findFeed(token)));
    await cancelStay(desk, park, stay.id);
    await readCalendarNow(manager, park, id);
    expect(await onSite("a02")).toEqual([span(7, 10)]);
  });

  it("that brings a site's own nights back to it closes nothing by its echo", async () => {
    await openPark();
    serve(calendar(event("from-outside, with; signs", 15, 17)));
    const outside = await addOne();
    await readCalendarNow(manager, park, outside);
    const { stay } = await bookStay(desk, park, { request: ask(5, 2) });
    const [there, back] = [await issueFeed(manager, park, "a01", "there"), await issueFeed(manager, park, "a02", "back")];
    const elsewhere = answer;
    answer = (request, response) => {
      const token = /^\/calendar\/(.+)\.ics$/.exec(request.url!)?.[1];
      if (!token) return elsewhere(request, response);
      void fetchFeed(token).then(async (got) => response.writeHead(got.status, Object.fromEntries(got.headers)).end(await got.text()));
    };
    const onTwo = await addOne("a02", `${base}/calendar/${there}.ics`), onOne = await addOne("a01", `${base}/calendar/${back}.ics`);
    await readCalendarNow(manager, park, onTwo);
    await readCalendarNow(manager, park, onOne);
    expect(await onSite("a02")).toEqual([span(5, 7), span(15, 17)]);
    expect((await listed()).map(({ conflicts }) => conflicts)).toEqual([[], [], []]);
    // Gone here, still there when it is read: no news.
    await cancelStay(desk, park, stay.id);
    await removeOutsideCalendar(manager, park, outside);
    await readCalendarNow(manager, park, onOne);
    expect(await onSite("a01")).toEqual([]);
    await readCalendarNow(manager, park, onTwo);
    expect(await onSite("a02")).toEqual([]);
  });
});
