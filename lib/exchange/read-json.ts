import type { Json } from "./cells";
import type { Drafts } from "./draft";
import { shorten, type Faults } from "./faults";
import { valueAt } from "./paths";

/** What a JSON file of the open format is, by what it holds; null where it is none. */
export function kindOfJson(value: Json): "sites" | "rigs" | "park" | "map" | null {
  if (valueAt(value, ["type"]) === "FeatureCollection") return "map";
  if (Array.isArray(valueAt(value, ["sites"]))) return "sites";
  if (Array.isArray(valueAt(value, ["rigs"]))) return "rigs";
  return typeof valueAt(value, ["slug"]) === "string" ? "park" : null;
}

/** Takes whole records from `sites.json` or `rigs.json`: each replaces the one of its id, notes of one's own included. */
export function readRecords(file: string, of: "sites" | "rigs", value: Json, drafts: Drafts, faults: Faults): void {
  const idPath = of === "sites" ? ["id"] : ["rig", "id"], seen = new Map<string, number>();
  (valueAt(value, [of]) as readonly Json[]).forEach((record, i) => {
    const id = valueAt(record, idPath), at = [of, i, ...idPath].join(".");
    if (typeof id !== "string" || id.trim() === "") return faults.add({ file, code: "record", at, need: "must be a text" });
    const first = seen.get(id.trim());
    if (first !== undefined) return faults.add({ file, code: "twice", at, given: shorten(id), count: first + 1 });
    seen.set(id.trim(), i);
    const draft = drafts.open(id, {})!;
    draft.after = structuredClone(record);
    draft.stated = record;
    draft.marks.push({ path: [], file, at: [of, i] });
  });
}
