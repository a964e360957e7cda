import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { day } from "../store/stays-requests";
import { accepted, book, bookInARow, clients, type Told } from "./bookings";
import { openHouse, type Copy, type House } from "./house";

/**
 * What holds when things break: the built application in processes of its own, on the embedded database as people have
 * it, killed in the middle of bookings that come in over HTTP.
 */
let house: House;

beforeEach(async () => {
  house = await openHouse();
});
afterEach(() => house.close());

/** Every stay in the database is whole, on a night of its own, and every one that a client was promised is among them. */
async function expectWholeStays(promised: readonly Told[]): Promise<number> {
  const stays = await house.query<{ id: string; night: string; occupied: number; audited: number; quoted: number; linked: number; keyed: number }>(`
    select s.id::text, s.arrive::text as night,
      (select count(*)::int from occupancy o where o.stay_id = s.id and o.site_id = s.site_id and o.nights = daterange(s.arrive, s.depart)) as occupied,
      (select count(*)::int from audit_entry a where a.subject_id = s.id) as audited,
      (select count(*)::int from stay_quote q where q.stay_id = s.id and (q.record ->> 'total')::int = 3350) as quoted,
      (select count(*)::int from stay_link l where l.stay_id = s.id) as linked,
      (select count(*)::int from idempotency_key k where k.stay_id = s.id) as keyed
    from stay s`);
  for (const { occupied, audited, quoted, linked, keyed } of stays) {
    expect([occupied, audited, quoted, keyed]).toEqual([1, 1, 1, 1]);
    expect(linked).toBeGreaterThan(0);
  }
  expect(new Set(stays.map(({ night }) => night)).size).toBe(stays.length);
  expect(stays.map(({ id }) => id)).toEqual(expect.arrayContaining(promised.filter(accepted).map(({ id }) => id)));
  for (const orphan of ["occupancy where stay_id is null and closure_id is null", "idempotency_key where stay_id is null"]) expect(await house.query(`select 1 from ${orphan}`), orphan).toEqual([]);
  return stays.length;
}

/** Whoever got no clear answer asks again with the same key: each has one stay then, and those who had one have the same. */
async function expectSameAgain(copy: Copy, before: readonly Told[]): Promise<void> {
  const again = new Map<string, Told>();
  await bookInARow(copy.address, first, before.length, (told) => again.set(told.key, told));
  for (const { key, id, status } of before) {
    const now = again.get(key)!;
    expect(accepted(now), `${key}: ${status}, then ${now.status}`).toBe(true);
    if (id !== null) expect([now.status, now.id]).toEqual([200, id]);
  }
  const token = [...again.values()][0]!;
  const read = await fetch(`${copy.address}/api/stays/${token.id}`, { headers: { Authorization: `Bearer ${token.token}` } });
  expect([read.status, await read.json()]).toMatchObject([200, { stay: { id: token.id, state: "booked", total: 3350 } }]);
}

const first = 10;
const nights = 160;

async function until(what: () => boolean): Promise<void> {
  while (!what()) await new Promise((done) => setTimeout(done, 5));
}

describe("two copies of the application on one database", () => {
  it("200 clients at once for one site and night, half at each: one gets it, 199 are told what is free", async () => {
    const copies = await Promise.all([house.startCopy(), house.startCopy()]);
    const told = await Promise.all(Array.from({ length: 200 }, (_, i) => book(copies[i % 2]!.address, 30, `client-${i}`)));
    expect(told.filter(accepted)).toHaveLength(1);
    const refused = told.filter(({ status }) => status === 409);
    expect(refused).toHaveLength(199);
    for (const { free } of refused) expect(free).toEqual(["a02"]);
    expect(await expectWholeStays(told)).toBe(1);
  });
});

describe("the application killed in the middle of a burst of bookings", () => {
  it("loses none that was accepted and leaves none half; who asks again with their key gets one stay", async () => {
    const copy = await house.startCopy();
    const told: Told[] = [];
    const burst = bookInARow(copy.address, first, nights, (answer) => told.push(answer));
    await until(() => told.length >= 40);
    copy.drop();
    await copy.ended;
    await burst;
    expect(told.filter(({ status }) => status === 0).length).toBeGreaterThan(0);
    expect(told.filter((answer) => !accepted(answer)).map(({ status }) => status)).toEqual(told.filter((answer) => !accepted(answer)).map(() => 0));
    // What the database still works on ends with the connections.
    await expect.poll(() => house.query("select 1 from pg_stat_activity where datname = current_database() and state <> 'idle' and pid <> pg_backend_pid()").then((rows) => rows.length)).toBe(0);
    const kept = await expectWholeStays(told);
    expect(kept - told.filter(accepted).length).toBeLessThanOrEqual(clients);

    const next = await house.startCopy(copy.port);
    await expectSameAgain(next, told);
    expect(await expectWholeStays(told)).toBe(nights);
  });
});

describe("the database killed in the middle of a burst of bookings", () => {
  it("loses none that was accepted and leaves none half; the application says 503 and goes on by itself when it is back", async () => {
    const copy = await house.startCopy();
    const told: Told[] = [];
    const burst = bookInARow(copy.address, first, nights, (answer) => told.push(answer));
    await until(() => told.length >= 40);
    await house.killDatabase();
    await burst;
    const turnedAway = told.filter((answer) => !accepted(answer));
    expect(turnedAway.length).toBeGreaterThan(0);
    for (const { status, retryAfter } of turnedAway) expect([status, retryAfter]).toEqual([503, "5"]);
    expect((await fetch(`${copy.address}/api/parks/two-pines/availability?arrive=${day(20)}&depart=${day(21)}`)).status).toBe(503);

    await house.restartDatabase();
    const kept = await expectWholeStays(told);
    expect(kept - told.filter(accepted).length).toBeLessThanOrEqual(clients);
    await expectSameAgain(copy, told);
    expect(await expectWholeStays(told)).toBe(nights);
  });
});
