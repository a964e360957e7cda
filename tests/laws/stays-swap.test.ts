import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addDays, asDate, overlaps, type Nights } from "@/lib/stays";
import { inMoveOrder, type Move } from "@/lib/store/stays-swap";

/** Whatever places stays change, in the order given no two ever have one night of one site. */

const seed = 20_261_126, today = asDate("2027-06-01");
interface Place { readonly site: string | null; readonly nights: Nights }
const place = fc.record({ site: fc.constantFrom("a", "b", "c", null), from: fc.integer({ min: 0, max: 12 }), nights: fc.integer({ min: 1, max: 4 }) }).map(({ site, from, nights }): Place => ({ site, nights: { arrive: addDays(today, from), depart: addDays(today, from + nights) } }));
const meet = (a: Place, b: Place) => a.site !== null && a.site === b.site && overlaps(a.nights, b.nights);
const apart = (places: readonly Place[]) => places.every((one, i) => places.slice(0, i).every((other) => !meet(one, other)));
const moves = fc.array(fc.record({ from: place, to: place, arrived: fc.boolean() }), { maxLength: 8 }).map((made) => made.reduce<Move[]>((kept, one, i) => {
  const move: Move = { ...one, id: String(i), arrived: one.arrived && one.from.site !== null && one.to.site !== null };
  return apart([...kept.map(({ from }) => from), move.from]) && apart([...kept.map(({ to }) => to), move.to]) ? [...kept, move] : kept;
}, []));

describe("stays that change places", () => {
  it("never have one night of one site at any moment, and nobody who is here is ever without a site", () => {
    let refused = 0, longest = 0;
    fc.assert(fc.property(moves, (all) => {
      const order = inMoveOrder(all), now = new Map<string, Place>(all.map(({ id, from }) => [id, from])), byId = new Map(all.map((one) => [one.id, one]));
      if (!order) {
        refused++;
        // Only guests who are here, each in the way of another, bar the way.
        const here = all.filter(({ arrived }) => arrived);
        expect(here.some((one) => here.some((other) => other !== one && meet(one.from, other.to)))).toBe(true);
        return;
      }
      longest = Math.max(longest, order.arrivedFirst.length);
      for (const id of order.offFirst) {
        expect(byId.get(id)!.arrived).toBe(false);
        now.set(id, { ...now.get(id)!, site: null });
      }
      for (const id of order.arrivedFirst) {
        const { to } = byId.get(id)!;
        for (const [other, held] of now) if (other !== id) expect(meet(held, to)).toBe(false);
        now.set(id, to);
      }
      // The rest go at once, in any order: each into a place that nobody has before or meanwhile.
      for (const { id, to } of all) for (const [other, held] of now) if (other !== id) expect(meet(held, to)).toBe(false);
    }), { seed, numRuns: 3000 });
    expect(refused).toBeGreaterThan(0);
    expect(longest).toBeGreaterThan(1);
  });
});
