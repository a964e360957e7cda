import { describe, expect, it } from "vitest";
import { paramsOf as paramsFrom, type Params } from "@/app/components/rig-form/params";
import { readRigForm } from "@/app/components/rig-form/read";
import { resized, sizeOf } from "@/app/components/rig-form/resize";
import type { Start } from "@/app/components/rig-form/start";
import { rigSchema, type Rig } from "@/lib/rig";
import { demoRig, demoRigs } from "../wording/scene";

const base: Rig = demoRig("demo-tt-31");
const read = (params: Params, units: "ft-in" | "metric" = "ft-in") => readRigForm(params, kept(base), units);
const kept = (rig: Rig): Start => ({ base: rig, name: rig.id, kind: null, query: { rig: rig.id } });
const paramsOf = (query: string): Params => paramsFrom(new URLSearchParams(query));

describe("the rig form", () => {
  it("is the rig itself, to the millimetre, where nothing is changed: however its numbers were shown and sent back", () => {
    for (const rig of demoRigs) {
      for (const units of ["ft-in", "metric"] as const) {
        const shown = readRigForm({}, kept(rig), units);
        expect(shown.rig).toEqual(rig);
        const want = rig.wants, wish = rig.wishes;
        const sent: Params = { ...shown.texts, want: ["none", ...want], wish: ["none", ...wish], accessible: ["0", ...(rig.party.accessible ? ["1"] : [])] };
        const other = units === "metric" ? "ft-in" : "metric";
        expect(readRigForm(sent, kept(rig), units).rig).toEqual(rig);
        expect(readRigForm(sent, kept(rig), other).rig).toEqual(rig);
      }
    }
  });

  it("changes the body, not the hitch, when the overall length is changed", () => {
    const { rig } = read({ length: "28 ft" });
    expect(rig!.hitch!.length).toBe(base.hitch!.length);
    expect(rig!.body.length).toBeCloseTo(28 * 304.8 - base.hitch!.length, 6);
  });

  it("tells every fault at once and gives no rig", () => {
    const { faults, rig, texts } = read({ length: "abc", width: "0", height: "9 m", adults: "two", hitch: "-1", liftSide: "5 ft 14 in" });
    expect(Object.keys(faults).sort()).toEqual(["adults", "height", "hitch", "length", "liftSide", "width"]);
    expect(faults.length).toBe("“abc” cannot be read as a length. Write it like 24 ft 6 in or 24.5.");
    expect(faults.height).toBe("Nothing that tall is towed or driven. Check the unit.");
    expect(rig).toBeNull();
    expect(texts.length).toBe("abc");
  });

  it("does not take a hitch as long as the rig", () => {
    expect(read({ length: "10 ft", hitch: "10 ft" }).faults.hitch).toBeDefined();
  });

  it("reads a bare number in the field's own unit, and the link says which one it was", () => {
    const feet = read({ length: "30", liftSide: "4" });
    expect(feet.rig!.gear.liftSide).toBeCloseTo(101.6, 6);
    const query = paramsOf(feet.query);
    expect(query.length).toBe("30 ft");
    expect(read(query, "metric").rig).toEqual(feet.rig);
    expect(read({ length: "9", liftSide: "10" }, "metric").rig!.gear.liftSide).toBe(100);
  });

  it("keeps choices of parts, services, wishes and the second vehicle in a short link", () => {
    const form = read({ "part-lounge": "nice", "part-awning": "off", want: ["none", "power"], wish: ["none", "shade"], tow: "elsewhere" });
    expect(form.rig!.parts.map((p) => `${p.id} ${p.need}`)).toEqual(["lounge nice", "door must"]);
    expect(form.rig!.wants).toEqual(["power"]);
    expect(form.rig!.tow!.stays).toBe("elsewhere");
    expect(read(paramsOf(form.query)).rig).toEqual(form.rig);
    expect(read({}).query).toBe("rig=demo-tt-31");
  });

  it("takes no service the rig cannot connect, no made-up choice, and nothing endless", () => {
    const van = demoRig("demo-van-17");
    const form = readRigForm({ want: ["power", "sewer", "gold"], tow: "moon", "part-door": "maybe", adults: "9".repeat(5000) }, kept(van), "ft-in");
    expect(form.faults.adults).toBeDefined();
    const { rig } = readRigForm({ want: ["sewer", "gold"], tow: "moon", "part-door": "maybe" }, kept(van), "ft-in");
    expect(rig!.wants.every((w) => van.inlets.some((i) => i.kind === w))).toBe(true);
    expect(rig!.parts.find((p) => p.id === "door")!.need).toBe("must");
  });
});

describe("a rig in another size", () => {
  it("stays a rig: wheels and slides within the body, whatever the size", () => {
    for (const rig of demoRigs) {
      const { hitch } = sizeOf(rig);
      for (const [length, width, height] of [[3000, 1800, 2000], [9000, 2500, 3900], [20000, 2600, 4100]] as const) {
        const other = resized(rig, { length, hitch, width, height });
        expect(rigSchema.safeParse(other).success).toBe(true);
        expect(other.supports.filter((s) => s.kind === "tyre").every((s) => s.at[0] >= 0 && s.at[0] <= length)).toBe(true);
        for (const part of other.parts.filter((p) => p.side === "left" || p.side === "right")) expect(part.span[1]).toBeLessThanOrEqual(length * (Math.max(...rig.parts.map((p) => p.span[1])) / rig.body.length) + 1e-6);
      }
    }
  });
});
