import { mm, radiansFromDegrees } from "@/lib/measure";
import { sitePoint } from "@/lib/plane";
import { bodyToPoint, defaultTolerances, driveAlong, inLine, makeCombination, makeTurn, sweptArea, type Combination } from "@/lib/turning";
import { costOf, digits, spreadOf, told } from "./measure";

const FOOT = 304.8;
const vehicle = { wheelbase: 12 * FOOT, frontOverhang: 3.3 * FOOT, rearOverhang: 4.2 * FOOT, width: 6.7 * FOOT };
const trailer = { hitchBehindAxle: 4.9 * FOOT, hitchToAxle: 19 * FOOT, width: 8 * FOOT, rearOverhang: 10 * FOOT };

const SUBJECTS: readonly (readonly [string, Combination])[] = [
  ["motor home", makeCombination({ vehicle: { wheelbase: 20 * FOOT, frontOverhang: 4 * FOOT, rearOverhang: 11 * FOOT, width: 8.5 * FOOT }, units: [] })],
  ["truck and trailer", makeCombination({ vehicle, units: [trailer] })],
  ["truck and two trailers", makeCombination({ vehicle, units: [trailer, { ...trailer, hitchToAxle: 14 * FOOT }] })],
];

const arc = { radius: mm(30 * FOOT), angle: radiansFromDegrees(90) };
/** Of each, in a round: long enough for the clock. */
const TIMES = 40;

/** Turns of 90 degrees a second, and what looking at one of them costs. One of each is one evaluation. */
export function reportTurning(rounds: number): void {
  console.log(`\nTurning: 90 degrees at ${digits(arc.radius / FOOT)} ft, angles to ${defaultTolerances.angle} rad`);
  for (const [name, combination] of SUBJECTS) {
    const turn = makeTurn(combination, arc, defaultTolerances);
    if (turn.ended !== "done") throw new Error(`${name}: ${turn.ended}`);
    const { path, tries } = turn.drive, last = combination.bodies.length - 1, point = sitePoint(arc.radius, 0);
    const rate = (work: () => unknown) => {
      for (let i = 0; i < TIMES; i++) work();
      const costs = Array.from({ length: rounds }, () => costOf(() => { for (let i = 0; i < TIMES; i++) work(); }).cpu / TIMES);
      return told(spreadOf(costs.map((ms) => 1000 / ms)));
    };
    console.log(`  ${name}, ${tries} steps`);
    console.log(`    turns answered           ${rate(() => makeTurn(combination, arc, defaultTolerances))} a second of CPU`);
    console.log(`    drives followed          ${rate(() => driveAlong(combination, path, inLine(combination, path), defaultTolerances))} a second of CPU`);
    console.log(`    points cleared to ${digits(defaultTolerances.distance)} mm ${rate(() => bodyToPoint(turn.drive, last, point, defaultTolerances))} a second of CPU`);
    console.log(`    areas swept to ${digits(defaultTolerances.outline)} mm   ${rate(() => sweptArea(turn.drive, last, defaultTolerances))} a second of CPU`);
  }
}
