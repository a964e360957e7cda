import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { paramsOf } from "@/app/components/rig-form/params";
import { parseLength } from "@/lib/measure";
import { boxesOf, isMotorized, lengthClassesOf, overallLength, rigSchema, typicalKinds, typicalRig, typicalSpread, type Rig } from "@/lib/rig";
import { addresses, formAt, formOf, kindStarts, SEED, styles, unitSystem } from "./address";

/** Every number to the tenth of a millimetre that a typed length is read to. */
const toTenths = (rig: Rig) => JSON.parse(JSON.stringify(rig, (_, value: unknown) => (typeof value === "number" ? Math.round(value * 10) / 10 : value))) as unknown;

const runs = { seed: SEED, numRuns: 200 };

describe("an address and the form", () => {
  it("mean the same rig, there and back: the short address gives the rig, and itself again", () => {
    let read = 0;
    fc.assert(fc.property(addresses, unitSystem, (params, units) => {
      const form = formOf(params, units), again = formAt(form.query, units);
      expect(again.query).toBe(form.query);
      expect(again.rig).toEqual(form.rig);
      expect(again.faults).toEqual(form.faults);
      expect(again.assumed).toEqual(form.assumed);
      if (form.rig) read++;
    }), runs);
    expect(read).toBeGreaterThan(runs.numRuns / 3); // most of what was tried is a rig, not a heap of faults
  });

  it("never change the rig with the units: not once, not there and back", () => {
    fc.assert(fc.property(addresses, unitSystem, (params, units) => {
      const form = formOf(params, units), other = units === "metric" ? "ft-in" : "metric";
      fc.pre(form.rig !== null);
      const switched = formAt(form.query, other);
      expect(switched.rig).toEqual(form.rig);
      expect(formAt(switched.query, units).rig).toEqual(form.rig);
      expect(switched.query).toBe(form.query);
    }), runs);
  });

  it("give a rig that is one, with its parts on their walls as far as they were put there", () => {
    fc.assert(fc.property(addresses, kindStarts, unitSystem, (params, kind, units) => {
      const form = formOf({ ...params, rig: undefined, kind }, units);
      fc.pre(form.rig !== null);
      const rig = form.rig!;
      expect(rigSchema.parse(rig)).toEqual(rig);
      for (const { side, span: [a, b], id } of rig.parts) {
        const [from, to] = side === "left" || side === "right" ? [0, rig.body.length] : [-rig.body.width / 2, rig.body.width / 2];
        expect(a, id).toBeGreaterThanOrEqual(from! - 20.1);
        expect(b, id).toBeLessThanOrEqual(to! + 20.1);
      }
    }), runs);
  });

  it("keep what was typed where it cannot be read", () => {
    fc.assert(fc.property(addresses, unitSystem, fc.constantFrom("abc", "24 ft 14 in", "-3", "1,000"), (params, units, text) => {
      const form = formOf({ ...params, width: text }, units);
      expect(form.rig).toBeNull();
      expect(form.faults.width).toBeDefined();
      const again = formAt(form.query, units);
      expect(again.texts.width).toBe(text);
      expect(again.faults).toEqual(form.faults);
    }), { ...runs, numRuns: 100 });
  });
});

describe("the size", () => {
  it("is overall less hitch, however each is written", () => {
    fc.assert(fc.property(fc.integer({ min: 5000, max: 13_000 }), fc.integer({ min: 300, max: 1800 }), fc.constantFrom(...styles), fc.constantFrom(...styles), unitSystem, (length, hitch, writeLength, writeHitch, units) => {
      const texts = { length: writeLength(length), hitch: writeHitch(hitch) };
      const [whole, ahead] = [texts.length, texts.hitch].map((text) => parseLength(text, "ft"));
      expect(whole!.ok && ahead!.ok).toBe(true);
      const { rig } = formOf({ kind: "travel-trailer", ...texts }, units);
      if (!whole?.ok || !ahead?.ok) return;
      expect(overallLength(rig!)).toBeCloseTo(whole.mm, 6);
      expect(rig!.hitch!.length).toBeCloseTo(ahead.mm, 6);
      expect(rig!.body.length).toBeCloseTo(whole.mm - ahead.mm, 6);
    }), runs);
  });

  it("chosen by its class is the typical rig of that length, with nothing measured but the length", () => {
    for (const kind of typicalKinds) {
      for (const mm of lengthClassesOf(kind)) {
        const form = formOf({ kind, length: `${Math.round(mm / 304.8)} ft` }, "ft-in");
        expect(toTenths(form.rig!)).toEqual(toTenths(typicalRig(kind, mm)));
        expect(form.lengthAssumed).toBe(false);
      }
    }
  });
});

describe("parts", () => {
  it("on the left mirror those on the right that are told alike", () => {
    fc.assert(fc.property(fc.integer({ min: 100, max: 3000 }), fc.integer({ min: 500, max: 3000 }), fc.integer({ min: 200, max: 1500 }), unitSystem, (start, wide, depth, units) => {
      const told = (wall: string) => ({ [`part-${wall}-slide.start`]: `${start} mm`, [`part-${wall}-slide.end`]: `${start + wide} mm`, [`part-${wall}-slide.depth`]: `${depth} mm` });
      const { rig } = formOf({ kind: "travel-trailer", length: "31 ft", part: ["driver-side-slide@50", "door-side-slide@50"], ...told("driver-side"), ...told("door-side") }, units);
      const [left, right] = ["driver-side-slide", "door-side-slide"].map((id) => boxesOf(rig!).find((b) => b.id === id)!);
      expect([left!.u0, left!.u1, left!.from, left!.to]).toEqual([right!.u0, right!.u1, right!.from, right!.to]);
      expect([left!.v0, left!.v1]).toEqual([-right!.v1, -right!.v0]);
    }), { ...runs, numRuns: 100 });
  });

  it("keep their width where one end alone was measured, as far as the wall goes", () => {
    const typical = typicalRig("travel-trailer", 31 * 304.8).parts.find((p) => p.id === "slide")!;
    const moved = formOf({ kind: "travel-trailer", length: "31 ft", "part-slide.start": "10 ft" }, "ft-in");
    const { span } = moved.rig!.parts.find((p) => p.id === "slide")!;
    expect(span[0]).toBeCloseTo(3048, 6);
    expect(span[1] - span[0]).toBeCloseTo(typical.span[1] - typical.span[0], 6);
    const late = formOf({ kind: "travel-trailer", length: "31 ft", "part-slide.start": "25 ft" }, "ft-in").rig!;
    expect(late.parts.find((p) => p.id === "slide")!.span[1]).toBeCloseTo(late.body.length, 6);
  });
});

describe("what was assumed", () => {
  it("is in the record where it says, within its range, and measured once it is typed, even the same number", () => {
    for (const kind of typicalKinds) {
      const form = formOf({ kind }, "ft-in");
      expect(form.assumed.length).toBeGreaterThan(8);
      for (const { field, input, min, max, typical, step } of form.assumed) {
        const value = field.split(".").slice(1).reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], form.rig);
        expect(value, `${kind} ${field}`).toBeCloseTo(typical, 6);
        expect(min).toBeLessThanOrEqual(typical);
        expect(max).toBeGreaterThanOrEqual(typical);
        expect(min).toBeLessThan(max);
        const typed = formAt(`${form.query}&${new URLSearchParams({ [input]: `${typical} mm` }).toString()}`, "ft-in");
        expect(typed.faults, `${kind} ${input}`).toEqual({});
        expect(typed.assumed.map((a) => a.input)).not.toContain(input);
        expect(paramsOf(new URLSearchParams(typed.query))[input], `${kind} ${input}`).toBe(`${typical} mm`);
        expect(form.fields.find((f) => f.input === input)?.step).toBe(step);
        // Nothing but that number moves: what the engine varies is what the form would have been told.
        const other = formAt(`${form.query}&${new URLSearchParams({ [input]: `${max} mm` }).toString()}`, "ft-in");
        if (input === "length" || input === "width" || input === "height" || input === "hitch" || other.rig === null || input.endsWith(".start") || input.endsWith(".end")) continue;
        const now = field.split(".").slice(1).reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], other.rig);
        expect(now, `${kind} ${field}`).toBeCloseTo(max, 6);
      }
    }
  });

  it("keeps each part wider than nothing at both ends of its range", () => {
    for (const kind of typicalKinds) {
      for (const mm of lengthClassesOf(kind)) {
        const { assumed } = formOf({ kind, length: `${mm} mm` }, "metric");
        for (const start of assumed.filter((a) => a.field.endsWith(".span.0"))) {
          const end = assumed.find((a) => a.field === start.field.replace(/0$/, "1"))!;
          expect(start.max, `${kind} ${start.field}`).toBeLessThan(end.min);
        }
      }
    }
  });

  it("is nothing where the park has measured the rig, and every kind has its spread", () => {
    expect(formOf({ rig: "demo-tt-31" }, "ft-in").assumed).toEqual([]);
    for (const kind of typicalKinds) {
      const { width, height, hitch, inlet } = typicalSpread(kind);
      expect(Math.min(width, height, hitch, inlet.along, inlet.height)).toBeGreaterThan(0);
      expect(formOf({ kind }, "ft-in").lengthAssumed).toBe(true);
      expect(formOf({ kind }, "ft-in").assumed.some((a) => a.input === "length")).toBe(isMotorized(kind));
    }
  });
});
