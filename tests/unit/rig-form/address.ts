import fc from "fast-check";
import { countFields, wishes } from "@/app/components/rig-form/fields";
import { paramsOf, type Params } from "@/app/components/rig-form/params";
import { readRigForm, type RigForm } from "@/app/components/rig-form/read";
import { startOf } from "@/app/components/rig-form/start";
import type { Units } from "@/lib/measure";
import { typicalKinds } from "@/lib/rig";
import { demoRigs } from "../wording/scene";

export const SEED = 20261125;

export const kept = demoRigs.map((rig) => ({ id: rig.id, name: rig.id, note: null, rig }));

/** The form that an address with these parameters gives. */
export function formOf(params: Params, units: Units): RigForm {
  return readRigForm(params, startOf(params, kept, units)!, units);
}

export function formAt(query: string, units: Units): RigForm {
  return formOf(paramsOf(new URLSearchParams(query)), units);
}

/** Lengths as people write them, for any number of millimetres. */
export const styles: readonly ((mm: number) => string)[] = [
  (mm) => `${Math.floor(mm / 304.8)}' ${Math.floor((mm % 304.8) / 25.4)}"`,
  (mm) => `${Math.floor(mm / 304.8)} ft ${Math.floor((mm % 304.8) / 25.4)} in`,
  (mm) => `${Math.floor(mm / 304.8)}’ ${Math.floor((mm % 304.8) / 25.4)} 1/2”`,
  (mm) => `${(mm / 304.8).toFixed(1)} feet`,
  (mm) => `${Math.round(mm / 25.4)} in`,
  (mm) => `${(mm / 1000).toFixed(2)} m`,
  (mm) => `${(mm / 1000).toFixed(2).replace(".", ",")} m`,
  (mm) => `${Math.round(mm / 10)} cm`,
  (mm) => `${Math.round(mm)} mm`,
];

const typedLength = (least: number, most: number) => fc.tuple(fc.integer({ min: least, max: most }), fc.constantFrom(...styles)).map(([mm, write]) => write(mm));
const bare = fc.integer({ min: 1, max: 9 }).map(String);
const sides = fc.constantFrom("left", "right", "rear", "front", "none");
const needs = fc.constantFrom("must", "nice", "off");
const addedTexts = fc.tuple(fc.constantFrom("driver-side", "door-side", "back-wall", "front-wall"), fc.constantFrom("slide", "awning", "bed", "steps", "door", "ramp"), fc.integer({ min: 0, max: 100 })).map(([wall, kind, at]) => `${wall}-${kind}@${at}`);
const some = <T>(arb: fc.Arbitrary<T>) => fc.option(arb, { nil: undefined, freq: 2 });

const lengths = fc.record({
  length: some(typedLength(6500, 12_000)), hitch: some(fc.oneof(typedLength(0, 1900), bare.map(() => "3"))), width: some(typedLength(1800, 2600)), height: some(typedLength(2000, 4100)), floor: some(typedLength(100, 600)),
  powerCord: some(fc.oneof(typedLength(0, 20_000), bare)), waterHose: some(typedLength(0, 20_000)), sewerHose: some(bare), liftSide: some(bare), liftAlong: some(typedLength(0, 900)), towLength: some(typedLength(3000, 8000)),
});
const opens = fc.record({
  part: some(fc.array(addedTexts, { maxLength: 4 })),
  "part-slide": some(needs), "part-slide.start": some(typedLength(300, 3000)), "part-slide.end": some(typedLength(3500, 5000)), "part-slide.depth": some(typedLength(300, 1500)),
  "part-door": some(needs), "part-awning.depth": some(typedLength(900, 3000)), "part-awning.from": some(typedLength(1500, 1900)), "part-driver-side-slide.start": some(typedLength(0, 2000)),
  "part-front-bed.depth": some(typedLength(600, 1500)),
});
const hookups = fc.record({
  "inlet-power.side": some(sides), "inlet-power.at": some(typedLength(100, 1800)), "inlet-water.side": some(sides), "inlet-sewer.side": some(sides), "inlet-sewer.height": some(typedLength(150, 900)),
  want: some(fc.subarray(["none", "power", "water", "sewer"])), adapter: some(fc.subarray(["none", "50-to-30", "30-to-20"])), regulator: some(fc.constantFrom("0", "1")),
  plug: some(fc.constantFrom("50", "30", "20", "15", "none")), "load-microwave": some(needs), "load-air-conditioner": some(needs),
});
const party = fc.record({
  ...Object.fromEntries(countFields.map((name) => [name, some(fc.integer({ min: 0, max: 9 }).map(String))])),
  tow: some(fc.constantFrom("on-site", "hitched", "elsewhere", "none")), accessible: some(fc.constantFrom("0", "1")), wish: some(fc.subarray(["none", ...wishes])),
});
const starts = fc.oneof(fc.constantFrom(...typicalKinds).map((kind) => ({ kind })), fc.constantFrom(...kept).map(({ id }) => ({ rig: id })));

export const unitSystem = fc.constantFrom<Units>("ft-in", "metric");

/** Addresses as a form may send them: any of its fields filled in, any left empty. */
export const addresses: fc.Arbitrary<Params> = fc.tuple(starts, lengths, opens, hookups, party).map((records) => Object.fromEntries(Object.entries(Object.assign({}, ...records) as Params).filter(([, value]) => value !== undefined)));

export const kindStarts = fc.constantFrom(...typicalKinds);
