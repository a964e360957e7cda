import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareSites, mergeSites, saysSame, thingsIn, type SiteInput } from "@/lib/park";

/** Printed on failure with the path of the case; the same cases every time. */
const seed = 20261126;
const { sites } = JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: SiteInput[] };

/** One change of a record, to one thing of it. Things are named by a number, so that two edits may or may not meet. */
type Edit = { readonly thing: number; readonly how: "move" | "remove" | "add"; readonly by: number };
const edit: fc.Arbitrary<Edit> = fc.record({ thing: fc.nat(30), how: fc.constantFrom("move", "remove", "add"), by: fc.integer({ min: 1, max: 900 }) });
const edits = fc.array(edit, { maxLength: 5 });
const site = fc.constantFrom(...sites);

function apply(record: SiteInput, changes: readonly Edit[]): SiteInput {
  return changes.reduce((at, { thing, how, by }) => {
    if (how === "add") return { ...at, obstacles: [...(at.obstacles ?? []), { id: `new-${thing}`, kind: "rock", at: [by, thing], radius: 200, from: 0, to: 300 }].filter((o, i, all) => all.findIndex(({ id }) => id === o.id) === i) } as SiteInput;
    const obstacles = at.obstacles ?? [], hookups = at.hookups ?? [], n = thing % Math.max(1, obstacles.length + hookups.length + 2);
    if (n < obstacles.length) return { ...at, obstacles: how === "remove" ? obstacles.filter((_, i) => i !== n) : obstacles.map((o, i) => (i === n ? { ...o, note: by } : o)) } as SiteInput;
    const h = n - obstacles.length;
    if (h < hookups.length) return { ...at, hookups: how === "remove" ? hookups.filter((_, i) => i !== h) : hookups.map((o, i) => (i === h ? { ...o, height: by } : o)) } as SiteInput;
    return h === hookups.length ? { ...at, rules: { ...at.rules, maxGuests: by } } : ({ ...at, label: how === "remove" ? null : `L${by}` } as SiteInput);
  }, record);
}

const holds = (property: fc.IProperty<[SiteInput, Edit[], Edit[]]>) => fc.assert(property, { seed, numRuns: 400 });

describe("two changes of one site put together", () => {
  it("are the other's, to the letter, where one changed nothing", () => {
    fc.assert(fc.property(site, edits, (base, changes) => {
      const changed = apply(base, changes), again = structuredClone(base);
      expect(mergeSites(base, again, changed)).toMatchObject({ record: changed, conflicts: [], mine: [] });
      expect(JSON.stringify(mergeSites(base, changed, again).record)).toBe(JSON.stringify(saysSame(changed, base) ? again : changed));
    }), { seed, numRuns: 400 });
  });

  it("lose nothing: every thing is as one of the two has it, and what both changed otherwise is named", () => {
    holds(fc.property(site, edits, edits, (base, a, b) => {
      const [mine, theirs] = [apply(base, a), apply(base, b)];
      const { record, conflicts } = mergeSites(base, mine, theirs);
      const [was, my, their, is] = [base, mine, theirs, record].map(thingsIn) as [ReturnType<typeof thingsIn>, ReturnType<typeof thingsIn>, ReturnType<typeof thingsIn>, ReturnType<typeof thingsIn>];
      for (const key of new Set([...was.keys(), ...my.keys(), ...their.keys(), ...is.keys()])) {
        const [w, m, t, r] = [was, my, their, is].map((things) => things.get(key)?.value);
        const [iDid, theyDid] = [!saysSame(w, m), !saysSame(w, t)];
        expect(conflicts.some((c) => c.key === key), key).toBe(iDid && theyDid && !saysSame(m, t));
        expect(saysSame(r, theyDid ? t : m), key).toBe(true);
      }
    }));
  });

  it("give the same whoever is asked, where nothing is in conflict", () => {
    holds(fc.property(site, edits, edits, (base, a, b) => {
      const [mine, theirs] = [apply(base, a), apply(base, b)], one = mergeSites(base, mine, theirs);
      fc.pre(one.conflicts.length === 0);
      expect(compareSites(one.record, mergeSites(base, theirs, mine).record)).toEqual([]);
    }));
  });

  it("are mine in every conflict where I chose so, and mine altogether where they changed nothing else", () => {
    holds(fc.property(site, edits, edits, (base, a, b) => {
      const [mine, theirs] = [apply(base, a), apply(base, b)], open = mergeSites(base, mine, theirs);
      const chosen = mergeSites(base, mine, theirs, new Map(open.conflicts.map(({ key }) => [key, "mine" as const])));
      for (const { key, mine: value } of open.conflicts) expect(saysSame(thingsIn(chosen.record).get(key)?.value, value), key).toBe(true);
      if (open.theirs.length === 0) expect(compareSites(chosen.record, mine)).toEqual([]);
    }));
  });
});

describe("what differs between two records", () => {
  it("is nothing of a record and its copy, however its fields are ordered", () => {
    for (const record of sites) expect(compareSites(record, Object.fromEntries(Object.entries(structuredClone(record)).reverse()) as SiteInput)).toEqual([]);
  });

  it("is the same seen from the other side, with before and after exchanged", () => {
    holds(fc.property(site, edits, edits, (base, a, b) => {
      const [one, other] = [apply(base, a), apply(base, b)], there = compareSites(one, other), back = compareSites(other, one);
      const turned = { added: "removed", removed: "added", changed: "changed" } as const;
      expect(back.map(({ key, how }) => [key, how]).sort()).toEqual(there.map(({ key, how }) => [key, turned[how]]).sort());
    }));
  });
});
