import { describe, expect, it } from "vitest";
import { nights, wantedSchema, type StayRequestInput } from "@/lib/stays";
import { areOneGuest, eraseGuest, findGuests, findMentions, readGuestFile, sharedBy, type GuestRecord } from "@/lib/store/guests-data";
import { exportGuest } from "@/lib/store/guests-export";
import { lend, listLoans, takeBack } from "@/lib/store/loans";
import { addNote } from "@/lib/store/stay-notes";
import { bookStay, cancelStay, confirmStay, markDeparted, walkIn } from "@/lib/store/stays";
import { listAudit } from "@/lib/store/stays-audit";
import { editStay, getStay, moveStay } from "@/lib/store/stays-change";
import { findByLink, issueLink } from "@/lib/store/stays-links";
import { getAccount, notePayment } from "@/lib/store/stays-money";
import { leaveWord, listUnmet } from "@/lib/store/unmet";
import { withStore } from "./client";
import { ask, byHand, day, desk, guest, guestWith, manager, openPark, park, refusal, rig, setRates } from "./stays-park";

withStore();

/** Nothing of these is a word of anything else in the database. */
const ada = { name: "Adalind Quorlewick", email: "adalind.q@example.org", phone: "555 010 7731", plate: "ZQX 4711" };
const before = { ...ada, email: "old-address@quorle.example", phone: "555 010 9942" };
const traces = [ada.name, ada.email, ada.phone, ada.plate, before.email, before.phone, "quorlewick", "adalind", "5550107731", "zqx4711"];
const other = { name: "Bertil Someone", email: "bertil@example.org", phone: "555 010 0001", plate: "BB 1" };

/** Every text and jsonb column of the database in which one of the words stands, whatever its case. */
async function columnsWith(words: readonly string[]): Promise<string[]> {
  return byHand(async (sql) => {
    const columns = await sql<{ table: string; column: string }[]>`
      select c.table_name as table, c.column_name as column from information_schema.columns c
      join information_schema.tables t using (table_schema, table_name)
      where c.table_schema = 'public' and t.table_type = 'BASE TABLE' and c.data_type in ('text', 'jsonb', 'json', 'character varying', 'ARRAY')`;
    expect(columns.length).toBeGreaterThan(60);
    const found: string[] = [];
    for (const { table, column } of columns) {
      const rows = await sql<{ value: string }[]>`select ${sql(column)}::text as value from ${sql(table)} where ${sql(column)} is not null`;
      for (const word of words) if (rows.some(({ value }) => value.toLowerCase().includes(word.toLowerCase()))) found.push(`${table}.${column}: ${word}`);
    }
    return found;
  });
}

const unmetAsk = (away: number) => ({ nights: nights(day(away), day(away + 2)), rig: ask(away, 2, { rig: named }).rig, wanted: wantedSchema.parse({ loop: "Quorlewick" }), reasons: { taken: 1, turnedAway: { stand: 1 } } });
const named = { ...(rig as object), id: "adalind-van", wishes: ["near Adalind"] } as StayRequestInput["rig"];

/** A stay with something in every place that a stay has; over, by being cancelled. */
async function fullStay(away = 30): Promise<{ id: string; link: string; reference: string }> {
  await openPark({ guestsMay: "book", lends: [{ id: "blocks", kind: "blocks", name: "Leveling blocks", count: 2 }] });
  await setRates({ currency: "USD", prices: [{ night: 4000 }] });
  const { stay, link } = await bookStay(guest, park, { request: ask(away, 2, { rig: named, guest: before, note: "Adalind comes late", wanted: { loop: "Quorlewick" } }), accepts: 8000, key: "quorlewick-1", rigQuery: "kind=van&name=adalind" });
  await editStay(guestWith(link), park, stay.id, { guest: ada });
  await editStay(desk, park, stay.id, { note: "Adalind Quorlewick wants shade" }, { reason: "Adalind rang" });
  await moveStay(desk, park, stay.id, "a02", { reason: "Quorlewick asked for it", override: { verdict: "no", codes: ["stand"], why: "Adalind leaves the trailer" } });
  await addNote(desk, park, stay.id, `Ring ${ada.phone}`);
  await notePayment(desk, park, stay.id, { amount: 8000, currency: "USD", purpose: "stay", means: "check of A. Quorlewick" });
  await lend(desk, park, stay.id, "blocks");
  await issueLink(desk, park, stay.id);
  await byHand(async (sql) => {
    const [{ park_id: parkId } = { park_id: "" }] = await sql<{ park_id: string }[]>`select park_id from stay where id = ${stay.id}`;
    await sql`insert into mail (park_id, stay_id, kind, state, to_address, subject, body, last_error) values
      (${parkId}, ${stay.id}, 'booked', 'failed', ${ada.email}, 'Your stay', ${`Dear ${ada.name}`}, ${`no such user: ${ada.email}`}),
      (${parkId}, null, 'word', 'queued', ${before.email.toUpperCase()}, 'Free', ${`Dear ${ada.name}`}, null),
      (${parkId}, null, 'word', 'queued', ${other.email}, 'Free', 'Dear Bertil', null)`;
  });
  const { stay: over } = await cancelStay(desk, park, stay.id, { reason: "Quorlewick is ill" });
  return { id: stay.id, link: link!, reference: over.reference };
}

describe("erasing a guest", () => {
  it("leaves no trace of name, e-mail, phone or plate in any column of the database, of now or of before", async () => {
    const { id } = await fullStay();
    const word = await leaveWord(guest, park, unmetAsk(50), { ...ada, plate: undefined }, "Adalind can come any day");
    const spread = await columnsWith(traces);
    // What is to go is there to begin with, in all of these; else the test would prove nothing.
    for (const place of ["stay.guest_name", "stay.guest_email", "stay.guest_phone", "stay.plate", "stay.note", "stay.rig", "stay.rig_query", "stay.wanted", "stay.fit_override", "stay_note.text", "stay_payment.means", "mail.to_address", "mail.body", "mail.last_error", "idempotency_key.key", "unmet_request.guest_name", "unmet_request.note", "unmet_request.rig", "unmet_request.wanted", "audit_entry.before", "audit_entry.after", "audit_entry.reason"]) {
      expect(spread.some((found) => found.startsWith(`${place}:`)), place).toBe(true);
    }
    await eraseGuest(manager, park, { stays: [id], unmet: [word] });
    expect(await columnsWith(traces)).toEqual([]);
  });

  it("takes what was written down of a stay that ended as planned, its outcome too", async () => {
    await openPark();
    const { stay } = await walkIn(desk, park, { request: ask(0, 2, { guest: ada }) });
    await markDeparted(desk, park, stay.id, { outcome: { how: "damage", note: "Adalind met the post" } });
    await eraseGuest(manager, park, { stays: [stay.id], unmet: [] });
    expect(await columnsWith(traces)).toEqual([]);
    expect(await getStay(desk, park, stay.id)).toMatchObject({ erased: true, state: "departed", outcome: { how: "damage", note: "" }, guest: { name: "erased", email: undefined } });
  });

  it("leaves nights, site, the rig's measures, price and payment, and who changed which field when", async () => {
    const { id } = await fullStay();
    const [was, history, account] = [await getStay(desk, park, id), await listAudit(desk, park, id), await getAccount(desk, park, id)];
    await eraseGuest(manager, park, { stays: [id], unmet: [] });
    const stay = await getStay(desk, park, id);
    const { id: _, wishes: __, ...measures } = was.rig;
    expect(stay).toMatchObject({ nights: was.nights, site: "a02", state: "cancelled", rig: measures, override: { verdict: "no", codes: ["stand"] }, version: was.version + 1 });
    const after = await getAccount(desk, park, id);
    expect(after.quotes).toEqual(account.quotes);
    expect(after.payments.map(({ amount, purpose, means, at }) => [amount, purpose, means, at])).toEqual(account.payments.map(({ amount, purpose, at }) => [amount, purpose, "erased", at]));
    const told = await listAudit(desk, park, id);
    expect(told).toHaveLength(history.length + 1);
    const fields = (entries: typeof told) => entries.map(({ at, by, who, after: now }) => [at, by, by === "guest" ? null : who, Object.keys(now as object).sort()]);
    expect(fields(told.slice(0, -1))).toEqual(fields(history));
    expect(told.at(-1)).toMatchObject({ by: "manager", who: "the-manager", reason: "erased", before: { guest_name: "erased", guest_email: "erased", plate: "erased" }, after: { guest_name: "erased", guest_email: null, plate: null } });
    // That a reason was given is still told.
    expect(told.filter(({ reason }) => reason !== null).length).toBe(history.filter(({ reason }) => reason !== null).length + 1);
  });

  it("ends the guest's links and keys, and touches nobody else's data", async () => {
    const { id, link } = await fullStay();
    const { stay: theirs, link: theirLink } = await bookStay(guest, park, { request: ask(60, 2, { guest: other, note: "Bertil's" }), accepts: 8000, key: "bertil-1" });
    await addNote(desk, park, theirs.id, "Bertil rang");
    const untouched = async () => byHand((sql) => sql`select (select jsonb_agg(to_jsonb(s)) from stay s where id = ${theirs.id}) as stay, (select jsonb_agg(to_jsonb(n)) from stay_note n where stay_id = ${theirs.id}) as notes,
      (select jsonb_agg(to_jsonb(a) order by a.at) from audit_entry a where subject_id = ${theirs.id}) as audit, (select count(*)::int from idempotency_key where stay_id = ${theirs.id}) as keys, (select count(*)::int from mail where to_address = ${other.email}) as mail`);
    const held = await untouched();
    expect(await findByLink(link)).not.toBeNull();
    await eraseGuest(manager, park, { stays: [id], unmet: [] });
    expect(await findByLink(link)).toBeNull();
    expect(await findByLink(theirLink!)).toMatchObject({ stay: theirs.id });
    expect([...(await untouched())]).toEqual([...held]);
    expect(held[0]).toMatchObject({ keys: 1, mail: 2 });
  });

  it("is refused while the stay is not over, for all that were chosen together", async () => {
    const { id } = await fullStay();
    const { stay: coming } = await bookStay(desk, park, { request: ask(70, 2, { guest: ada }) });
    expect(await refusal(eraseGuest(manager, park, { stays: [id, coming.id], unmet: [] }))).toMatchObject({ kind: "refused", constraint: "stay_erased_when_over" });
    expect((await getStay(desk, park, id)).erased).toBe(false);
    expect((await getStay(desk, park, coming.id)).guest?.name).toBe(ada.name);
  });

  it("is for good: nobody is put back into such a stay or written into it", async () => {
    const { id } = await fullStay();
    await eraseGuest(manager, park, { stays: [id], unmet: [] });
    expect(await refusal(confirmStay(desk, park, id))).toMatchObject({ kind: "refused", faults: [{ code: "move", from: "cancelled", to: "booked" }] });
    expect(await refusal(editStay(desk, park, id, { guest: ada }))).toMatchObject({ kind: "refused", faults: [{ code: "change" }] });
    // Not past the code either.
    expect(await refusal(byHand((sql) => sql`update stay set state = 'booked' where id = ${id}`))).toMatchObject({ constraint_name: "stay_erased_when_over" });
    // What was written down since goes with a second time.
    await addNote(desk, park, id, "Adalind rang again");
    await eraseGuest(manager, park, { stays: [id], unmet: [] });
    expect(await columnsWith(traces)).toEqual([]);
  });

  it("takes word left with a request, and leaves what was asked for and why it was not to be had", async () => {
    await openPark();
    const word = await leaveWord(guest, park, unmetAsk(50), { ...ada, plate: undefined }, "any day");
    const [was] = await listUnmet(manager, park);
    await eraseGuest(manager, park, { stays: [], unmet: [word] });
    const [now] = await listUnmet(manager, park);
    expect(now).toMatchObject({ id: word, nights: was!.nights, reasons: was!.reasons, times: was!.times, guest: null, note: "" });
    expect(await listAudit(manager, park, word)).toMatchObject([{ by: "manager", who: "the-manager", reason: "erased", subject: "unmet_request", before: { guest_name: "erased", guest_phone: "erased" } }]);
    // The same guest may leave word anew, as somebody nobody knows.
    expect(await leaveWord(guest, park, unmetAsk(50), { ...ada, plate: undefined })).not.toBe(word);
  });
});

it("an export holds all that is kept of them, everything that erasing takes, and nothing of others; that it was made is in the audit", async () => {
  const { id, reference } = await fullStay();
  await bookStay(guest, park, { request: ask(60, 2, { guest: other }), accepts: 8000 });
  const word = await leaveWord(guest, park, unmetAsk(50), { ...ada, plate: undefined }, "Adalind can come any day");
  const held = (await columnsWith(traces)).map((place) => place.slice(place.indexOf(":") + 2));
  const made = await exportGuest(manager, park, { stays: [id], unmet: [word] });
  const text = JSON.stringify(made);
  expect(made.stays).toHaveLength(1);
  expect(made.stays[0]).toMatchObject({
    reference, guestName: ada.name, arrive: day(30), depart: day(32), rigQuery: "kind=van&name=adalind", site: { id: "a02" },
    quotes: [{ record: { total: 8000 } }], payments: [{ amount: 8000, means: "check of A. Quorlewick" }], notes: [{ text: `Ring ${ada.phone}` }], loans: [{ name: "Leveling blocks" }],
    mail: expect.arrayContaining([expect.objectContaining({ toAddress: ada.email, body: `Dear ${ada.name}` })]), requestKeys: [{ key: "quorlewick-1" }], links: [{ revokedAt: null }, { revokedAt: null }],
  });
  expect(made.unmetRequests).toMatchObject([{ id: word, guestName: ada.name, note: "Adalind can come any day" }]);
  expect(made.otherMail).toMatchObject([{ toAddress: before.email.toUpperCase() }]);
  for (const trace of held) expect(text.toLowerCase(), trace).toContain(trace.toLowerCase());
  for (const kept of ["Adalind rang", "Quorlewick asked for it", "Quorlewick is ill", before.email, "Adalind comes late"]) expect(text).toContain(kept);
  expect(text).not.toContain("Bertil");
  expect(text).not.toMatch(/hash/i);
  expect((await listAudit(manager, park, id)).at(-1)).toMatchObject({ by: "manager", who: "the-manager", reason: "exported" });
});

describe("finding a guest", () => {
  it("goes by name, e-mail, phone however it is written, plate and reference, and gathers what is one person's", async () => {
    const { id, reference } = await fullStay();
    await openAnother();
    const found = async (text: string) => (await findGuests(manager, park, text)).map((records) => records.map(({ name, kind }) => `${name} ${kind}`));
    const adas = ["Adalind Quorlewick unmet", "Adalind Quorlewick stay"];
    expect(await found("quorlewick")).toEqual([adas]);
    expect(await found("ADALIND.Q@")).toEqual([adas]);
    expect(await found("(555) 010-7731")).toEqual([adas]);
    expect(await found("zqx")).toEqual([["Adalind Quorlewick stay"]]);
    expect(await found(reference.toLowerCase())).toEqual([["Adalind Quorlewick stay"]]);
    expect(await found("adalind bertil")).toEqual([]);
    expect(await found(" ")).toEqual([]);
    await eraseGuest(manager, park, { stays: [id], unmet: [] });
    expect(await found("quorlewick")).toEqual([["Adalind Quorlewick unmet"]]);
    expect(await found("erased")).toEqual([]);
  });

  it("keeps apart who only shares a phone, a name or a plate: that is for a person to say", async () => {
    const { id } = await fullStay();
    await bookStay(desk, park, { request: ask(60, 2, { guest: { name: "Bertil Someone", phone: "5550107731" } }) });
    await bookStay(desk, park, { request: ask(65, 2, { guest: { name: " adalind  QUORLEWICK" } }) });
    await bookStay(desk, park, { request: ask(70, 2, { guest: { name: "A. Q.", email: "Adalind.Q@example.org" } }) });
    const { theirs, perhaps } = await readGuestFile(manager, park, id);
    expect(theirs.map(({ name }) => name)).toEqual(["A. Q.", ada.name]);
    expect(perhaps.map(({ name, shares }) => [name, shares])).toEqual([["adalind  QUORLEWICK", ["name"]], ["Bertil Someone", ["phone"]]]);
  });

  it("tells where the name stands in what was written about somebody else's stay", async () => {
    const { id } = await fullStay();
    const { stay } = await bookStay(desk, park, { request: ask(60, 2, { guest: other }) });
    await addNote(desk, park, stay.id, "Friend of adalind quorlewick");
    expect(await findMentions(manager, park, ada.name, [id])).toEqual([{ stay: stay.id, reference: stay.reference, text: "Friend of adalind quorlewick" }]);
    expect(await findMentions(manager, park, ada.name, [id, stay.id])).toEqual([]);
  });

  it("counts nothing that is empty as the same", () => {
    const record = (more: Partial<GuestRecord>): GuestRecord => ({ kind: "stay", id: "", reference: "", state: "departed", nights: nights(day(1), day(2)), site: null, name: "A", email: null, phone: null, plate: null, lent: [], ...more });
    expect(sharedBy(record({ phone: "", email: "" }), record({ name: "B", phone: "-", email: " " }))).toEqual([]);
    expect(areOneGuest([])).toBe(false);
    expect(areOneGuest(["name"])).toBe(false);
    expect(areOneGuest(["phone", "plate"])).toBe(false);
    expect(areOneGuest(["name", "plate"])).toBe(true);
    expect(areOneGuest(["email"])).toBe(true);
  });
});

it("a guest's data is nothing for the desk, a guest, or another park's manager", async () => {
  const { id } = await fullStay();
  for (const actor of [desk, guest, { kind: "manager", account: "m", park: "elsewhere" } as const]) {
    for (const work of [() => findGuests(actor, park, "ada"), () => readGuestFile(actor, park, id), () => findMentions(actor, park, "ada", []), () => exportGuest(actor, park, { stays: [id], unmet: [] }), () => eraseGuest(actor, park, { stays: [id], unmet: [] })]) {
      expect(await refusal(work())).toMatchObject({ kind: "missing" });
    }
  }
  await openPark({}, "other-park");
  const stranger = { kind: "manager", account: "m", park: "other-park" } as const;
  for (const work of [() => readGuestFile(stranger, "other-park", id), () => exportGuest(stranger, "other-park", { stays: [id], unmet: [] }), () => eraseGuest(stranger, "other-park", { stays: [id], unmet: [] }), () => eraseGuest(manager, park, { stays: ["x"], unmet: [] })]) {
    expect(await refusal(work())).toMatchObject({ kind: "missing" });
  }
  expect((await getStay(desk, park, id)).erased).toBe(false);
});

async function openAnother(): Promise<void> {
  await bookStay(desk, park, { request: ask(60, 2, { guest: other }) });
  await leaveWord(guest, park, unmetAsk(50), { ...ada, plate: undefined });
}

it("what is lent can be taken back of an erased stay all the same", async () => {
  const { id } = await fullStay();
  expect((await readGuestFile(manager, park, id)).seed.lent).toEqual(["Leveling blocks"]);
  await eraseGuest(manager, park, { stays: [id], unmet: [] });
  const [loan] = await listLoans(desk, park, id);
  await takeBack(desk, park, loan!.id);
  expect((await listLoans(desk, park, id))[0]!.returnedAt).not.toBeNull();
});
