import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Reading, Step } from "@/lib/survey";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import { printTyped } from "../../editing/typed";
import { nameOf, pointName } from "./naming";
import { cornersOf, ringLetter } from "./start-form";

/** What a step is about, and what was read: enough to type it anew. */
export function stepText(step: Step, site: Site, units: Units): { readonly what: string; readonly read: string } {
  if (step.do === "gone") return { what: nameOf(`${step.list}.${step.id}.at`, site), read: words.gone };
  if (step.do === "add") return { what: `${words.add.kinds[step.kind]}, ${step.name}`, read: readText({ ...step.place, of: "obstacles.new.at" }, site, units) };
  return { what: step.reading.of === "ground" ? words.methods.spots : nameOf(step.reading.of, site), read: readText(step.reading, site, units) };
}

type Part = readonly [label: string, value: string] | string;

function readText(reading: Reading, site: Site, units: Units): string {
  return partsOf(reading, site, units).map((part) => (typeof part === "string" ? part : words.readPart(...part))).join("; ");
}

function partsOf({ of, value, readings = {} }: Reading, site: Site, units: Units): Part[] {
  const { fields } = words, mm = (n: number) => printTyped(n, "length", units), end = words.higher[of === "ground.across" ? "across" : "along"];
  const higher = (n: number) => (n < 0 ? end.minus : end.plus);
  const { tapes, side, ring, offset, length, angle, girth, level, degrees, percent, spots } = readings;
  const [held, tilt, share] = [level, degrees, percent].map((read) => read?.along ?? read?.across) as [{ rise: number; over: number } | undefined, number | undefined, number | undefined];
  return [
    ...(typeof value === "number" ? (of.startsWith("ground.") ? [`${Math.abs(value)}%`, higher(value)] : [printTyped(value, of.endsWith("pressure") ? "pressure" : "length", units)]) : []),
    ...(tapes ?? []).map(({ from, distance }): Part => [typeof from === "string" ? pointName(from, site) : from.map(mm).join(", "), mm(distance)]),
    ...(tapes && side ? [sideText(tapes.map(({ from }) => from), side, site)] : []),
    ...(tapes?.[0]?.add ? [words.face(mm(tapes[0].add))] : []),
    ...(ring ? ringParts(ring, site, mm) : []),
    ...(offset ? [[fields.along!, mm(offset.along)], [fields.across!, mm(Math.abs(offset.across))], words.acrossSides[offset.across < 0 ? "right" : "left"]] satisfies Part[] : []),
    ...(typeof length === "number" ? [mm(length)] : []),
    ...(angle ? [[fields.distance!, mm(angle.distance)], [fields.top!, `${angle.top}°`], ...(typeof angle.eye === "number" ? [[fields.eye!, mm(angle.eye)] as const] : []), ...(typeof angle.base === "number" ? [[fields.base!, `${angle.base}°`] as const] : [])] satisfies Part[] : []),
    ...(typeof girth === "number" ? [[fields.girth!, mm(girth)] as const] : []),
    ...(held ? [[fields.over!, mm(held.over)], [fields.rise!, mm(Math.abs(held.rise))], higher(held.rise)] satisfies Part[] : []),
    ...(tilt === undefined ? [] : [`${Math.abs(tilt)}°`, higher(tilt)]),
    ...(share === undefined ? [] : [`${Math.abs(share)}%`, higher(share)]),
    ...(spots ?? []).map(([x, y, z]): Part => [words.spot(spotName([x, y], site)), mm(z)]),
  ];
}

/** As the form asks it: from the two front corners into the site or toward the road, else by the first two points. */
function sideText([first, second]: readonly unknown[], side: "left" | "right", site: Site): string {
  const [a, b] = cornersOf(site);
  return (first === a?.name && second === b?.name ? words.sidesFront : words.sides)[side];
}

function ringParts({ sides, diagonals }: NonNullable<NonNullable<Reading["readings"]>["ring"]>, site: Site, mm: (n: number) => string): Part[] {
  const corners = cornersOf(site), letter = (i: number) => ringLetter(i, corners);
  return [
    ...sides.map((side, i): Part => [words.ringSide(letter(i), letter((i + 1) % sides.length)), mm(side)]),
    ...(diagonals ?? []).map(({ from, to, length }): Part => [words.ringSide(letter(from), letter(to)), mm(length)]),
  ];
}

function spotName([x, y]: readonly [number, number], site: Site): string {
  const corner = cornersOf(site).find(({ at }) => at[0] === x && at[1] === y);
  return corner ? words.corner(corner.letter) : words.middle;
}
