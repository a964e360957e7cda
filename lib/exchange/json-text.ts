import { bounds } from "./bounds";
import type { Json } from "./cells";
import type { FaultCode } from "./faults";

export type JsonRead = { readonly ok: true; readonly value: Json } | { readonly ok: false; readonly code: FaultCode; readonly need?: string; readonly count?: number };

/** Reads JSON that is no deeper than any record needs, as what goes deeper would exhaust whoever walks through it, and that holds no more than `mostValues`. */
export function readJson(text: string, mostValues: number): JsonRead {
  const body = text.startsWith("\uFEFF") ? text.slice(1) : text;
  const { depth, values } = extentOf(body, mostValues);
  if (depth > bounds.depth) return { ok: false, code: "too-deep" };
  if (values > mostValues) return { ok: false, code: "too-many-values", count: mostValues };
  try {
    return { ok: true, value: JSON.parse(body) as Json };
  } catch (error) {
    return { ok: false, code: "not-json", need: error instanceof Error ? error.message : String(error) };
  }
}

/**
 * The one way in which a record is written: fields in the order in which people read a record and then by name, two blanks a
 * level, what fits into a line in one line, and a line feed at the end. The same record gives the same bytes wherever it comes from.
 */
export function writeJson(value: Json): string {
  return `${written(value, "")}\n`;
}

/** What is longer is broken into a line for each entry. */
const LINE = 140;

function written(value: Json, indent: string): string {
  const inline = inlined(value, LINE - indent.length);
  if (inline !== null) return inline;
  const deeper = `${indent}  `;
  if (Array.isArray(value)) return `[\n${value.map((one: Json) => deeper + written(one, deeper)).join(",\n")}\n${indent}]`;
  const fields = fieldsOf(value as Readonly<Record<string, Json>>);
  return `{\n${fields.map(([name, held]) => `${deeper}${JSON.stringify(name)}: ${written(held, deeper)}`).join(",\n")}\n${indent}}`;
}

/** In one line, where it is no longer than `room`. */
function inlined(value: Json, room: number): string | null {
  if (room < 0) return null;
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const isList = Array.isArray(value), parts: string[] = [];
  let left = room - 2;
  for (const [name, held] of isList ? value.map((one: Json) => [null, one] as const) : fieldsOf(value as Readonly<Record<string, Json>>)) {
    const head = name === null ? "" : `${JSON.stringify(name)}: `, part = inlined(held, left - head.length);
    if (part === null) return null;
    left -= head.length + part.length + 2;
    if (left < -2) return null;
    parts.push(head + part);
  }
  return isList ? `[${parts.join(", ")}]` : `{${parts.join(", ")}}`;
}

function fieldsOf(value: Readonly<Record<string, Json>>): [string, Json][] {
  return Object.entries(value).filter(([, held]) => held !== undefined).sort(([a], [b]) => (rank.get(a) ?? ORDER.length) - (rank.get(b) ?? ORDER.length) || (a < b ? -1 : a > b ? 1 : 0));
}

/** What names a thing, then where it is, then how large, then what belongs to it. */
const ORDER = [
  "type", "slug", "id", "label", "name", "note", "loop", "kind", "units", "entry", "enterFrom", "measuredOn", "origin", "latitude", "longitude", "pad", "surface", "roadEdge", "exitEdge", "place", "east", "bearing", "lot",
  "ground", "along", "across", "heights", "side", "at", "u", "v", "outline", "span", "depth", "radius", "trunkRadius", "crownRadius", "crownFrom", "crownTo", "length", "width", "height", "from", "to", "removable", "need",
  "receptacles", "volts", "pressure", "groundZ", "postRadius", "postHeight", "body", "floor", "hitch", "supports", "parts", "inlets", "wants", "gear", "electric", "plug", "loads", "tow", "drive", "party", "wishes",
  "road", "centreline", "traffic", "exitRoad", "driveable", "heightLimits", "gradeBreaks", "obstacles", "hookups", "parking", "rules", "maxLength", "maxGuests", "maxVehicles", "pets", "tents", "accessible", "approach", "survey",
  "geometry", "coordinates", "properties", "features", "rig",
];
const rank = new Map(ORDER.map((name, i) => [name, i]));

/** How deep lists and objects lie in each other and how many values there are, without building any of them; beyond a bound it stops counting. */
function extentOf(text: string, mostValues: number): { depth: number; values: number } {
  let depth = 0, deepest = 0, values = 1, inText = false;
  for (let i = 0; i < text.length && deepest <= bounds.depth && values <= mostValues; i++) {
    const sign = text[i]!;
    if (inText) {
      if (sign === "\\") i++;
      else if (sign === '"') inText = false;
    } else if (sign === '"') inText = true;
    else if (sign === "[" || sign === "{") {
      values++;
      if (++depth > deepest) deepest = depth;
    } else if (sign === ",") values++;
    else if (sign === "]" || sign === "}") depth--;
  }
  return { depth: deepest, values };
}
