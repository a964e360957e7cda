import type { APIRequestContext, TestInfo } from "@playwright/test";
import { resultSchemas } from "@/app/api/result-schema";
import { stayRecordSchema } from "@/app/api/stays/record";
import { addDays, asDate, dateOfDay, dayNumber, weekday, type IsoDate } from "@/lib/stays/dates";
import { expect, test } from "./fixtures";
import { demoRig, nightsOf } from "./open-stays";

const park = "quillback-meadow";
const today = asDate(new Date().toISOString().slice(0, 10));
const guest = { name: "Ilse Rowan", phone: "555 010 0000" };
/** A site for each project alone, so that the two never meet. Both take the rig; the third is far too short for it. */
const siteOf = (info: TestInfo) => (info.project.name === "phone" ? "c07" : "c12");
const tooShort = "e08";

interface Body {
  readonly faults?: readonly { readonly path: string; readonly code?: string; readonly message: string; readonly reasons?: readonly { readonly code: string; readonly text: string }[] }[];
  readonly stay?: { readonly id: string; readonly site: string; readonly state: string; readonly version: number; readonly arrive: string; readonly depart: string; readonly override: { readonly why: string } | null; readonly quotes: readonly { readonly nights: unknown; readonly lines: readonly { readonly code: string; readonly count?: number }[] }[] };
  readonly link?: { readonly token: string };
  readonly free?: readonly string[];
}

async function post(request: APIRequestContext, data: object, headers: Record<string, string> = {}) {
  const answer = await request.post("/api/stays", { data: { park, rig: demoRig(), guest, ...data }, headers });
  return { status: answer.status(), headers: answer.headers(), body: (await answer.json()) as Body };
}

async function patch(request: APIRequestContext, id: string, data: object, headers: Record<string, string>) {
  const answer = await request.patch(`/api/stays/${id}`, { data, headers });
  return { status: answer.status(), body: (await answer.json()) as Body };
}

const bearer = ({ link }: Body) => ({ Authorization: `Bearer ${link!.token}` });
const cancel = (request: APIRequestContext, body: Body) => patch(request, body.stay!.id, { state: "cancelled" }, bearer(body));
const pathsOf = ({ faults }: Body) => faults?.map(({ path }) => path).sort();

/** The first Sunday that is at least the `nth` of `month`, this year or next, and still to come. */
function nextSunday(month: string, nth: number): IsoDate {
  const year = Number(today.slice(0, 4));
  for (const y of [year, year + 1]) {
    const from = addDays(asDate(`${y}-${month}-01`), 7 * (nth - 1));
    const sunday = addDays(from, (7 - weekday(from)) % 7);
    if (sunday > today) return sunday;
  }
  throw new Error("no such Sunday");
}

test.describe("availability", () => {
  const ask = async (request: APIRequestContext, query: string) => {
    const answer = await request.get(`/api/parks/${park}/availability?${query}`);
    return { status: answer.status(), body: (await answer.json()) as Body & { readonly sites: readonly { readonly id: string; readonly label: string }[] } };
  };

  test("tells of the sites asked about alone, and of those that are none beside what is wrong with the dates", async ({ request }) => {
    const two = await ask(request, `arrive=${addDays(today, 300)}&depart=${addDays(today, 301)}&site=c12&site=b05`);
    expect(two.body.sites.map(({ id }) => id).sort()).toEqual(["b05", "c12"]);
    const wrong = await ask(request, `arrive=${addDays(today, 300)}&site=z99&site=b05&site=`);
    expect([wrong.status, pathsOf(wrong.body)]).toEqual([422, ["depart", "site", "site"]]);
  });

  test("names nobody", async ({ request }, info) => {
    const opened = await post(request, { ...nightsOf(info, 13), site: siteOf(info), guest: { ...guest, name: "Nobody Else Knows" } });
    const { arrive, depart } = nightsOf(info, 13);
    expect(JSON.stringify((await ask(request, `arrive=${arrive}&depart=${depart}`)).body)).not.toContain("Nobody");
    await cancel(request, opened.body);
  });
});

test.describe("opening a stay", () => {
  test("counts the night on which clocks are put forward or back, and the last of the year, as one each", async ({ request }, info) => {
    const eve = asDate(`${Number(today.slice(0, 4)) + (today.slice(5) >= "12-31" ? 1 : 0)}-12-31`);
    for (const [arrive, nights] of [[addDays(nextSunday("03", 2), -1), 2], [addDays(nextSunday("11", 1), -1), 2], [eve, 1]] as const) {
      const opened = await post(request, { arrive, depart: addDays(arrive, nights), site: siteOf(info) });
      expect(opened.status, arrive).toBe(201);
      expect(opened.body.stay!.quotes[0]!.lines.find(({ code }) => code === "night")).toMatchObject({ count: nights });
      expect(opened.headers["location"]).toBe(`/api/stays/${opened.body.stay!.id}`);
      await cancel(request, opened.body);
    }
  });

  test("refuses 400 nights by the park's own limit and 401 by everybody's; no nights, and February 29 of a common year", async ({ request }, info) => {
    const arrive = addDays(today, 60);
    const whole = await post(request, { arrive, depart: addDays(arrive, 400), site: siteOf(info) });
    expect([whole.status, pathsOf(whole.body), whole.body.faults![0]!.code]).toEqual([422, ["depart"], "longer-than-allowed"]);
    expect(pathsOf((await post(request, { arrive, depart: addDays(arrive, 401), site: siteOf(info) })).body)).toEqual(["depart"]);
    expect(pathsOf((await post(request, { arrive, depart: arrive, site: siteOf(info) })).body)).toEqual(["depart"]);
    expect(pathsOf((await post(request, { arrive: "2027-02-29", depart: "2027-02-30", site: siteOf(info) })).body)).toEqual(["arrive", "depart"]);
    // A leap day is a day; it lies beyond what the park books ahead until 2027.
    const leap = await post(request, { arrive: "2028-02-28", depart: "2028-03-01", site: siteOf(info) });
    expect(today >= "2027-03-01" || leap.body.faults![0]!.code === "too-far-ahead").toBe(true);
  });

  test("tells why the rig does not fit, in words and codes, beside all else that stands against it", async ({ request }) => {
    const summer = asDate(`${Number(today.slice(0, 4)) + (today.slice(5) > "06-20" ? 1 : 0)}-06-20`);
    const refused = await post(request, { arrive: summer, depart: addDays(summer, 1), site: tooShort, guest: { name: "Ilse Rowan" } });
    expect([refused.status, pathsOf(refused.body)]).toEqual([422, ["depart", "guest.email", "site"]]);
    const fit = refused.body.faults!.find(({ code }) => code === "fit")!;
    expect(fit.message).toBe("Site E-08: the rig does not fit there.");
    expect(fit.reasons!.length).toBeGreaterThan(0);
    for (const { code, text } of fit.reasons!) expect([code, text]).toEqual([expect.stringMatching(/^[a-z]/), expect.stringMatching(/\.$/)]);
    const unknown = await post(request, { arrive: "2020-06-20", depart: "2020-06-21", site: "z99" });
    expect(pathsOf(unknown.body)).toEqual(["arrive", "site"]);
  });

  test("answers the same key the same also where everything else now stands against it", async ({ request }, info) => {
    const key = { "Idempotency-Key": `late-${info.project.name}-${Date.now()}` };
    const nights = nightsOf(info, 14);
    const first = await post(request, { ...nights, site: siteOf(info) }, key);
    expect(first.status).toBe(201);
    await cancel(request, first.body);
    const other = await post(request, { ...nights, site: siteOf(info) });
    expect(other.status).toBe(201);
    const again = await post(request, { ...nights, site: siteOf(info) }, key);
    expect([again.status, again.body.stay]).toMatchObject([200, { id: first.body.stay!.id, state: "cancelled" }]);
    await cancel(request, other.body);
  });

  test("a request that was refused leaves its key free", async ({ request }, info) => {
    const key = { "Idempotency-Key": `refused-${info.project.name}-${Date.now()}` };
    const nights = nightsOf(info, 15);
    expect((await post(request, { ...nights, site: tooShort }, key)).status).toBe(422);
    const opened = await post(request, { ...nights, site: siteOf(info) }, key);
    expect(opened.status).toBe(201);
    await cancel(request, opened.body);
  });

  test("refuses a body that is too large, and a key that is", async ({ request }, info) => {
    expect((await post(request, { ...nightsOf(info, 16), note: "x".repeat(300_000) })).status).toBe(413);
    expect(pathsOf((await post(request, { ...nightsOf(info, 16), site: siteOf(info) }, { "Idempotency-Key": "k".repeat(201) })).body)).toEqual(["Idempotency-Key"]);
  });
});

test.describe("staff, by their session", () => {
  test.use({ as: "desk" });

  test("read and change a stay of their park; another site's page cannot make them", async ({ request, playwright, baseURL }, info) => {
    const guests = await playwright.request.newContext({ baseURL: baseURL!, storageState: { cookies: [], origins: [] } });
    const nights = nightsOf(info, 19);
    const [opened, neighbour] = [await post(guests, { ...nights, site: siteOf(info) }), await post(guests, { ...nights, site: info.project.name === "phone" ? "d07" : "d08" })];
    const id = opened.body.stay!.id;
    expect((await request.get(`/api/stays/${id}`)).status()).toBe(200);
    expect((await guests.get(`/api/stays/${id}`)).status()).toBe(404);
    for (const headers of [{}, { Origin: "https://elsewhere.example" }, { "Sec-Fetch-Site": "cross-site", Origin: baseURL! }, { "Sec-Fetch-Site": "same-site" }] as Record<string, string>[]) {
      expect((await patch(request, id, { note: "forged" }, headers)).status, JSON.stringify(headers)).toBe(403);
    }
    const desk = { Origin: baseURL! };
    expect((await patch(request, id, { note: "Comes late." }, desk)).body.stay).toMatchObject({ version: 2 });

    expect(pathsOf((await patch(request, id, { site: "z99", reason: "a fallen tree" }, desk)).body)).toEqual(["site"]);
    const gone = await patch(request, id, { site: neighbour.body.stay!.site, reason: "a fallen tree" }, desk);
    expect(gone.status).toBe(409);
    expect(gone.body.free!.length).toBeGreaterThan(0);
    expect(gone.body.free).not.toContain(tooShort);
    const poor = await patch(request, id, { site: tooShort, reason: "a fallen tree" }, desk);
    expect([poor.status, pathsOf(poor.body)]).toEqual([422, ["site"]]);
    const taken = await patch(request, id, { site: tooShort, reason: "a fallen tree", override: "They stand across two pads." }, desk);
    expect(taken.body.stay).toMatchObject({ site: tooShort, override: { why: "They stand across two pads." } });

    const longer = await patch(request, id, { depart: addDays(asDate(nights.depart), 1), version: 3 }, desk);
    expect(longer.body.stay).toMatchObject({ ...nights, depart: addDays(asDate(nights.depart), 1) });
    expect(longer.body.stay!.quotes).toHaveLength(2);
    expect((await patch(request, id, { depart: nights.depart, version: 3 }, desk)).status).toBe(409);
    expect(pathsOf((await patch(request, id, { state: "arrived" }, desk)).body)).toEqual(["state"]);
    for (const { body } of [opened, neighbour]) expect((await cancel(guests, body)).status).toBe(200);
    await guests.dispose();
  });
});

test("what is answered is what is described, without a field more or less", async ({ request }, info) => {
  const opened = await post(request, { ...nightsOf(info, 18), site: siteOf(info) });
  const read = (await (await request.get(`/api/stays/${opened.body.stay!.id}`, { headers: bearer(opened.body) })).json()) as Body;
  for (const { stay } of [opened.body, read]) expect(stayRecordSchema.parse(stay)).toEqual(stay);
  await cancel(request, opened.body);
  const refused = await post(request, { ...nightsOf(info, 18), site: tooShort });
  expect(resultSchemas.Refusal.parse(refused.body)).toEqual(refused.body);
});

test("a guest changes a rig that still fits, and the days ahead are the park's", async ({ request }, info) => {
  const opened = await post(request, { ...nightsOf(info, 16), site: siteOf(info) });
  const changed = await patch(request, opened.body.stay!.id, { rig: demoRig("demo-van-20") }, bearer(opened.body));
  expect([changed.status, changed.body.stay!.version]).toEqual([200, 2]);
  expect(pathsOf((await patch(request, opened.body.stay!.id, { override: "Please.", site: tooShort }, bearer(opened.body))).body)).toEqual(["site"]);
  await cancel(request, opened.body);
  const far = dateOfDay(dayNumber(today) + 400);
  expect((await post(request, { arrive: far, depart: addDays(far, 2), site: siteOf(info) })).body.faults![0]).toMatchObject({ path: "arrive", code: "too-far-ahead" });
});
