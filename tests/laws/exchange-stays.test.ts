import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pageLimits, planImport, writeStays, type HeldStay, type Inventory } from "@/lib/exchange";
import { findConflicts, type Claim } from "@/lib/exchange/claims";
import { overallOf } from "@/lib/exchange/stay-rigs";
import { addDays, asDate, defaultStaySettings, occupies, overlaps, stayStates } from "@/lib/stays";

/** Whatever stays a park has, what is handed out of them is read back without a change; and nights are taken exactly where they meet. */

const seed = 20_261_126;
const today = asDate("2027-06-01");
/** Texts that people and other programs write, those that look like formulas, dates, numbers and quotes among them. NUL is kept by no database. */
const texts = fc.oneof(fc.string({ maxLength: 14, unit: "grapheme" }), fc.constantFrom("", "=1+1", "-5", "+1 555 0100", "@a", "'", "''x", " 'x", "a;b", 'say "so"', "a\r\nb", "\ta", "007", "7/4/2027", "１", "x ")).filter((text) => !text.includes("\0"));

const stay = fc.record({
  state: fc.constantFrom(...stayStates.filter((state) => state !== "held")), from: fc.integer({ min: -700, max: 700 }), nights: fc.integer({ min: 1, max: 400 }), site: fc.constantFrom("", "a1", "b=2", "gone"),
  guest: texts, email: texts, phone: texts, plate: texts, note: texts, rigKind: fc.constantFrom("", "van", "class-a", "fifth-wheel"), rigLength: fc.oneof(fc.constant(null), fc.integer({ min: 2500, max: 20_000 }), fc.double({ min: 2500, max: 20_000, noNaN: true })), adults: fc.constantFrom(null, 0, 2), children: fc.constantFrom(null, 3), pets: fc.nat(2),
  version: fc.nat(9), siteChosen: fc.boolean(), erased: fc.boolean(), priced: fc.boolean(),
});

const parks = fc.array(stay, { maxLength: 8 }).map((made): Inventory => {
  const stays = made.map(({ from, nights, ...one }, i): HeldStay => ({ ...one, id: `id-${i}`, reference: `REF${i}QX`, rigId: `typical-${one.rigKind}`, arrive: addDays(today, from), depart: addDays(today, from + nights) }));
  const taken = stays.filter(({ site, state }) => site !== "" && occupies(state)).map(({ id, reference, site, arrive, depart }) => ({ site, nights: { arrive, depart }, stay: id, by: { kind: "stay" as const, reference } }));
  return { park: { slug: "p", name: "P" }, sites: [], rigs: [], stays: { today, settings: defaultStaySettings, stays, taken } };
});

const bytes = (text: string) => new TextEncoder().encode(text);

describe("stays that go out and come in", () => {
  it("change nothing", () => {
    fc.assert(fc.property(parks, fc.constantFrom("keep" as const, "remove" as const), (inventory, missing) => {
      const plan = planImport([{ name: "stays.csv", bytes: bytes(writeStays(inventory.stays!.stays)) }], inventory, missing, pageLimits);
      expect(plan.faults).toEqual([]);
      expect(plan).toMatchObject({ stays: [], sites: [], unchanged: { stays: inventory.stays!.stays.length } });
    }), { seed, numRuns: 200 });
  });

  it("change what one cell says, and then say it byte for byte", () => {
    fc.assert(fc.property(parks, fc.nat(7), texts, (inventory, index, note) => {
      const { stays } = inventory.stays!, target = stays[index];
      if (!target || target.erased || note.trim() === target.note.trim()) return;
      const wanted = stays.map((one) => (one === target ? { ...one, note: note.trim() } : one)), out = writeStays(wanted);
      const plan = planImport([{ name: "stays.csv", bytes: bytes(out) }], inventory, "keep", pageLimits);
      expect(plan.faults).toEqual([]);
      expect(plan.stays).toMatchObject([{ what: "changed", id: target.id, changes: [{ column: "note", before: target.note }] }]);
      const after = stays.map((one) => { const changed = plan.stays.find((made) => made.what === "changed" && made.id === one.id); return changed ? { ...one, note: changed.note } : one; });
      expect(writeStays(after)).toBe(out);
    }), { seed, numRuns: 200 });
  });
});

describe("stays of another book", () => {
  const name = texts.filter((text) => text.trim() !== ""), kinds = fc.constantFrom("van", "class-a", "fifth-wheel", "travel-trailer", "truck-camper");
  const coming = fc.array(fc.record({ from: fc.nat(300), nights: fc.integer({ min: 1, max: 30 }), guest: name, note: texts, rigKind: kinds, rigLength: fc.integer({ min: 2500, max: 20_000 }), adults: fc.integer({ min: 1, max: 9 }), children: fc.constantFrom(null, 0, 4), pets: fc.nat(3), requested: fc.boolean(), onSite: fc.boolean() }), { minLength: 1, maxLength: 6 });
  const site = { entry: "back-in", pad: { outline: [[0, -1800], [12_000, -1800], [12_000, 1800], [0, 1800]] }, ground: { along: 1, across: 0 }, obstacles: [], hookups: [] };

  it("come to be as their table says, whatever order its dates are in", () => {
    fc.assert(fc.property(coming, fc.constantFrom(["m/d/y", (iso: string) => iso.replace(/(\d+)-(\d+)-(\d+)/, "$2/$3/$1")], ["dd.mm.yyyy", (iso: string) => iso.replace(/(\d+)-(\d+)-(\d+)/, "$3.$2.$1")], ["y-m-d", (iso: string) => iso]) as fc.Arbitrary<[string, (iso: string) => string]>, (made, [order, write]) => {
      const sites = made.map((_, i) => ({ record: { ...site, id: `s${i}` }, version: 1 }));
      const lines = made.map(({ from, nights, requested, onSite, ...one }, i) => ({ ...one, reference: "", state: requested ? "requested" : "", arrive: write(addDays(today, from)), depart: write(addDays(today, from + nights)), site: onSite ? `s${i}` : "", email: "", phone: "", plate: "" }));
      const out = writeStays(lines).replace(",arrive,depart,", `,arrive (${order}),depart (${order}),`);
      const plan = planImport([{ name: "stays.csv", bytes: bytes(out) }], { park: { slug: "p", name: "P" }, sites, rigs: [], stays: { today, settings: defaultStaySettings, stays: [], taken: [] } }, "keep", pageLimits);
      expect(plan.faults).toEqual([]);
      plan.stays.forEach((one, i) => {
        const asked = made[i]!;
        expect(one).toMatchObject({ what: "added", state: asked.requested ? "requested" : "booked", nights: { arrive: addDays(today, asked.from), depart: addDays(today, asked.from + asked.nights) }, site: asked.onSite ? `s${i}` : null, guest: { name: asked.guest.trim() }, note: asked.note.trim(), rig: { kind: asked.rigKind, party: { adults: asked.adults, children: asked.children ?? 0, pets: asked.pets } } });
        if (one.what === "added") expect(overallOf(one.rig)).toBeCloseTo(asked.rigLength, 3);
      });
      expect(plan.stays).toHaveLength(made.length);
    }), { seed, numRuns: 150 });
  });
});

describe("claims on nights", () => {
  const span = fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 9 })).map(([from, nights]) => ({ arrive: addDays(today, from), depart: addDays(today, from + nights) }));
  const claims = fc.array(fc.record({ site: fc.constantFrom("a", "b"), nights: span, stay: fc.constantFrom(null, "s0", "s1", "s2") }), { maxLength: 10 }).map((all) => all.map((one, i): Claim => ({ ...one, row: i + 2 })));
  const occupied = fc.array(fc.record({ site: fc.constantFrom("a", "b"), nights: span }), { maxLength: 8 }).map((all) => all
    .filter((one, i) => all.slice(0, i).every((other) => other.site !== one.site || !overlaps(other.nights, one.nights)))
    .map((one, i) => ({ ...one, stay: `s${i}`, by: { kind: "stay" as const, reference: `R${i}` } })));

  it("meet where a pair of them, or one and somebody who stays, shares a night, and nowhere else", () => {
    fc.assert(fc.property(claims, occupied, (wanted, taken) => {
      const moving = new Set(wanted.flatMap(({ stay: own }) => own ?? [])), left = taken.filter(({ stay: own }) => !moving.has(own));
      const told = findConflicts(wanted, taken);
      expect(new Set(told.map(({ claim }) => claim.row)).size).toBe(told.length);
      for (const { claim, by, nights } of told) {
        expect(overlaps(claim.nights, nights)).toBe(true);
        if (by.kind === "row") expect(wanted.find(({ row }) => row === by.row)).toMatchObject({ site: claim.site, nights });
        else expect(left.some((one) => one.by === by && one.site === claim.site)).toBe(true);
      }
      // Without those told, nobody meets anybody; and whoever meets one who stays is told.
      const rows = new Set(told.map(({ claim }) => claim.row)), rest = wanted.filter(({ row }) => !rows.has(row));
      for (const one of rest) {
        expect(left.some((other) => other.site === one.site && overlaps(other.nights, one.nights))).toBe(false);
        expect(rest.some((other) => other !== one && other.site === one.site && overlaps(other.nights, one.nights))).toBe(false);
      }
    }), { seed, numRuns: 500 });
  });
});
