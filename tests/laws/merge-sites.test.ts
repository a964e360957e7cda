import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareSites, measurementsOf, mergeSites, saysSame, surveyedValue, thingsIn, type MeasurementInput, type MergeChoice, type SiteInput } from "@/lib/park";
import { settleSurvey } from "@/lib/park/edit/survey";

/** Printed on failure with the path of the case; the same cases every time. */
const seed = 20261126;
const { sites } = JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: SiteInput[] };

/** One change of a record, to one thing of it. Things are named by a number, so that two edits may or may not meet. */
type Edit = { readonly thing: number; readonly how: "move" | "remove" | "add" | "measure" | "confirm"; readonly by: number };
const edit: fc.Arbitrary<Edit> = fc.record({ thing: fc.nat(30), how: fc.constantFrom("move", "remove", "add", "measure", "confirm"), by: fc.integer({ min: 1, max: 900 }) });
const edits = fc.array(edit, { maxLength: 5 });
const site = fc.constantFrom(...sites.map(surveyed));

/** One number of every obstacle and hookup measured. */
function surveyed(record: SiteInput): SiteInput {
  const paths = [...(record.obstacles ?? []).map(({ id }) => `obstacles.${id}.to`), ...(record.hookups ?? []).map(({ id }) => `hookups.${id}.height`)];
  return { ...record, survey: { measurements: paths.map((of) => measurementOf(of, 1)) } };
}

function measurementOf(of: string, by: number): MeasurementInput {
  return { id: `m ${of}`, of, how: "tape", error: by, on: "2026-05-01" };
}

/** A number measured anew, or measured again and found to be the same; what was edited otherwise tells no more how it was measured. */
function apply(before: SiteInput, changes: readonly Edit[]): SiteInput {
  const record = applyAll(before, changes.filter(({ how }) => how !== "measure" && how !== "confirm")), settled = settleSurvey(before, record, null);
  return changes.filter(({ how }) => how === "measure" || how === "confirm").reduce((at, { thing, how, by }) => {
    const obstacles = at.obstacles ?? [], hookups = at.hookups ?? [], n = thing % Math.max(1, obstacles.length + hookups.length), isObstacle = n < obstacles.length;
    const id = isObstacle ? obstacles[n]!.id : hookups[n - obstacles.length]?.id, of = isObstacle ? `obstacles.${id}.to` : `hookups.${id}.height`;
    if (id === undefined) return at;
    const numbered = how === "confirm" ? at : isObstacle ? { ...at, obstacles: obstacles.map((o) => (o.id === id ? { ...o, to: by } : o)) } : { ...at, hookups: hookups.map((h) => (h.id === id ? { ...h, height: by } : h)) };
    return { ...numbered, survey: { measurements: [...measurementsOf(at).filter((m) => m.of !== of), measurementOf(of, by)] } } as SiteInput;
  }, settled);
}

function applyAll(record: SiteInput, changes: readonly Edit[]): SiteInput {
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
      const withNumber = new Set([base, mine, theirs].flatMap(measurementsOf).filter(({ of }) => !saysSame(surveyedValue(mine, of), surveyedValue(theirs, of))).map(({ id, of }) => [`survey.${id}`, of.split(".").slice(0, 2).join(".")]).flat());
      for (const key of new Set([...was.keys(), ...my.keys(), ...their.keys(), ...is.keys()])) {
        // A number that is not the same on both sides has its measurements along: of those the next law tells.
        if (withNumber.has(key)) continue;
        const [w, m, t, r] = [was, my, their, is].map((things) => things.get(key)?.value);
        const [iDid, theyDid] = [!saysSame(w, m), !saysSame(w, t)];
        expect(conflicts.some((c) => c.key === key), key).toBe(iDid && theyDid && !saysSame(m, t));
        expect(saysSame(r, theyDid ? t : m), key).toBe(true);
      }
    }));
  });

  it("leave no number with the other's measurement, whatever is chosen: each measurement is of the number that is there, and who gives the number gives its measurement", () => {
    const choosing = fc.array(fc.constantFrom<MergeChoice>("mine", "theirs"), { minLength: 1, maxLength: 6 });
    fc.assert(fc.property(site, edits, edits, choosing, (base, a, b, picks) => {
      const sides = [apply(base, a), apply(base, b)] as const, [mine, theirs] = sides, { conflicts } = mergeSites(base, mine, theirs);
      const { record } = mergeSites(base, mine, theirs, new Map(conflicts.map(({ key }, i) => [key, picks[i % picks.length]!])));
      for (const one of measurementsOf(record)) {
        expect(sides.some((side) => measurementsOf(side).some((held) => saysSame(held, one)) && saysSame(surveyedValue(side, one.of), surveyedValue(record, one.of))), one.of).toBe(true);
      }
      for (const { of } of sides.flatMap(measurementsOf)) {
        const [my, their, is] = [mine, theirs, record].map((one) => surveyedValue(one, of)), told = (one: SiteInput) => measurementsOf(one).filter((m) => m.of === of);
        if (!saysSame(my, their)) expect(told(record), of).toEqual(told(saysSame(is, my) ? mine : theirs));
      }
      expect(new Set(measurementsOf(record).map(({ id }) => id)).size).toBe(measurementsOf(record).length);
    }), { seed, numRuns: 600 });
  });

  it("keep a pole's 3000 apart from the 3900 that was chosen, and name who measured a number again that the other changed", () => {
    const oak = (crownFrom: number, crownRadius = 2000) => ({ id: "oak", kind: "tree", at: [8000, -3900], trunkRadius: 300, crownRadius, crownFrom, crownTo: 10_000 });
    const pole = { id: "m1", of: "obstacles.oak.crownFrom", how: "pole", error: 25, on: "2026-11-26" };
    const record = (tree: object, ...measurements: object[]) => ({ ...sites[0], obstacles: [tree], survey: { measurements } }) as unknown as SiteInput;
    const [base, mine, theirs] = [record(oak(3900)), record(oak(3000), pole), record(oak(3900, 2500))], { conflicts } = mergeSites(base, mine, theirs);
    expect(conflicts.map(({ key, measured }) => [key, measured])).toEqual([["obstacles.oak", ["survey.m1"]]]);
    const merged = (choice: MergeChoice) => mergeSites(base, mine, theirs, new Map([["obstacles.oak", choice]])).record;
    expect([merged("theirs").obstacles, merged("theirs").survey?.measurements]).toEqual([theirs.obstacles, []]);
    expect([merged("mine").obstacles, merged("mine").survey?.measurements]).toEqual([mine.obstacles, [pole]]);
    expect(mergeSites(base, mine, record(oak(3900), { ...pole, by: "KL" })).conflicts.map(({ key, measured }) => [key, measured])).toEqual([["obstacles.oak", ["survey.m1"]]]);
    expect(mergeSites(base, record(oak(3900), pole), record(oak(3900, 2500))).record, "of a number that nobody changed it stays apart").toEqual(record(oak(3900, 2500), pole));
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
