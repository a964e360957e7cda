import { readAt, type Draft, type Path } from "@/lib/park/edit/record";
import type { Thing } from "@/lib/park/edit/things";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import type { Sort } from "../../../editing/typed";

/** One number, word or choice of a thing. */
export type FieldSpec = { readonly path: Path; readonly label: string } & (
  | { readonly type: "number"; readonly sort: Sort; readonly optional?: true; /** The same value as another field, measured another way. */ readonly again?: true }
  | { readonly type: "word"; readonly optional?: true; /** The name of a thing: measurements go by it, so that it is taken over as a whole. */ readonly names?: true; readonly among?: readonly string[] }
  | { readonly type: "choice"; readonly among: Readonly<Record<string, string>>; readonly none?: string }
  | { readonly type: "yes-no"; readonly among: Readonly<Record<"" | "yes" | "no", string>> }
  | { readonly type: "tick" }
  | { readonly type: "amperes" }
);

const { fields: f, choices } = words;

/** What of a thing is not a point, in the order in which one measures it. */
export function fieldsOf(draft: Draft, { kind, path }: Thing): FieldSpec[] {
  switch (kind) {
    case "pad": return [{ path: ["pad", "surface"], label: f.surface, type: "word", optional: true, among: SURFACES }];
    case "obstacle": return obstacleFields(draft, path);
    case "hookup": return hookupFields(draft, path);
    case "stall": return [{ path: [...path, "id"], label: f.id, type: "word", names: true }];
    case "road": case "exit-road": return [number(path, "width", f.width, "length"), { path: [...path, "traffic"], label: f.traffic, type: "choice", among: choices.traffic }];
    case "height-limit": return [...named(path, LIMITS), number(path, "height", f.limitHeight, "length", true)];
    case "lot": case "road-edge": case "exit-edge": case "driveable": case "spot-heights": return [];
  }
}

export function siteFields(draft: Draft): FieldSpec[] {
  return [
    { path: ["label"], label: f.label, type: "word", optional: true },
    { path: ["loop"], label: f.loop, type: "word", optional: true },
    { path: ["entry"], label: f.entry, type: "choice", among: choices.entry },
    ...(draft.entry === "pull-through" ? [{ path: ["enterFrom"], label: f.enterFrom, type: "choice", among: choices.enterFrom, none: "front" } satisfies FieldSpec] : []),
  ];
}

export const slopeFields: readonly FieldSpec[] = [number(["ground"], "along", f.along, "percent"), number(["ground"], "across", f.across, "percent")];

export const ruleFields: readonly FieldSpec[] = [
  number(["rules"], "maxLength", f.maxLength, "length", true),
  number(["rules"], "maxGuests", f.maxGuests, "count", true),
  number(["rules"], "maxVehicles", f.maxVehicles, "count", true),
  number(["rules"], "tents", f.tents, "count", true),
  { path: ["rules", "pets"], label: f.pets, type: "yes-no", among: choices.pets },
  { path: ["rules", "accessible"], label: f.accessible, type: "yes-no", among: choices.accessible },
];

/** The two or three numbers of a point. */
export function pointFields(path: Path, withHeight: boolean): { readonly into: FieldSpec; readonly left: FieldSpec; readonly height: FieldSpec | null } {
  return {
    into: { path: [...path, 0], label: f.into, type: "number", sort: "into" },
    left: { path: [...path, 1], label: f.left, type: "number", sort: "left" },
    height: withHeight ? { path: [...path, 2], label: f.spotHeight, type: "number", sort: "into" } : null,
  };
}

export function gradeFields(i: number): FieldSpec[] {
  const path = ["approach", "gradeBreaks", i];
  return [number(path, "at", f.gradeAt, "into"), number(path, "change", f.gradeChange, "percent")];
}

const SURFACES = ["gravel", "paved", "grass", "dirt", "sand", "concrete"], LIMITS = ["wire", "limb", "gate"];
const OBSTACLES = ["tree", "post", "rock", "table", "fire-ring", "stump", "fence", "lamp", "wire", "wheel-stop"];

function obstacleFields(draft: Draft, path: Path): FieldSpec[] {
  const removable: FieldSpec = { path: [...path, "removable"], label: f.removable, type: "tick" };
  if (readAt(draft, [...path, "kind"]) === "tree") {
    return [
      ...named(path, OBSTACLES),
      number(path, "trunkRadius", f.trunkGirth, "girth"), { path: [...path, "trunkRadius"], label: f.trunkThrough, type: "number", sort: "small-through", again: true },
      number(path, "crownRadius", f.crownRadius, "length"), number(path, "crownFrom", f.crownFrom, "length"), number(path, "crownTo", f.crownTo, "length"), removable,
    ];
  }
  const round = readAt(draft, [...path, "at"]) !== undefined;
  return [...named(path, OBSTACLES), ...(round ? [number(path, "radius", f.through, "through")] : []), number(path, "from", f.from, "length"), number(path, "to", f.to, "length"), removable];
}

function hookupFields(draft: Draft, path: Path): FieldSpec[] {
  const kind = readAt(draft, [...path, "kind"]);
  return [
    { path: [...path, "id"], label: f.id, type: "word", names: true },
    { path: [...path, "kind"], label: f.kind, type: "choice", among: choices.hookup },
    number(path, "height", f.hookupHeight, "small"),
    ...(kind === "power" ? [{ path: [...path, "receptacles"], label: f.receptacles, type: "amperes" } satisfies FieldSpec, number(path, "volts", f.volts, "volts", true)] : []),
    ...(kind === "water" || kind === "rinse-water" ? [number(path, "pressure", f.pressure, "pressure", true)] : []),
    number(path, "postRadius", f.postThrough, "small-through", true), number(path, "postHeight", f.postHeight, "small", true), number(path, "groundZ", f.groundZ, "into", true),
  ];
}

function named(path: Path, kinds: readonly string[]): FieldSpec[] {
  return [{ path: [...path, "id"], label: f.id, type: "word", names: true }, { path: [...path, "kind"], label: f.kind, type: "word", among: kinds }];
}

function number(path: Path, field: string, label: string, sort: Sort, optional?: true): FieldSpec {
  return { path: [...path, field], label, type: "number", sort, ...(optional ? { optional } : {}) };
}
