import fc from "fast-check";
import { mm, radiansFromDegrees } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import { arc, curvatureOf, makeCombination, makePath, straight, STRAIGHT, transition, type Combination, type Path, type Piece } from "@/lib/turning";

const length = (min: number, max: number) => fc.integer({ min, max });

const vehicle = fc.record({ wheelbase: length(2400, 7500), frontOverhang: length(600, 2200), rearOverhang: length(700, 3500), width: length(1800, 2600), track: length(1500, 1800) });
const unit = fc.record({
  hitchBehindAxle: length(-1200, 2500), hitchToAxle: length(2500, 11_000), frontOverhang: length(-1500, 1000), rearOverhang: length(500, 4500), width: length(1500, 2600),
  track: length(1400, 1500), axleSpread: fc.constantFrom(0, 900),
});

/** A vehicle with up to three units, each of sizes met on the road. */
export const combinations = (most = 3): fc.Arbitrary<Combination> => fc.record({ vehicle, units: fc.array(unit, { maxLength: most }) }).map(makeCombination);

/** Straights, arcs and transitions one after the other, no tighter than 9 m: not always one that a train can follow without folding up. */
export const paths: fc.Arbitrary<Path> = fc.array(
  fc.oneof(
    length(500, 15_000).map((l): Piece[] => [straight(l)]),
    fc.tuple(length(9000, 40_000), fc.integer({ min: -120, max: 120 }).filter((d) => d !== 0)).map(([r, d]): Piece[] => [arc(r, radiansFromDegrees(d))]),
    fc.tuple(length(9000, 40_000), length(2000, 8000), fc.boolean()).map(([r, l, left]): Piece[] => {
      const k = curvatureOf(left ? r : -r);
      return [transition(l, STRAIGHT, k), transition(l, k, STRAIGHT)];
    }),
  ), { minLength: 1, maxLength: 4 },
).map((pieces) => makePath({ at: sitePoint(0, 0), heading: radiansFromDegrees(0) }, pieces.flat()));

/** An arc wider than any of these wheelbases. */
export const arcs = fc.record({ radius: length(8500, 30_000).map(mm), angle: fc.integer({ min: 5, max: 360 }).map(radiansFromDegrees) });
