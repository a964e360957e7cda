import { outlineFault, type Point } from "@/lib/plane";
import { siteSchema } from "../schema";
import { keyOf, readAt, type Draft, type Path } from "./record";

/** What is wrong with one value of a record, as data; `wording` makes the sentence. */
export type FaultCode =
  | "missing" | "negative" | "far" | "few" | "same" | "crossing" | "flat" | "pad-size" | "order" | "taken" | "empty" | "one-line" | "twice-given" | "post-height" | "receptacles" | "no-exit" | "posted-length" | "road-width" | "count" | "slope" | "other";

export interface Fault {
  readonly path: Path;
  /** The path as one text. */
  readonly key: string;
  readonly code: FaultCode;
  /** For `same` and `crossing`: the two corners, or the first corners of the two edges, counted from 0. */
  readonly corners: readonly [number, number] | null;
  /** What the schema itself says, in millimetres, for whoever needs it. */
  readonly told: string;
}

/** Every fault of a record, all at once, in the order of the record. None: it can be saved. */
export function faultsOf(draft: Draft): Fault[] {
  const read = siteSchema.safeParse(draft);
  if (read.success) return [];
  const faults = read.error.issues.map(({ path, message }) => {
    const way = path.filter((step): step is string | number => typeof step !== "symbol");
    return { path: way, key: keyOf(way), ...meaning(draft, way), told: message };
  });
  // One place is told one thing, the first that the schema found there.
  return faults.filter(({ key, code }, i) => faults.findIndex((other) => other.key === key && other.code === code) === i);
}

const nothing = { corners: null };

/** Which fault it is, read off the value itself, so that no sentence of the schema is taken apart. */
function meaning(draft: Draft, path: Path): Pick<Fault, "code" | "corners"> {
  const last = path.at(-1), value = readAt(draft, path);
  if (last === "id") return { code: typeof value === "string" && value !== "" ? "taken" : "empty", ...nothing };
  if (last === "heights") return { code: Array.isArray(value) && value.length < 3 ? "few" : Array.isArray(value) && readAt(draft, ["ground", "along"]) !== undefined ? "twice-given" : "one-line", ...nothing };
  if (isRing(path) && Array.isArray(value)) return ofRing(value as readonly Point[]);
  if (last === "exitRoad") return { code: "no-exit", ...nothing };
  if (last === "receptacles") return { code: "receptacles", ...nothing };
  if (last === "postHeight" && value === undefined) return { code: "post-height", ...nothing };
  if (value === undefined) return { code: "missing", ...nothing };
  if (typeof value === "string") return { code: value === "" ? "empty" : "other", ...nothing };
  if (Array.isArray(value)) return { code: path.includes("centreline") && value.length < 2 ? "few" : value.flat().some((n) => typeof n === "number" && Math.abs(n) > 500_000) ? "far" : "same", corners: null };
  return typeof value === "number" ? { code: ofNumber(draft, path, value), ...nothing } : { code: "other", ...nothing };
}

function isRing(path: Path): boolean {
  const last = path.at(-1);
  return last === "outline" || (path.at(-2) === "driveable" && typeof last === "number");
}

function ofRing(corners: readonly Point[]): Pick<Fault, "code" | "corners"> {
  if (corners.length < 3) return { code: "few", corners: null };
  const fault = outlineFault(corners);
  const pair = /(\d+) and (\d+)/.exec(fault ?? "");
  const both = pair ? [Number(pair[1]), Number(pair[2])] as const : null;
  if (fault === null) return { code: "pad-size", corners: null };
  return { code: !both ? "flat" : fault.startsWith("corners") ? "same" : "crossing", corners: both };
}

function ofNumber(draft: Draft, path: Path, value: number): FaultCode {
  const last = path.at(-1);
  if (last === "maxLength") return "posted-length";
  if (path[0] === "rules") return "count";
  if (last === "along" || last === "across" || last === "change") return "slope";
  const below = last === "to" ? "from" : last === "crownTo" ? "crownFrom" : null;
  const lower = below === null ? undefined : readAt(draft, [...path.slice(0, -1), below]);
  if (typeof lower === "number" && lower > value && value >= 0) return "order";
  if (Math.abs(value) > 500_000) return "far";
  if (last === "width") return "road-width";
  return value < 0 && typeof last === "string" ? "negative" : "other";
}
