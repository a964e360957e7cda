import "./store-url";
import { beforeEach, describe, expect, it } from "vitest";
import { accountKey } from "@/lib/store/accounts/auth";
import { perAccount, perAddress, takeTry } from "@/lib/store/accounts/limits";
import { inviteToJoin, issueReset, linkForOperator, linksForFirstManagers, listLinks, readLink, revokeLink } from "@/lib/store/accounts/links";
import { changePassword, changeRole, joinByLink, keepsAManager, listStaff, renameSelf, resetByLink, switchAccount } from "@/lib/store/accounts/people";
import { endOtherSessions, endSession, findSession, listSessions, signIn } from "@/lib/store/accounts/sessions";
import { client } from "@/lib/store/client";
import type { StoreError } from "@/lib/store/errors";
import { hashToken } from "@/lib/store/stays-actor";
import { enter, from, join, password, runOutLinks } from "./accounts-staff";
import { withStore } from "./client";
import { byHand, openPark, park, refusal } from "./stays-park";

withStore();
beforeEach(async () => {
  await client().rateLimit.deleteMany();
});

const kindOf = async (work: Promise<unknown>) => ((await refusal(work)) as StoreError).kind;
const person = (email: string) => ({ name: "Pat", email, password });

describe("a one-time link", () => {
  it("makes one account, of its park and role, and no second", async () => {
    await openPark();
    const token = await linkForOperator(park, "manager");
    expect(await readLink(token, "join")).toMatchObject({ park, role: "manager" });
    await joinByLink(token, park, person(" Pat@Example.test "));
    const { signedIn } = await enter("PAT@example.TEST");
    expect(signedIn).toMatchObject({ email: "pat@example.test", name: "Pat", role: "manager", park });
    expect(await readLink(token, "join")).toBeNull();
    expect(await kindOf(joinByLink(token, park, person("other@example.test")))).toBe("missing");
    expect(await client().staffAccount.count()).toBe(1);
  });

  it("is one person's, of ten who use it at once", async () => {
    await openPark();
    const token = await linkForOperator(park, "desk");
    const outcomes = await Promise.allSettled(Array.from({ length: 10 }, (_, i) => joinByLink(token, park, person(`p${i}@example.test`))));
    expect(outcomes.filter(({ status }) => status === "fulfilled")).toHaveLength(1);
    expect(await client().staffAccount.count()).toBe(1);
  });

  it("is stored as a hash alone, which leads in nowhere", async () => {
    await openPark();
    const token = await linkForOperator(park, "manager");
    const stored = await byHand((sql) => sql`select token_hash from account_link`);
    expect(stored.map((row) => row["token_hash"] as string)).toEqual([hashToken(token)]);
    const everything = await byHand((sql) => sql`select to_jsonb(l)::text as text from account_link l union all select to_jsonb(a)::text from audit_entry a`);
    for (const row of everything) expect(row["text"]).not.toContain(token);
    expect(await readLink(hashToken(token), "join")).toBeNull();
  });

  it("ends after its time, when it is revoked, and is for one purpose", async () => {
    await openPark();
    const { actor, signedIn } = await join("a@example.test");
    const late = await inviteToJoin(actor, park, "desk");
    await runOutLinks();
    expect(await kindOf(joinByLink(late, park, person("late@example.test")))).toBe("missing");
    const revoked = await inviteToJoin(actor, park, "desk");
    await revokeLink(actor, park, (await listLinks(actor, park))[0]!.id);
    expect(await kindOf(joinByLink(revoked, park, person("revoked@example.test")))).toBe("missing");
    const reset = await issueReset(actor, park, signedIn.account);
    expect(await kindOf(joinByLink(reset, park, person("reset@example.test")))).toBe("missing");
    expect(await kindOf(resetByLink(await inviteToJoin(actor, park, "desk"), park, "something else entirely"))).toBe("missing");
  });

  it("stays good where the e-mail has an account already", async () => {
    await openPark();
    await join("a@example.test");
    const token = await linkForOperator(park, "desk");
    expect(await kindOf(joinByLink(token, park, person("A@example.test")))).toBe("taken");
    await joinByLink(token, park, person("b@example.test"));
  });

  it("at a start is for parks without a manager, and ends the one of the start before", async () => {
    await openPark();
    const [first] = await linksForFirstManagers();
    const [second] = await linksForFirstManagers();
    expect(await readLink(first!.token, "join")).toBeNull();
    await joinByLink(second!.token, park, person("a@example.test"));
    expect(await linksForFirstManagers()).toEqual([]);
  });

  it("is made and seen by managers of the park alone", async () => {
    await openPark();
    await openPark({}, "other-park");
    const { actor: desk, signedIn } = await join("desk@example.test", "desk");
    const { actor: stranger } = await join("other@example.test", "manager", "other-park");
    for (const actor of [desk, stranger, { kind: "guest", link: null } as const]) {
      const asks = [inviteToJoin(actor, park, "manager"), listLinks(actor, park), listStaff(actor, park), issueReset(actor, park, signedIn.account), switchAccount(actor, park, signedIn.account, false), changeRole(actor, park, signedIn.account, "manager")];
      expect(await Promise.all(asks.map(kindOf))).toEqual(asks.map(() => "missing"));
    }
    // In their own park, somebody of another is not there.
    expect(await kindOf(switchAccount(stranger, "other-park", signedIn.account, false))).toBe("missing");
    expect(await kindOf(issueReset(stranger, "other-park", signedIn.account))).toBe("missing");
    expect((await listStaff(stranger, "other-park")).map(({ email }) => email)).toEqual(["other@example.test"]);
  });
});

describe("signing in", () => {
  it("tells a wrong password, an unknown address and a switched-off account the same way", async () => {
    await openPark();
    const { actor } = await join("a@example.test");
    const { signedIn } = await join("off@example.test", "desk");
    await switchAccount(actor, park, signedIn.account, false);
    for (const [email, word] of [["a@example.test", "wrong"], ["nobody@example.test", "wrong"], ["off@example.test", password], ["no address", "x"], ["a@example.test", "x".repeat(500)]] as const) {
      expect(await signIn(email, word, from)).toEqual({ state: "refused" });
    }
  });

  it("rests for an account after ten tries, from wherever they come, right password or not, and begins anew after a good one", async () => {
    await openPark();
    await join("a@example.test");
    const at = (i: number) => ({ ...from, address: `198.51.100.${i}` });
    for (let i = 0; i < perAccount.max - 1; i++) expect((await signIn("a@example.test", "wrong", at(i))).state).toBe("refused");
    expect((await signIn("a@example.test", password, from)).state).toBe("in");
    for (let i = 0; i < perAccount.max; i++) expect((await signIn(" A@example.test", "wrong", at(i))).state).toBe("refused");
    const refused = await signIn("a@example.test", password, from);
    if (refused.state !== "limited") throw new Error(refused.state);
    const left = refused.until.getTime() - Date.now();
    expect(left).toBeGreaterThan((perAccount.window - 60) * 1000);
    expect(left).toBeLessThanOrEqual(perAccount.window * 1000 + 1000);
    // An address without an account is limited alike.
    for (let i = 0; i < perAccount.max; i++) await signIn("nobody@example.test", "wrong", at(i));
    expect((await signIn("nobody@example.test", "wrong", from)).state).toBe("limited");
    // Another account is not.
    await join("b@example.test");
  });

  it("counts tries that come at once one by one, and lets in again when the window is over", async () => {
    const limit = { max: 10, window: 900 };
    const outcomes = await Promise.all(Array.from({ length: 40 }, () => takeTry("at once", limit)));
    expect(outcomes.filter(({ allowed }) => allowed)).toHaveLength(10);
    await byHand((sql) => sql`update rate_limit set since = since - interval '901 seconds'`);
    expect((await takeTry("at once", limit)).allowed).toBe(true);
  });

  it("rests for one address of the network after many tries over many accounts", async () => {
    await openPark();
    await byHand((sql) => sql`insert into rate_limit (key, count, since) values ('address 192.0.2.1|/sign-in/email', ${perAddress.max}, clock_timestamp())`);
    expect((await signIn("a@example.test", "wrong", from)).state).toBe("limited");
    expect((await signIn("a@example.test", "wrong", { ...from, address: "192.0.2.2" })).state).toBe("refused");
  });

  it("keeps no password, and no e-mail in the counts", async () => {
    await openPark();
    await join("a@example.test");
    await signIn("nobody@example.test", "a wrong password", from);
    const rows = await byHand((sql) => sql`select to_jsonb(c)::text as text from staff_credential c union all select key from rate_limit union all select to_jsonb(a)::text from audit_entry a where subject <> 'staff_account'`);
    for (const row of rows) expect(row["text"]).not.toMatch(/quills in the meadow|a wrong password|nobody@/);
    expect(rows.some((row) => row["text"] === accountKey("nobody@example.test"))).toBe(true);
  });
});

describe("a session", () => {
  it("is found by its own cookie alone", async () => {
    await openPark();
    const { cookie } = await join("a@example.test");
    const [token] = cookie.split(".");
    for (const forged of [undefined, "", token, `${token}.`, `${token}.AAAA`, cookie.slice(0, -2), `x${cookie}`]) expect(await findSession(forged)).toBeNull();
    expect(await findSession(cookie)).toMatchObject({ email: "a@example.test" });
  });

  it("ends when it is not used, and however much it is used", async () => {
    await openPark();
    const { cookie, signedIn } = await join("a@example.test");
    const hours = async (change: string) => byHand((sql) => sql.unsafe(`update staff_session set ${change} where id = '${signedIn.session}'`));
    await hours("expires_at = clock_timestamp() + interval '1 minute'");
    expect(await findSession(cookie)).not.toBeNull();
    const [used] = await byHand((sql) => sql`select expires_at > clock_timestamp() + interval '11 hours' as kept from staff_session`);
    expect(used!["kept"]).toBe(true);
    await hours("created_at = clock_timestamp() - interval '167 hours', expires_at = clock_timestamp() + interval '1 minute'");
    expect(await findSession(cookie)).not.toBeNull();
    const [capped] = await byHand((sql) => sql`select expires_at < clock_timestamp() + interval '61 minutes' as capped from staff_session`);
    expect(capped!["capped"]).toBe(true);
    await hours("created_at = clock_timestamp() - interval '169 hours', expires_at = clock_timestamp() + interval '1 hour'");
    expect(await findSession(cookie)).toBeNull();
    await hours("created_at = clock_timestamp(), expires_at = clock_timestamp() - interval '1 second'");
    expect(await findSession(cookie)).toBeNull();
  });

  it("ends when its account is switched off, at once and on every device", async () => {
    await openPark();
    const { actor } = await join("a@example.test");
    const one = await join("b@example.test", "desk"), two = await enter("b@example.test");
    const reset = await issueReset(actor, park, one.signedIn.account);
    await switchAccount(actor, park, one.signedIn.account, false);
    expect([await findSession(one.cookie), await findSession(two.cookie)]).toEqual([null, null]);
    expect(await kindOf(resetByLink(reset, park, "something else entirely"))).toBe("missing");
    await switchAccount(actor, park, one.signedIn.account, true);
    expect(await findSession(one.cookie)).toBeNull();
    await enter("b@example.test");
  });

  it("is ended by its own person alone", async () => {
    await openPark();
    const a = await join("a@example.test"), again = await enter("a@example.test"), b = await join("b@example.test");
    await endSession(b.signedIn, a.signedIn.session);
    expect(await findSession(a.cookie)).not.toBeNull();
    expect((await listSessions(a.signedIn)).map(({ id }) => id).sort()).toEqual([a.signedIn.session, again.signedIn.session].sort());
    await endOtherSessions(a.signedIn);
    expect(await findSession(again.cookie)).toBeNull();
    await endSession(a.signedIn, a.signedIn.session);
    expect(await findSession(a.cookie)).toBeNull();
    expect(await findSession(b.cookie)).not.toBeNull();
  });

  it("speaks for the role the account has now", async () => {
    await openPark();
    const a = await join("a@example.test"), b = await join("b@example.test", "desk");
    await changeRole(a.actor, park, b.signedIn.account, "manager");
    expect(await findSession(b.cookie)).toMatchObject({ role: "manager" });
  });
});

describe("a password", () => {
  it("is changed by the present one, and the other devices are out", async () => {
    await openPark();
    const here = await join("a@example.test"), there = await enter("a@example.test");
    expect(await changePassword(here.signedIn, "not it", "a new one to keep")).toEqual({ state: "wrong" });
    expect(await changePassword(here.signedIn, password, "a new one to keep")).toEqual({ state: "changed" });
    expect(await findSession(here.cookie)).not.toBeNull();
    expect(await findSession(there.cookie)).toBeNull();
    expect((await signIn("a@example.test", password, from)).state).toBe("refused");
    await enter("a@example.test", "a new one to keep");
    for (let i = 0; i < perAccount.max; i++) await changePassword(here.signedIn, "not it", "x".repeat(12));
    expect((await changePassword(here.signedIn, "a new one to keep", "x".repeat(12))).state).toBe("limited");
  });

  it("is set anew by a manager's link, once; every session ends and the account may try again", async () => {
    await openPark();
    const a = await join("a@example.test"), b = await join("b@example.test", "desk");
    const older = await issueReset(a.actor, park, b.signedIn.account);
    const token = await issueReset(a.actor, park, b.signedIn.account);
    expect(await readLink(older, "reset")).toBeNull();
    for (let i = 0; i <= perAccount.max; i++) await signIn("b@example.test", "forgotten", from);
    expect(await resetByLink(token, park, "a new one to keep")).toBe("b@example.test");
    expect(await findSession(b.cookie)).toBeNull();
    expect(await kindOf(resetByLink(token, park, "another one to keep"))).toBe("missing");
    await enter("b@example.test", "a new one to keep");
  });
});

describe("a park", () => {
  it("keeps a manager: the last one is neither switched off nor made desk, and of two at once one stays", async () => {
    await openPark();
    const a = await join("a@example.test"), b = await join("b@example.test");
    const outcomes = await Promise.allSettled([switchAccount(a.actor, park, b.signedIn.account, false), switchAccount(b.actor, park, a.signedIn.account, false)]);
    expect(outcomes.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
    const left = (await client().staffAccount.findFirst({ where: { switchedOffAt: null } }))!;
    const actor = { kind: "manager", account: left.email, park } as const;
    expect(await refusal(switchAccount(actor, park, left.id, false))).toMatchObject({ constraint: keepsAManager });
    expect(await refusal(changeRole(actor, park, left.id, "desk"))).toMatchObject({ constraint: keepsAManager });
    expect((await refusal(byHand((sql) => sql`delete from staff_account`))) as Error).toMatchObject({ constraint_name: keepsAManager });
  });

  it("takes its accounts with it", async () => {
    await openPark();
    await join("a@example.test");
    await client().park.deleteMany();
    expect([await client().staffAccount.count(), await client().staffSession.count(), await client().accountLink.count()]).toEqual([0, 0, 0]);
  });

  it("knows who changed which account", async () => {
    await openPark();
    const a = await join("a@example.test"), b = await join("b@example.test", "desk");
    await renameSelf(b.signedIn, "Bo");
    await changeRole(a.actor, park, b.signedIn.account, "manager");
    const entries = await byHand((sql) => sql`select actor_kind, actor, after from audit_entry where subject = 'staff_account' and subject_id = ${b.signedIn.account} order by at`);
    expect(entries.map((entry) => [entry["actor_kind"], entry["actor"]])).toEqual([["clock", null], ["desk", "b@example.test"], ["manager", "a@example.test"]]);
    expect(entries.at(-1)!["after"]).toMatchObject({ role: "manager" });
  });
});
