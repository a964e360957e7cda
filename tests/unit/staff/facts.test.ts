import { describe, expect, test } from "vitest";
import { byEffect, effectOf } from "../../../app/desk/check/effects";
import { factIds, factsOf, rigOf, TALLER_BY, usualAnswer } from "../../../app/desk/check/facts";
import type { Call } from "../../../app/desk/check/read-call";
import { rigSchema } from "@/lib/rig";
import { lengthClassesOf, typicalKinds, typicalRig } from "@/lib/rig/typical";

const calls: Call[] = typicalKinds.flatMap((kind) => lengthClassesOf(kind).map((overall) => ({ kind, overall })));
const tt: Call = { kind: "travel-trailer", overall: 31 * 304.8 };

describe("a caller's rig", () => {
  test("without answers is the typical one", () => {
    for (const call of calls) expect(rigOf(call, {})).toEqual(typicalRig(call.kind, call.overall));
  });

  test("stays a rig whatever is answered, and an answer that is the usual one changes nothing", () => {
    for (const call of calls) {
      for (const id of factsOf(call)) {
        const usual = usualAnswer(call, id);
        expect(rigOf(call, { [id]: usual })).toEqual(typicalRig(call.kind, call.overall));
        const other = rigOf(call, { [id]: !usual });
        expect(other, `${call.kind} ${id}`).not.toEqual(typicalRig(call.kind, call.overall));
        expect(rigSchema.safeParse(other).error?.issues ?? []).toEqual([]);
      }
    }
  });

  test("with all answers turned at once is still a rig", () => {
    for (const call of calls) {
      const answers = Object.fromEntries(factsOf(call).map((id) => [id, !usualAnswer(call, id)]));
      expect(rigSchema.safeParse(rigOf(call, answers)).error?.issues ?? []).toEqual([]);
    }
  });

  test("takes each answer as it is meant", () => {
    expect(rigOf(tt, { tall: true }).body.height).toBe(typicalRig(tt.kind, tt.overall).body.height + TALLER_BY);
    expect(rigOf(tt, { sewer: true }).wants).toContain("sewer");
    expect(rigOf(tt, { pets: true }).party.pets).toBe(1);
    expect(rigOf(tt, { vehicle: false }).tow?.stays).toBe("elsewhere");
    expect(rigOf(tt, { "right-slide": true }).parts.filter((p) => p.kind === "slide").map((p) => p.side).sort()).toEqual(["left", "right"]);
    expect(rigOf(tt, { "left-slide": false }).parts.filter((p) => p.kind === "slide")).toEqual([]);
    expect(rigOf(tt, { "plug-50": true }).electric?.plug).toBe(50);
    expect(rigOf({ kind: "class-c", overall: 25 * 304.8 }, { vehicle: true }).tow?.stays).toBe("on-site");
  });

  test("who needs no hookups needs no drain, whichever is answered first", () => {
    expect(rigOf(tt, { sewer: true, hookups: false }).wants).toEqual([]);
    expect(rigOf(tt, { hookups: false, sewer: true }).wants).toEqual([]);
  });

  test("is asked nothing that makes no sense for it", () => {
    expect(factsOf({ kind: "van", overall: 19 * 304.8 })).toEqual(["accessible", "hookups", "tall", "vehicle", "pets"]);
    expect(factsOf(tt)).toEqual([...factIds]);
  });
});

describe("an effect", () => {
  const judged = (verdicts: Record<string, "fits" | "gear" | "no">) => Object.entries(verdicts).map(([site, verdict]) => ({ site, verdict }));

  test("counts the sites that turn, each once", () => {
    const effect = effectOf("pets", true, judged({ a: "fits", b: "fits", c: "gear", d: "no", e: "gear", f: "no" }), judged({ a: "no", b: "gear", c: "fits", d: "gear", e: "no", f: "no" }));
    expect(effect).toEqual({ id: "pets", answer: true, lost: 2, gained: 1, moreGear: 1, lessGear: 1 });
  });

  test("stands first where it turns most, and of equals where it takes more away", () => {
    const none = { answer: true, lost: 0, gained: 0, moreGear: 0, lessGear: 0 };
    const order = byEffect([{ ...none, id: "pets", gained: 3 }, { ...none, id: "tall", lost: 3 }, { ...none, id: "sewer", lost: 1, moreGear: 4 }]);
    expect(order.map(({ id }) => id)).toEqual(["sewer", "tall", "pets"]);
  });
});
