import { describe, expect, it } from "vitest";
import { plainText } from "@/app/learn/text";
import { callOutsOn, DISC, pointed } from "@/app/learn/call-outs";
import { sampleInputs } from "@/app/learn/sample";
import { policyRows } from "@/app/learn/staff/policy-rows";
import { layoutPlan } from "@/app/components/plan/sheet";
import { defaultPolicy, DRAIN_FALL, fitSite, policySchema } from "@/lib/fit";
import { unitSystems } from "@/lib/measure";
import { catalogueOf, numbersFor } from "@/lib/wording";
import { readabilityOf, syllablesIn } from "./readability";

const { learn, tag } = catalogueOf();

/** Every text of a tree of texts; what takes a site, a park and a rig is given some. */
function textsIn(value: unknown): string[] {
  if (typeof value === "string") return [value];
  if (typeof value === "function") return textsIn((value as (...names: string[]) => unknown)("D-05", "the park", "a trailer"));
  if (Array.isArray(value)) return value.flatMap(textsIn);
  return typeof value === "object" && value !== null ? Object.entries(value).flatMap(([key, inner]) => (key === "id" ? [] : textsIn(inner))) : [];
}

const guestOf = (units: (typeof unitSystems)[number], policy = defaultPolicy) => learn.guest({ n: numbersFor(units), policy });

describe("the grade of a text", () => {
  it("counts syllables as they are spoken", () => {
    for (const [word, count] of [["pad", 1], ["tree", 1], ["hose", 1], ["hoses", 2], ["slides", 1], ["stands", 1], ["measured", 2], ["awning", 2], ["table", 2], ["adapter", 3], ["regulator", 4], ["electricity", 5]] as const) {
      expect([word, syllablesIn(word)]).toEqual([word, count]);
    }
  });

  it("is the published formula's", () => {
    const { sentences, words, syllables, grade } = readabilityOf(["The cat sat on the mat. It was flat."]);
    expect({ sentences, words, syllables }).toEqual({ sentences: 2, words: 9, syllables: 9 });
    expect(grade).toBeCloseTo(0.39 * 4.5 + 11.8 - 15.59, 9);
    expect(readabilityOf(["Considerable uncertainty surrounds the applicability of theoretical classification methodologies."]).grade).toBeGreaterThan(20);
  });
});

describe("the guest's page", () => {
  it.each(unitSystems)("reads at grade 8 or lower in %s, as a whole and in every part", (units) => {
    const words = guestOf(units);
    const lines = (part: unknown) => textsIn(part).filter((t) => /[.!?]$/.test(t)).map(plainText);
    expect(readabilityOf(lines(words)).grade).toBeLessThanOrEqual(8);
    for (const part of [words.lead, words.checks, words.plan, [words.answers, words.untold, words.tight], [words.tapeLead, words.tape], [words.cautions, words.who]]) {
      const texts = lines(part);
      expect(texts.length).toBeGreaterThan(0);
      expect(readabilityOf(texts).grade, texts[0]).toBeLessThanOrEqual(8);
    }
  });

  it("tells the park's own numbers in the reader's units", () => {
    const policy = policySchema.parse({ limbRoom: 600, overflow: false, underBody: [], continuous: 0.5 });
    const told = textsIn(guestOf("metric", policy)).join(" ");
    for (const text of ["60 cm stays free below limbs", "15 A of 30 A", "goes around the rig", "If there is no place for it on the site, the answer is no."]) expect(told).toContain(text);
    expect(told).not.toMatch(/\d (ft|in|psi)\b/);
    expect(textsIn(guestOf("ft-in")).join(" ")).not.toMatch(/\d (cm|m|kPa)\b/);
  });

  it("does not say that the common loads run together where a park's share forbids it", () => {
    const told = (continuous: number) => textsIn(guestOf("ft-in", policySchema.parse({ continuous })).checks).join(" ");
    expect(told(0.8)).toContain("the coffee maker can");
    expect(told(0.6)).not.toContain("the coffee maker can");
  });

  it("tells the fall that the engine asks for", () => {
    expect(DRAIN_FALL).toBe(1 / 48);
    expect(textsIn(guestOf("ft-in").checks).join(" ")).toContain("1/4 inch for each foot it runs. A run of 20 ft has to drop 5 in.");
  });
});

describe("the plan that is explained", () => {
  const { site, rig, policy } = sampleInputs();
  const result = fitSite(site, rig, policy);

  it("shows a rig that fits, and everything the numbers speak of", () => {
    expect(result.verdict).toBe("fits");
    expect(result.limit?.id).toBe("clear:awning:maple");
    for (const units of unitSystems) {
      const layout = layoutPlan(site, { rig, result }, units);
      expect(layout.key).toEqual([]); // the plan's own numbers would be taken for these
      expect(callOutsOn(layout).map((c) => c.id)).toEqual([...pointed]);
    }
  });

  it.each(unitSystems)("has no number on a name or on another number in %s", (units) => {
    const layout = layoutPlan(site, { rig, result }, units);
    const callOuts = callOutsOn(layout);
    for (const { id, at: [x, y] } of callOuts) {
      for (const { box } of layout.labels) {
        const dx = Math.max(box.x - x, 0, x - box.x - box.w), dy = Math.max(box.y - y, 0, y - box.y - box.h);
        expect(Math.hypot(dx, dy), id).toBeGreaterThanOrEqual(DISC - 1.5);
      }
      for (const other of callOuts) if (other.id !== id) expect(Math.hypot(other.at[0] - x, other.at[1] - y), `${id} ${other.id}`).toBeGreaterThanOrEqual(2 * DISC - 1);
    }
  });
});

describe("the words of the trade", () => {
  const { terms } = learn.words;
  const ids = new Set(terms.map((t) => t.id));

  it("has each once, with an anchor", () => {
    expect(ids.size).toBe(terms.length);
    expect(new Set(terms.map((t) => t.term.toLocaleLowerCase(tag))).size).toBe(terms.length);
    for (const { id } of terms) expect(id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
  });

  it("explains every term that a page links to", () => {
    const texts = [...unitSystems.flatMap((units) => [...textsIn(guestOf(units)), ...textsIn(learn.staff({ n: numbersFor(units) }))]), ...terms.map((t) => t.text)];
    for (const text of texts) expect(plainText(text)).not.toMatch(/\[\[|\]\]/); // plainText refuses ids that are not there
    for (const { id, text } of terms) expect(text).not.toContain(`[[${id}`);
  });
});

describe("the table of settings", () => {
  it("has every setting of the schema with its meaning, from the schema itself", () => {
    const rows = policyRows(defaultPolicy, "ft-in");
    const leaves = Object.entries(defaultPolicy).flatMap(([k, v]) => (typeof v === "object" && !Array.isArray(v) ? Object.keys(v).map((inner) => `${k}.${inner}`) : [k]));
    expect(rows.map((r) => r.name).sort()).toEqual(leaves.sort());
    for (const { meaning, here, standard, differs } of rows) {
      expect(meaning.length).toBeGreaterThan(20);
      expect(meaning).not.toMatch(/\((mm|kPa|per cent)\)/);
      expect([here, differs]).toEqual([standard, false]);
    }
  });

  it("tells lengths in the reader's units and marks what the park has changed", () => {
    const policy = policySchema.parse({ clearance: 200, longest: { sewer: 3000 } });
    const [feet, metric] = unitSystems.map((units) => new Map(policyRows(policy, units).map((r) => [r.name, r])));
    expect(feet!.get("clearance")).toMatchObject({ here: "8 in", hereRecord: "200 mm", standard: "6 in", standardRecord: "150 mm", differs: true });
    expect(metric!.get("longest.sewer")).toMatchObject({ here: "3.00 m", standard: "6.10 m", differs: true });
    expect(feet!.get("maxPressure")).toMatchObject({ here: "80 psi", hereRecord: "552 kPa", differs: false });
    expect([feet!.get("touch")?.here, metric!.get("touch")?.here]).toEqual(["less than 1/2 in", "less than 1 cm"]);
    expect(feet!.get("levelWithin")).toMatchObject({ here: "0.9 %", hereRecord: null });
  });

  it("is what the constraints above it link to", () => {
    const words = learn.staff({ n: numbersFor("ft-in") });
    const names = new Set(policyRows(defaultPolicy, "ft-in").map((r) => r.name));
    for (const setting of [...words.constraints, ...words.needs].flatMap((r) => r.settings)) expect(names).toContain(setting);
  });
});
