import { describe, expect, it } from "vitest";
import { z } from "zod";
import { policyFields, valueOf, withValue } from "@/app/manage/settings/fit/fields";
import { nothingTicked, readPolicyForm, shortParams, textOf } from "@/app/manage/settings/fit/read-policy";
import { policyChanges } from "@/app/manage/settings/policy-words";
import { defaultPolicy, policySchema } from "@/lib/fit";
import { unitSystems } from "@/lib/measure";

interface Described { readonly properties?: Readonly<Record<string, Described>> }

function namesOf(schema: Described, before = ""): string[] {
  return Object.entries(schema.properties ?? {}).flatMap(([name, inner]) => (inner.properties ? namesOf(inner, `${before}${name}.`) : [`${before}${name}`]));
}

/** A form sent as it came: every field with the text that was shown. */
function sentAsShown(policy = defaultPolicy, units: "ft-in" | "metric" = "ft-in"): Record<string, string> {
  return Object.fromEntries(policyFields.flatMap((field) => { const text = textOf(valueOf(policy, field.name), field, units); return [[field.name, text], [`was.${field.name}`, text]]; }));
}

describe("the fields", () => {
  it("are every value of the policy, each once", () => {
    expect(policyFields.map(({ name }) => name).toSorted()).toEqual(namesOf(z.toJSONSchema(policySchema, { io: "input" }) as Described).toSorted());
  });

  it("put a value where it is read from, and leave the rest", () => {
    for (const { name } of policyFields) {
      const value = name === "underBody" ? ["water"] : typeof valueOf(defaultPolicy, name) === "boolean" ? false : 0.5;
      const changed = withValue(defaultPolicy, name, value);
      expect(valueOf(changed, name)).toEqual(value);
      expect(policyFields.filter((other) => JSON.stringify(valueOf(changed, other.name)) !== JSON.stringify(valueOf(defaultPolicy, other.name))).map((other) => other.name)).toEqual([name]);
    }
    expect(defaultPolicy).toEqual(policySchema.parse({}));
  });
});

describe("what the form sends", () => {
  it("is nothing where nothing was touched, whatever a length was rounded to for showing", () => {
    const odd = policySchema.parse({ clearance: 157, touch: 3, longest: { power: 14_987 }, maxPressure: 549.5 });
    for (const units of unitSystems) {
      const short = shortParams(sentAsShown(odd, units), units);
      expect([...short]).toEqual([]);
      expect(readPolicyForm(Object.fromEntries(short), odd, units)).toMatchObject({ faults: {}, changed: [], policy: odd });
    }
  });

  it("holds what was changed alone, numbers with the unit they were meant in", () => {
    const short = shortParams({ ...sentAsShown(), clearance: "8", "longest.power": "40", wireRoom: "5 ft", maxPressure: "75", continuous: "70" }, "ft-in");
    expect([...short]).toEqual([["clearance", "8 in"], ["wireRoom", "5 ft"], ["longest.power", "40 ft"], ["maxPressure", "75 psi"], ["continuous", "70"]]);
  });

  it("means the same in the other units", () => {
    const short = Object.fromEntries(shortParams({ ...sentAsShown(), clearance: "8", "longest.power": "40", maxPressure: "75" }, "ft-in"));
    const [here, there] = unitSystems.map((units) => readPolicyForm(short, defaultPolicy, units).policy);
    expect(here).toEqual(there);
    expect([here?.clearance, here?.longest.power, here?.maxPressure]).toEqual([203.2, 12_192, 517.1]);
  });
});

describe("readPolicyForm", () => {
  it("reads every kind of value", () => {
    const { policy, changed } = readPolicyForm({ headroom: "10 cm", "longest.sewer": "5 m", levelWithin: "1.2 %", continuous: "75%", maxPressure: "500 kPa", overflow: "no", underBody: [nothingTicked, "water", "sewer"] }, defaultPolicy, "metric");
    expect(policy).toEqual({ ...defaultPolicy, headroom: 100, longest: { ...defaultPolicy.longest, sewer: 5000 }, levelWithin: 1.2, continuous: 0.75, maxPressure: 500, overflow: false, underBody: ["water", "sewer"] });
    expect(changed.map(({ name }) => name)).toEqual(["headroom", "longest.sewer", "underBody", "maxPressure", "continuous", "levelWithin", "overflow"]);
  });

  it("takes a list with nothing ticked for an empty one, and a field that is not sent for untouched", () => {
    expect(readPolicyForm({ underBody: nothingTicked }, defaultPolicy, "ft-in").policy?.underBody).toEqual([]);
    expect(readPolicyForm({}, defaultPolicy, "ft-in")).toMatchObject({ changed: [], policy: defaultPolicy });
  });

  it("sees the same services in another order as no change", () => {
    expect(readPolicyForm({ underBody: "sewer,water,power" }, defaultPolicy, "ft-in").changed).toEqual([]);
  });

  it("tells every fault at once, keeps what was typed, and makes no policy of it", () => {
    const typed = { clearance: "wide", wireRoom: "-3", "longest.water": "400 ft", levelWithin: "21", continuous: "0", maxPressure: "9000", overflow: "maybe", underBody: "gas" };
    const { faults, texts, policy } = readPolicyForm(typed, defaultPolicy, "ft-in");
    expect(Object.keys(faults).toSorted()).toEqual(Object.keys(typed).toSorted());
    for (const [name, text] of Object.entries(typed)) expect(texts[name as keyof typeof texts]).toBe(text);
    expect(policy).toBeNull();
  });

  it("never makes a policy that the schema refuses, at the bounds of each field", () => {
    for (const text of ["0", "100 m", "328 ft", "0.5", "20", "100", "1", "5000 kPa"]) {
      for (const { name } of policyFields) {
        const { policy, faults } = readPolicyForm({ [name]: text }, defaultPolicy, "metric");
        expect(policy === null).toBe(faults[name] !== undefined);
        if (policy) expect(policySchema.safeParse(policy).success).toBe(true);
      }
    }
  });
});

describe("policyChanges", () => {
  it("names what differs in the reader's units, with the record where that is rounded", () => {
    const after = policySchema.parse({ clearance: 203.2, touch: 8, longest: { power: 12_192 }, overflow: false, underBody: ["water"], maxPressure: 517.1, continuous: 0.75, levelWithin: 1 });
    expect(policyChanges(defaultPolicy, after, "ft-in").map(({ name, from, to }) => `${name}: ${from} to ${to}`)).toEqual([
      "Room to the side: 6 in (150 mm) to 8 in",
      "Longest power cord: 49 ft 2 1/2 in (15000 mm) to 40 ft",
      "May run straight under the rig: power cord, water hose and sewer hose to water hose",
      "Water pressure without a regulator: 80 psi to 75 psi",
      "Power drawn for hours: 80% to 75%",
      "Slope that needs no leveling: 0.9% to 1%",
      "There is overflow parking: Yes to No",
      "Closer than anybody measures: less than 1/2 in (5 mm) to less than 1/2 in (8 mm)",
    ]);
    expect(policyChanges(defaultPolicy, policySchema.parse({}), "metric")).toEqual([]);
  });
});
