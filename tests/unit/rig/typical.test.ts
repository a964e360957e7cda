import { describe, expect, it } from "vitest";
import { defaultPolicy, rankSites } from "@/lib/fit";
import { boxesOf, isMotorized, lengthClassesOf, overallLength, rigSchema, typicalKinds, typicalRig, usualLengthOf, type RigKind } from "@/lib/rig";
import { demoSites } from "../wording/scene";

const kinds: readonly RigKind[] = [...typicalKinds, "class-b"];
const everyClass = kinds.flatMap((kind) => lengthClassesOf(kind).map((overall) => ({ kind, overall })));
/** Every half foot from a foot below the shortest class to one above the longest. */
const everyLength = kinds.flatMap((kind) => {
  const classes = lengthClassesOf(kind).map((mm) => mm / 304.8);
  return Array.from({ length: 2 * (classes.at(-1)! - classes[0]! + 2) + 1 }, (_, i) => ({ kind, overall: (classes[0]! - 1 + i / 2) * 304.8 }));
});

describe("a typical rig", () => {
  it("passes the schema at every length, and is as long overall as was asked for", () => {
    for (const { kind, overall } of everyLength) {
      const rig = typicalRig(kind, overall);
      expect(rigSchema.parse(rig)).toEqual(rig);
      expect(overallLength(rig)).toBeCloseTo(overall, 6);
      expect(rig.kind).toBe(kind);
    }
  });

  it("is built so that it could stand: wheels and parts along its walls, slides below the roof, services it can connect", () => {
    for (const { kind, overall } of everyLength) {
      const rig = typicalRig(kind, overall), { length, width, height, floor } = rig.body;
      for (const { kind: support, at: [u, v] } of rig.supports) {
        expect(u).toBeGreaterThan(0);
        if (support === "tyre") expect(u).toBeLessThan(length);
        expect(Math.abs(v)).toBeLessThan(width / 2);
      }
      for (const part of rig.parts) {
        const wall = part.side === "left" || part.side === "right" ? [0, length] : [-width / 2, width / 2];
        expect(part.span[0], `${kind} ${overall} ${part.id}`).toBeGreaterThanOrEqual(wall[0]!);
        expect(part.span[1], `${kind} ${overall} ${part.id}`).toBeLessThanOrEqual(wall[1]!);
        expect(part.to).toBeLessThanOrEqual(height);
        if (part.kind === "slide") expect(part.from).toBeGreaterThan(floor);
      }
      for (const service of rig.wants) expect(rig.inlets.some((i) => i.kind === service)).toBe(true);
      expect(rig.hitch === undefined).toBe(isMotorized(kind));
    }
  });

  it("has parts that do not cross each other", () => {
    for (const { kind, overall } of everyClass) {
      const boxes = boxesOf(typicalRig(kind, overall)).filter((b) => b.kind === "slide" || b.kind === "entry");
      boxes.forEach((a, i) => boxes.slice(i + 1).forEach((b) => {
        expect(a.u1 <= b.u0 || b.u1 <= a.u0 || a.v1 <= b.v0 || b.v1 <= a.v0, `${kind} ${overall}: ${a.id} and ${b.id}`).toBe(true);
      }));
    }
  });

  it("keeps within what a public road takes: 8 ft 6 in wide, 13 ft 6 in high", () => {
    for (const { kind, overall } of everyClass) {
      const { body } = typicalRig(kind, overall);
      expect(body.width).toBeLessThanOrEqual(2591);
      expect(body.height).toBeLessThanOrEqual(4115);
    }
  });

  it("finds a place in the demo park at its usual length", () => {
    for (const kind of typicalKinds) {
      const verdicts = rankSites(demoSites, typicalRig(kind, usualLengthOf(kind)), defaultPolicy).map((r) => r.verdict);
      expect(verdicts.filter((v) => v === "fits" || v === "gear").length, kind).toBeGreaterThan(3);
    }
  });
});
