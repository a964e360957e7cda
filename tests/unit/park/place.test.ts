import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bearingTo, movedBy, movePlace, turnPlace } from "@/lib/park/edit/place";
import { onMap } from "@/app/components/park-map/frame";

const SEED = 20_261_126;
const place = fc.record({ east: fc.integer({ min: -900_000, max: 900_000 }), north: fc.integer({ min: -900_000, max: 900_000 }), bearing: fc.integer({ min: 0, max: 3599 }).map((tenths) => tenths / 10) });

describe("a site's place on the park's map", () => {
  it("moves exactly, keeps its bearing, and comes back", () => {
    fc.assert(fc.property(place, place, (from, to) => {
      const moved = movePlace(from, [to.east, to.north]);
      expect(moved).toEqual({ ...to, bearing: from.bearing });
      expect(movePlace(moved, [from.east, from.north])).toEqual(from);
    }), { seed: SEED });
  });

  it("turns to what is asked, whichever whole turns are added, and never to 360 or below zero", () => {
    fc.assert(fc.property(place, fc.integer({ min: -20_000, max: 20_000 }), (from, tenths) => {
      const turned = turnPlace(from, tenths / 10);
      expect(turned.bearing).toBeGreaterThanOrEqual(0);
      expect(turned.bearing).toBeLessThan(360);
      expect(turnPlace(from, tenths / 10 + 360)).toEqual(turned);
      expect(turnPlace(turned, turned.bearing)).toEqual(turned);
    }), { seed: SEED });
    expect(turnPlace({ east: 0, north: 0, bearing: 5 }, 359.97).bearing).toBe(0);
  });

  it("heads where its arrow points", () => {
    fc.assert(fc.property(place, fc.integer({ min: 5000, max: 60_000 }), (at, ahead) => {
      const tip = onMap(at, [ahead, 0]), bearing = bearingTo([at.east, at.north], tip)!;
      expect(Math.min(Math.abs(bearing - at.bearing), 360 - Math.abs(bearing - at.bearing))).toBeLessThan(1e-6);
    }), { seed: SEED });
    expect(bearingTo([1, 2], [1, 2])).toBeNull();
  });

  it("tells how far and the shorter way around", () => {
    expect(movedBy({ east: 0, north: 0, bearing: 350 }, { east: 300, north: 400, bearing: 10 })).toEqual({ far: 500, turned: 20 });
    expect(movedBy({ east: 0, north: 0, bearing: 10 }, { east: 0, north: 0, bearing: 350 })).toEqual({ far: 0, turned: -20 });
  });
});
