import "./store-url";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { sendDueMail } from "@/lib/jobs/send-mail";
import { claimMail, prepareMail } from "@/lib/store/mail-sending";
import { keepText, markSent, readOutbox, takeMail, tryAgain } from "@/lib/store/mail-outbox";
import { bookStay, cancelStay, confirmStay, holdStay, markArrived, markDeparted, releaseRunOut, requestHeld, requestStay, walkIn } from "@/lib/store/stays";
import { changeNights, editStay, getStay, moveStay } from "@/lib/store/stays-change";
import { findByLink } from "@/lib/store/stays-links";
import { withStore } from "./client";
import { headOf, openMailServer, textOf } from "./mail-server";
import { ask, byHand, desk, guest, guestWith, manager, openPark, park, person, refusal, runOut, setRates, stayFrom } from "./stays-park";

withStore();

let server: Awaited<ReturnType<typeof openMailServer>>;
beforeEach(async () => { server = await openMailServer(); });
afterEach(() => server.close());

const from = "Two Pines <stay@two-pines.example>";
const origin = "https://stay.two-pines.example";
const go = () => sendDueMail(new AbortController().signal, { url: server.url, from }, origin);

interface MailRow { kind: string; state: string; attempts: number; to_address: string; last_error: string | null; subject: string | null; body: string | null; wait: number }
const rows = () => byHand(async (sql) => [...(await sql<MailRow[]>`
  select kind, state, attempts, to_address, last_error, subject, body, round(extract(epoch from next_try_at - clock_timestamp()))::int as wait from mail order by created_at, id`)]);
const kinds = async () => (await rows()).map(({ kind, state }) => `${kind} ${state}`);
/** As if what waits for its time had waited long enough. */
const letTimePass = () => byHand((sql) => sql`update mail set next_try_at = clock_timestamp() - interval '1 second' where state = 'queued'`);
const linkIn = (text: string) => /https:\/\/stay\.two-pines\.example\/stay\/([\w-]{43})\n/.exec(text)?.[1];

describe("mail to a guest", () => {
  it("is delivered with what was agreed and a link of its own, and kept without the link", async () => {
    await openPark({ guestsMay: "book", zone: "America/Denver" });
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    expect(await go()).toBe(1);
    const [mail] = server.delivered;
    expect(mail).toMatchObject({ from: "stay@two-pines.example", to: [person.email] });
    expect(headOf(mail!).get("subject")).toBe(`Your stay at Two Pines is booked (${stay.reference})`);
    expect(headOf(mail!).get("auto-submitted")).toBe("auto-generated");
    const text = textOf(mail!);
    expect(text).toContain("Hello Ada Quill,\n");
    expect(text).toContain("Site: A01\n");
    expect(text).toContain("come from 3:00 PM on, leave by 11:00 AM");
    expect(await findByLink(linkIn(text)!)).toEqual({ park, stay: stay.id });
    // What the guest has not to see, or did not give to be sent around.
    for (const unsaid of [person.phone, person.plate, "desk-one"]) expect(text).not.toContain(unsaid);
    const [row] = await rows();
    expect(row).toMatchObject({ state: "sent", last_error: null, subject: `Your stay at Two Pines is booked (${stay.reference})` });
    expect(row!.body).toBe(text.replace(`${origin}/stay/${linkIn(text)}`, "[private link]"));
    expect(await go()).toBe(0);
  });

  it("tells the price, the deposit, and what cancelling came to", async () => {
    await openPark({ cancellation: [{ daysBefore: 0, keep: { kind: "amount", amount: 1000 } }] });
    await setRates({ currency: "USD", prices: [{ night: 4000 }], deposit: { kind: "share", basisPoints: 2500 } });
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    await go();
    expect(textOf(server.delivered[0]!)).toContain("Price: $80.00 in all\nDeposit still due: $20.00\n");
    await cancelStay(desk, park, stay.id);
    await go();
    const text = textOf(server.delivered[1]!);
    expect(text).toContain("Your stay at Two Pines is canceled.");
    expect(text).toContain("The park keeps $10.00. You still owe $10.00.");
    expect(text).not.toMatch(/Deposit|come from/);
  });

  it("is not written where the change is refused, nor where nobody gave an address", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(30, 2) });
    await refusal(bookStay(desk, park, { request: ask(30, 2) }));
    await bookStay(desk, park, { request: ask(40, 2, { guest: { name: "No Mail", phone: "555 0100" } }) });
    expect(await kinds()).toEqual(["booked queued"]);
  });

  it("follows a stay: asked for, booked, moved, other nights, canceled, and a slip put right says nothing", async () => {
    await openPark();
    const { stay, link } = await holdStay(guest, park, { request: ask(0, 3, { guest: null }) });
    expect(await kinds()).toEqual([]);
    await requestHeld(guestWith(link), park, stay.id, { guest: person });
    await go();
    await confirmStay(desk, park, stay.id);
    await go();
    await moveStay(desk, park, stay.id, "a02", { reason: "a tree fell" });
    await changeNights(desk, park, stay.id, stayFrom(0, 2));
    expect((await rows()).filter(({ state }) => state === "queued").map(({ wait }) => wait > 50 && wait <= 60)).toEqual([true, true]);
    await letTimePass();
    await go();
    await markArrived(desk, park, stay.id);
    await confirmStay(desk, park, stay.id);
    await cancelStay(desk, park, stay.id);
    await go();
    expect(server.delivered.map((mail) => headOf(mail).get("subject")!.replace(/ \(.*/, ""))).toEqual([
      "We have your request for Two Pines", "Your stay at Two Pines is booked", "Your site at Two Pines is now A02", "Your nights at Two Pines have changed", "Your stay at Two Pines is canceled",
    ]);
    expect(textOf(server.delivered[2]!)).not.toContain("tree");
  });

  it("of a walk-in is none, of a stay that ran out is one, by the clock or by whoever wants the night", async () => {
    await openPark({ answerHours: 24 });
    await walkIn(desk, park, { request: ask(0, 1) });
    const one = await requestStay(guest, park, { request: ask(30, 2) });
    const two = await requestStay(guest, park, { request: ask(40, 2) });
    await runOut(one.stay.id);
    expect(await releaseRunOut(park)).toBe(1);
    await runOut(two.stay.id);
    await bookStay(desk, park, { request: ask(40, 2, { guest: { name: "No Mail" } }) });
    expect(await kinds()).toEqual(["ran-out queued", "ran-out queued"]);
    await go();
    expect(textOf(server.delivered[0]!)).toContain("The time ran out before your stay at Two Pines was booked");
  });

  it("is one where several would say the same, and none where it would say what is not so any more", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    await moveStay(desk, park, stay.id, "a02", { reason: "x" });
    expect(await kinds()).toEqual(["booked queued"]);
    await go();
    expect(textOf(server.delivered[0]!)).toContain("Site: A02\n");
    await moveStay(desk, park, stay.id, "a01", { reason: "x" });
    await moveStay(desk, park, stay.id, "a02", { reason: "x" });
    expect(await kinds()).toEqual(["booked sent", "site queued"]);
    await cancelStay(desk, park, stay.id);
    expect(await kinds()).toEqual(["booked sent", "cancelled queued"]);
    await confirmStay(desk, park, stay.id);
    expect(await kinds()).toEqual(["booked sent", "booked queued"]);
  });

  it("that was tried and has been overtaken since is not sent, and says so", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(0, 2) });
    server.refuse(451);
    await go();
    server.refuse(null);
    await markArrived(desk, park, stay.id);
    await markDeparted(desk, park, stay.id);
    await letTimePass();
    expect(await go()).toBe(0);
    expect(await kinds()).toEqual(["booked overtaken"]);
    expect(server.delivered).toEqual([]);
  });

  it("goes to an address that was put right, with how things stand", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(30, 2, { guest: { ...person, email: "adda@example.org" } }) });
    await editStay(desk, park, stay.id, { guest: person });
    await go();
    expect(server.delivered.map(({ to }) => to)).toEqual([[person.email]]);
    await editStay(desk, park, stay.id, { guest: { ...person, email: "quill@example.org" } });
    await go();
    expect(server.delivered[1]!.to).toEqual(["quill@example.org"]);
    await editStay(desk, park, stay.id, { guest: { ...person, email: "quill@example.org", phone: "555 0199" } });
    expect(await go()).toBe(0);
  });

  it("about a stay is bounded in a day, whoever changes it", async () => {
    await openPark();
    const { stay, link } = await requestStay(guest, park, { request: ask(30, 2) });
    for (let i = 0; i < 25; i++) {
      await editStay(guestWith(link), park, stay.id, { guest: { ...person, email: `victim${i}@example.org` } });
      await go();
    }
    expect(server.delivered).toHaveLength(20);
  });
});

describe("what somebody typed", () => {
  it.each([
    ["Ada\r\nBcc: all@example.org", "Hello,"],
    ["Ada\u2028Quill", "Hello Ada Quill,"],
    ["Win at http://bad.example", "Hello,"],
    ["visit bad.example now", "Hello,"],
    ["J. R. O’Neil-Brook", "Hello J. R. O’Neil-Brook,"],
    ["Ünal Łukasz 李", "Hello Ünal Łukasz 李,"],
  ])("begins no line of its own and is no address: %j", async (name, greeting) => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    // Past the schema, as a record of before it might be.
    await byHand((sql) => sql`update stay set guest_name = ${name} where id = ${stay.id}`);
    await byHand((sql) => sql`update park set name = ${"Two\r\nPines\nX-Bad: yes"}`);
    await go();
    const [mail] = server.delivered;
    expect(mail!.to).toEqual([person.email]);
    expect(textOf(mail!).split("\n")[0]).toBe(greeting);
    expect([...headOf(mail!).keys()].filter((key) => /bcc|x-bad/.test(key))).toEqual([]);
    expect(headOf(mail!).get("subject")).toContain("Two Pines X-Bad: yes");
  });

  it("as an address reaches nobody where it is not one", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    await byHand((sql) => sql`update stay set guest_email = ${"ada@example.org, eve@example.org\r\nRCPT TO:<mallory@example.org>"} where id = ${stay.id}`);
    await go();
    expect(server.delivered).toEqual([]);
    expect(await rows()).toMatchObject([{ state: "failed", attempts: 1, last_error: "That is not one e-mail address" }]);
  });
});

describe("a mail server that refuses", () => {
  it("is tried again after 1, 5 and 30 minutes, 2 and 6 hours, then it has failed; the reason is kept and another try can be asked for", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(30, 2) });
    server.refuse(451, "try later");
    const waits: number[] = [];
    for (let i = 0; i < 6; i++) {
      await go();
      waits.push((await rows())[0]!.wait);
      expect((await rows())[0]!.last_error).toContain("451 try later");
      await letTimePass();
    }
    [60, 300, 1800, 7200, 21_600].forEach((wait, i) => expect(Math.abs(waits[i]! - wait)).toBeLessThan(5));
    expect(await kinds()).toEqual(["booked failed"]);
    await go();
    expect(server.delivered).toEqual([]);
    server.refuse(null);
    const { failed } = await readOutbox(desk, park);
    expect(failed).toMatchObject([{ kind: "booked", attempts: 6, stay: { guest: person.name } }]);
    expect(await tryAgain(desk, park, failed[0]!.id)).toBe(true);
    expect(await go()).toBe(1);
    expect(await tryAgain(desk, park, failed[0]!.id)).toBe(false);
  });

  it("an address for good has failed at once", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(30, 2) });
    server.refuse(550, "no such user");
    await go();
    expect(await rows()).toMatchObject([{ state: "failed", attempts: 1 }]);
    expect((await rows())[0]!.last_error).toContain("550 no such user");
  });

  it("or is not there at all keeps nothing else from going on", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(30, 2) });
    await server.close();
    await go();
    expect(await rows()).toMatchObject([{ state: "queued", attempts: 1 }]);
    expect((await rows())[0]!.last_error).toMatch(/ECONNREFUSED/);
  });
});

describe("processes that send", () => {
  it("share the mail: each is sent once, however many are at it", async () => {
    await openPark();
    for (let i = 0; i < 20; i++) await bookStay(desk, park, { request: ask(30 + 2 * i, 2) });
    const sent = await Promise.all(Array.from({ length: 5 }, go));
    expect(sent.reduce((sum, n) => sum + n, 0)).toBe(20);
    expect(new Set(server.delivered.map((mail) => headOf(mail).get("subject"))).size).toBe(20);
    expect(server.delivered).toHaveLength(20);
  });

  it("killed after the mail server took it and before that was noted send it again, under the same message id", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(30, 2) });
    // The database is away for this one statement: what a process that is killed here leaves behind.
    await byHand((sql) => sql.unsafe("create function gone() returns trigger language plpgsql as $$ begin raise exception 'killed'; end $$; create trigger gone before update on mail for each row when (new.state = 'sent') execute function gone()"));
    try {
      await refusal(go());
    } finally {
      await byHand((sql) => sql.unsafe("drop trigger gone on mail; drop function gone()"));
    }
    expect(server.delivered).toHaveLength(1);
    expect(await rows()).toMatchObject([{ state: "queued", attempts: 1 }]);
    // Others leave it alone for the time of the claim.
    expect(await claimMail()).toBeNull();
    expect((await rows())[0]!.wait).toBeGreaterThan(290);
    await letTimePass();
    expect(await go()).toBe(1);
    expect(headOf(server.delivered[1]!).get("message-id")).toBe(headOf(server.delivered[0]!).get("message-id"));
    expect(await kinds()).toEqual(["booked sent"]);
  });

  it("that come back after their claim ran out settle nothing", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(30, 2) });
    const late = await claimMail();
    await letTimePass();
    await go();
    const { settleFailed } = await import("@/lib/store/mail-sending");
    await settleFailed(late!, "late", true);
    expect(await kinds()).toEqual(["booked sent"]);
  });

  it("give up mail that breaks them off each time", async () => {
    await openPark();
    await bookStay(desk, park, { request: ask(30, 2) });
    for (let i = 0; i < 6; i++) { await claimMail(); await letTimePass(); }
    await go();
    expect(await kinds()).toEqual(["booked failed"]);
  });

  it("do not send a change from before while it is being made", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    const claim = await claimMail();
    const matter = await prepareMail(claim!);
    await moveStay(desk, park, stay.id, "a02", { reason: "x" });
    expect(matter!.site).toBe("A01");
    expect(await kinds()).toEqual(["booked queued", "site queued"]);
  });
});

describe("the outbox", () => {
  it("is the park's own staff's, shows a text once and is marked by whoever sent it", async () => {
    await openPark();
    await openPark({}, "other-park");
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    const { waiting, waitingCount } = await readOutbox(manager, park);
    expect(waitingCount).toBe(1);
    expect(waiting).toMatchObject([{ kind: "booked", to: person.email, stay: { id: stay.id, reference: stay.reference, guest: person.name }, text: null }]);
    const { id } = waiting[0]!;
    const elsewhere = { ...desk, park: "other-park" } as typeof desk;
    for (const refused of [readOutbox(guest, park), readOutbox(elsewhere, park), takeMail(guestWith(null), park, id), markSent(guest, park, id), tryAgain(elsewhere, park, id), keepText(guest, park, id, { subject: "x", body: "x" })]) {
      expect(await refusal(refused)).toMatchObject({ kind: "missing" });
    }
    expect(await takeMail(elsewhere, "other-park", id)).toBeNull();
    expect(await markSent(elsewhere, "other-park", id)).toBe(false);
    expect(await takeMail(desk, park, "no id")).toBeNull();

    const matter = await takeMail(desk, park, id);
    expect(await findByLink(matter!.link)).toEqual({ park, stay: stay.id });
    // It may be on its way: what is changed now is mail of its own.
    await moveStay(desk, park, stay.id, "a02", { reason: "x" });
    expect(await kinds()).toEqual(["booked queued", "site queued"]);
    await keepText(desk, park, id, { subject: "S", body: "B [private link]" });
    expect(await markSent(desk, park, id)).toBe(true);
    expect(await markSent(desk, park, id)).toBe(false);
    expect((await readOutbox(desk, park)).settled).toMatchObject([{ state: "by-hand", sentBy: "desk-one", text: { subject: "S", body: "B [private link]" } }]);
    await letTimePass();
    await go();
    expect(server.delivered).toHaveLength(1);
  });

  it("loses what is a guest's with the guest", async () => {
    await openPark();
    const { stay } = await bookStay(desk, park, { request: ask(30, 2) });
    await go();
    await cancelStay(desk, park, stay.id);
    await byHand((sql) => sql`select erase_guest(${stay.id})`);
    expect(await rows()).toEqual([]);
    expect((await getStay(desk, park, stay.id)).erased).toBe(true);
  });
});
