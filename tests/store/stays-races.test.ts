import { spawn } from "node:child_process";
import { once } from "node:events";
import postgres from "postgres";
import { describe, expect, inject, it } from "vitest";
import { NightsTaken } from "@/lib/store/errors";
import { listAudit } from "@/lib/store/stays-audit";
import { getStay, moveStay } from "@/lib/store/stays-change";
import { bookStay, cancelStay, holdStay, requestHeld } from "@/lib/store/stays";
import { withStore } from "./client";
import { ask, byHand, day, desk, guest, guestWith, occupants, openPark, park, runOut } from "./stays-park";

withStore();

const outcomes = async (work: Promise<unknown>[]) => {
  const settled = await Promise.allSettled(work);
  const refused = settled.flatMap((one) => (one.status === "rejected" ? [one.reason as unknown] : []));
  return { accepted: settled.length - refused.length, refused };
};

/** A second connection in a transaction of its own, to be ended by hand. */
async function secondConnection<T>(work: (tx: postgres.ReservedSql) => Promise<T>): Promise<T> {
  const sql = postgres(inject("databaseUrl"), { max: 1, onnotice: () => undefined });
  const tx = await sql.reserve();
  try {
    await tx`begin`;
    await tx`select set_config('padwright.actor_kind', 'desk', true)`;
    return await work(tx);
  } finally {
    tx.release();
    await sql.end();
  }
}

const settles = (work: Promise<unknown>, ms: number) => Promise.race([work.then(() => true, () => true), new Promise<boolean>((done) => setTimeout(() => done(false), ms))]);

/** Runs a process that books, and gives its lines as they come. */
function burst(...words: string[]) {
  const child = spawn(process.execPath, ["scripts/run.mjs", "tests/store/stays-burst.ts", ...words], { env: { ...process.env, DATABASE_URL: inject("databaseUrl") }, stdio: ["ignore", "pipe", "inherit"], detached: true });
  const lines: string[] = [];
  let rest = "";
  child.stdout.on("data", (chunk: Buffer) => {
    const parts = (rest + chunk.toString()).split("\n");
    rest = parts.pop() ?? "";
    lines.push(...parts.filter((line) => /^(accepted|taken|failed) /.test(line)));
  });
  return { lines, ended: once(child, "close"), kill: () => process.kill(-child.pid!, "SIGKILL") };
}

describe("200 clients at once for one site and night", () => {
  it("one gets it, 199 are told clearly that it is taken and what is free", async () => {
    await openPark();
    const { accepted, refused } = await outcomes(Array.from({ length: 200 }, () => holdStay(guest, park, { request: ask(30, 1) })));
    expect(accepted).toBe(1);
    for (const error of refused) {
      expect(error).toBeInstanceOf(NightsTaken);
      expect(error).toMatchObject({ site: "a01", free: ["a02"], nearest: { arrive: day(29), depart: day(30) } });
    }
    expect(await occupants()).toEqual([{ site: "a01", nights: `[${day(30)},${day(31)})` }]);
    expect(await byHand((sql) => sql`select 1 from stay`)).toHaveLength(1);
    expect(await byHand((sql) => sql`select 1 from audit_entry where subject = 'stay'`)).toHaveLength(1);
  });

  it("the same where a hold on it had just run out: it is released once", async () => {
    await openPark();
    const { stay } = await holdStay(guest, park, { request: ask(29, 3) });
    await runOut(stay.id);
    const { accepted, refused } = await outcomes(Array.from({ length: 60 }, () => bookStay(desk, park, { request: ask(30, 1) })));
    expect(accepted).toBe(1);
    expect(refused.every((error) => error instanceof NightsTaken)).toBe(true);
    expect((await listAudit(desk, park, stay.id)).filter(({ by }) => by === "clock")).toHaveLength(1);
  });

  it("the same across two processes on one database", async () => {
    await openPark();
    const both = [burst("same", "100"), burst("same", "100")];
    await Promise.all(both.map(({ ended }) => ended));
    const lines = both.flatMap(({ lines }) => lines);
    expect(lines).toHaveLength(200);
    expect(lines.filter((line) => line.startsWith("accepted"))).toHaveLength(1);
    expect(lines.filter((line) => line === "taken a02")).toHaveLength(199);
  });

  it("with overlapping nights of every kind, no two that were accepted share one", async () => {
    await openPark();
    const { accepted, refused } = await outcomes(Array.from({ length: 80 }, (_, i) => bookStay(desk, park, { request: ask(30 + (i * 7) % 12, 1 + (i * 5) % 6, { site: i % 2 ? "a01" : "a02" }) })));
    expect(refused.every((error) => error instanceof NightsTaken)).toBe(true);
    const taken = await byHand((sql) => sql<{ nights: number; distinct: number }[]>`
      select count(*)::int as nights, count(distinct (site_id, night))::int as distinct
      from occupancy, generate_series(lower(nights), upper(nights) - 1, '1 day') night`);
    expect(taken[0]!.nights).toBe(taken[0]!.distinct);
    expect(await occupants()).toHaveLength(accepted);
  });
});

describe("two connections", () => {
  it("that insert past all code: the second waits for the first, and the constraint refuses it", async () => {
    await openPark();
    await secondConnection(async (tx) => {
      const insert = (sql: postgres.Sql | postgres.ReservedSql, reference: string) => sql`
        insert into stay (park_id, reference, state, arrive, depart, site_id, rig, guest_name)
        select park_id, ${reference}, 'booked', '2027-06-01', '2027-06-03', id, '{}', 'by hand' from site where site_id = 'a01'`;
      await insert(tx, "FIRST");
      const second = byHand((sql) => insert(sql, "SECOND"));
      expect(await settles(second, 300)).toBe(false);
      await tx`commit`;
      await expect(second).rejects.toMatchObject({ code: "23P01", constraint_name: "occupancy_one_a_night" });
    });
  });

  it("a guest who books a hold that has just run out keeps it, though another wants the night", async () => {
    await openPark();
    const { stay } = await holdStay(guest, park, { request: ask(30, 1) });
    await runOut(stay.id);
    await secondConnection(async (tx) => {
      await tx`update stay set state = 'booked', held_until = null where id = ${stay.id}`;
      const other = bookStay(desk, park, { request: ask(30, 1) });
      expect(await settles(other, 300)).toBe(false);
      await tx`commit`;
      await expect(other).rejects.toBeInstanceOf(NightsTaken);
    });
    expect((await getStay(desk, park, stay.id)).state).toBe("booked");
  });

  it("and where that guest's booking comes to nothing, the other gets the night after all", async () => {
    await openPark();
    const { stay } = await holdStay(guest, park, { request: ask(30, 1) });
    await runOut(stay.id);
    await secondConnection(async (tx) => {
      await tx`update stay set state = 'booked', held_until = null where id = ${stay.id}`;
      const other = bookStay(desk, park, { request: ask(30, 1) });
      expect(await settles(other, 300)).toBe(false);
      await tx`rollback`;
      expect((await other).stay).toMatchObject({ state: "booked", site: "a01" });
    });
    expect((await getStay(desk, park, stay.id)).state).toBe("cancelled");
  });

  it("a night that is being given back is waited for", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(30, 1) });
    const { stay: other } = await bookStay(desk, park, { request: ask(30, 1, { site: "a02" }) });
    const [cancelled, moved] = await Promise.allSettled([cancelStay(desk, park, stay.id), moveStay(desk, park, other.id, "a01")]);
    expect(cancelled.status).toBe("fulfilled");
    // Whichever came first, what stands now is one of the two orders and nothing between.
    const site = (await getStay(desk, park, other.id)).site;
    expect(site).toBe(moved.status === "fulfilled" ? "a01" : "a02");
    expect(await occupants()).toEqual([{ site, nights: `[${day(30)},${day(31)})` }]);
  });

  it("two desks that move two stays to one site: one of them is told", async () => {
    await openPark();
    const any = { site: null };
    const stays = await Promise.all([1, 2].map(() => bookStay(desk, park, { request: ask(30, 2, any) })));
    const { accepted, refused } = await outcomes(stays.map(({ stay }) => moveStay(desk, park, stay.id, "a01")));
    expect([accepted, refused.length]).toEqual([1, 1]);
    expect(refused[0]).toBeInstanceOf(NightsTaken);
  });

  it("a guest's and the desk's change of one stay at once are both made, one after the other", async () => {
    await openPark();
    const { stay, link } = await holdStay(guest, park, { request: ask(30, 1) });
    const changes = [requestHeld(guestWith(link), park, stay.id), ...Array.from({ length: 3 }, () => moveStay(desk, park, stay.id, "a01"))];
    expect((await outcomes(changes)).accepted).toBe(4);
    expect(await getStay(desk, park, stay.id)).toMatchObject({ state: "requested", version: 5 });
    expect(await listAudit(desk, park, stay.id)).toHaveLength(5);
  });
});

describe("a process killed in the middle of a burst", () => {
  it("leaves no half stay and loses none that was accepted", async () => {
    await openPark();
    const one = burst("row", "10", "380");
    while (one.lines.length < 40) await new Promise((done) => setTimeout(done, 10));
    one.kill();
    await one.ended;
    const accepted = one.lines.filter((line) => line.startsWith("accepted ")).map((line) => line.slice(9));
    expect(accepted.length).toBeGreaterThanOrEqual(40);
    expect(accepted.length).toBeLessThan(380);
    // What the server still works on ends with its connections.
    await expect.poll(() => byHand(async (sql) => (await sql`select 1 from pg_stat_activity where datname = current_database() and state <> 'idle' and pid <> pg_backend_pid()`).length)).toBe(0);
    const whole = await byHand((sql) => sql<{ id: string; occupied: boolean; audited: number }[]>`
      select s.id::text, exists(select 1 from occupancy o where o.stay_id = s.id) as occupied, (select count(*)::int from audit_entry a where a.subject_id = s.id) as audited from stay s`);
    expect(whole.every(({ occupied, audited }) => occupied && audited === 1)).toBe(true);
    expect(whole.map(({ id }) => id)).toEqual(expect.arrayContaining(accepted));
    // Only those in flight may have been made without the word having got out.
    expect(whole.length - accepted.length).toBeLessThanOrEqual(8);
  });
});
