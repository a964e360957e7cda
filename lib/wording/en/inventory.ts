import type { Fault, FileRead, ImportPlan, RecordChange } from "@/lib/exchange";
import type { Numbers } from "../format";
import { stayFaults, stayWords } from "./inventory-stays";
import { count, list } from "./text";

/** Handing the inventory out and reading it in: the page, and the command line. */

const megabytes = (bytes: number) => `${Math.round(bytes / 100_000) / 10} MB`;
const quoted = (text: string | undefined) => `“${text ?? ""}”`;

const whats: Readonly<Record<NonNullable<FileRead["what"]>, string>> = {
  sites: "sites", obstacles: "obstacles", hookups: "hookups", parking: "parking stalls", rigs: "rigs", "rig-supports": "tires and jacks of rigs", "rig-parts": "parts of rigs", "rig-inlets": "inlets of rigs", "rig-loads": "electric loads of rigs", stays: "stays",
  "json-sites": "sites, whole records", "json-rigs": "rigs, whole records", "json-park": "the park’s file", map: "a map",
};

const sentences: Readonly<Record<Fault["code"], (fault: Fault) => string>> = {
  empty: () => "The file is empty.",
  "too-large": ({ count: most }) => `The files are larger than ${megabytes(most ?? 0)} together. Send fewer at a time.`,
  "too-many-files": ({ count: most }) => `More than ${most} files. Send fewer at a time.`,
  encoding: () => "The text is not in UTF-8. Save it as “CSV UTF-8” and send it again.",
  nul: () => "The file holds NUL characters, so it is no table or record. Save it as “CSV UTF-8” and send it again.",
  packed: () => "This is a workbook or a packed file. Save each sheet as “CSV UTF-8”, or unpack it, and send those.",
  "unknown-file": () => "This JSON is no list of sites, no list of rigs, no park and no map.",
  "unknown-table": () => "It is not clear which table this is. Name the file sites.csv, obstacles.csv, hookups.csv, parking.csv, rigs.csv or stays.csv, or use the headers of an export.",
  "no-header": () => "There is no row with headers.",
  "twice-table": ({ given }) => `Another file of this upload is the table ${given} already. Send one of the two.`,
  "too-many-rows": ({ count: most }) => `More than ${(most ?? 0).toLocaleString("en-US")} rows. Split the table.`,
  "too-many-columns": ({ count: most }) => `More than ${most} columns. Is this the right file?`,
  "cell-too-long": ({ count: most }) => `A cell holds more than ${(most ?? 0).toLocaleString("en-US")} characters.`,
  quotes: () => "After a quoted cell there is more text. A quote within a quoted cell is written twice.",
  "quote-open": () => "A quote is opened and never closed. A quote within a quoted cell is written twice.",
  "not-json": ({ need }) => `This is not JSON: ${need}.`,
  "too-deep": () => "Lists and objects lie too deep in each other for a record.",
  "too-many-values": ({ count: most }) => `More than ${(most ?? 0).toLocaleString("en-US")} values. Send fewer records at a time.`,
  "not-geojson": () => "A map is a FeatureCollection with a list of features.",
  "foreign-crs": ({ given }) => `The map is in ${given}. Save it in longitude and latitude (WGS 84).`,
  "no-origin": () => "It is not known where on earth the park’s map lies. Say it on this page under “Where the map lies”, then send the file again.",
  "no-key-column": ({ need }) => `The column ${quoted(need)} is missing. It says what each row is of.`,
  "column-twice": ({ column }) => `The column ${quoted(column)} is there twice.`,
  "no-unit": ({ column, count: cells, need }) => `${count(cells ?? 0, "number", "numbers")} under ${quoted(column)} ${cells === 1 ? "has" : "have"} no unit. Put it in the header, such as ${need}.`,
  "unknown-unit": ({ given, need }) => `${quoted(given)} is no unit for this column. Use ${need}.`,
  "extra-cells": ({ given, count: columns }) => `${quoted(given)} stands beyond the last of ${columns} headers. Is a comma missing its quotes?`,
  "no-id": () => "The id is missing.",
  twice: ({ given, count: row }) => `${quoted(given)} is there already, in ${row === undefined ? "another place" : `number ${row}`}.`,
  "no-such-owner": ({ given }) => `There is no ${quoted(given)}, neither in the park nor in these files.`,
  number: ({ given }) => `${quoted(given)} is not a number.`,
  ambiguous: ({ given }) => `${quoted(given)} may mean thousands or decimals. Write it without a point.`,
  length: ({ given }) => `${quoted(given)} is not a length. Write it like 34' 6", 34-6, 34.5 ft or 10.5 m.`,
  "unit-mixed": ({ given }) => `${quoted(given)} does not go with the unit in the header.`,
  negative: ({ given }) => `${quoted(given)} is below zero.`,
  "yes-no": ({ given }) => `${quoted(given)} is neither yes nor no.`,
  "one-of": ({ given, need }) => `${quoted(given)} is none of ${need}.`,
  "list-item": ({ given }) => `${quoted(given)} is not a number. Numbers in a row are written 30; 50.`,
  points: ({ given, need }) => `${quoted(given)} is not a point. Points are written ${need}`,
  day: ({ given }) => `${quoted(given)} is no date such as 2026-04-18.`,
  record: ({ need }) => `${(need ?? "").charAt(0).toUpperCase()}${(need ?? "").slice(1)}${/[.?!…]$/.test(need ?? "") ? "" : "."}`,
  "no-thing": ({ need }) => `The property “thing” is none of ${need}.`,
  geometry: ({ need }) => `Its geometry has to be a ${need?.replace(", ", " or a ")}.`,
  holes: () => "An outline with holes cannot be read. Draw what stands in the hole as an obstacle.",
  coordinates: () => "Its coordinates are no longitudes and latitudes in degrees, or there are more than 500 of them.",
  "far-away": () => "It lies more than 20 km from the park. Are longitude and latitude the wrong way round?",
  "no-place": ({ given }) => `${quoted(given)} has no place on the park’s map, so nothing of it can be placed. Send its point too, or set east, north and bearing in sites.csv.`,
  "many-parts": () => "It has several parts. Draw it as one, or as several features.",
  ...stayFaults,
};

/** Where in a file: "row 12, “max length (ft)”". */
function placeOf({ row, column, at }: Fault, isMap: boolean): string {
  return [row === undefined ? null : `${isMap ? "feature" : "row"} ${row}`, column === undefined ? null : quoted(column), at === undefined ? null : at].filter((part) => part !== null).join(", ");
}

const verbs = { added: "added", changed: "changed", removed: "removed" } as const;

function tallied(counts: Readonly<Record<keyof typeof verbs, number>>, one: string, many: string): string | null {
  const parts = (Object.keys(verbs) as (keyof typeof verbs)[]).filter((what) => counts[what] > 0).map((what) => `${counts[what].toLocaleString("en-US")} ${verbs[what]}`);
  const total = counts.added + counts.changed + counts.removed;
  return parts.length === 0 ? null : `${total === 1 ? one : many}: ${list(parts)}`;
}

function valueText(kind: RecordChange["kind"], value: RecordChange["before"], n: Numbers): string {
  if (value === undefined || value === null) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return kind === "length" || kind === "place" ? n.measured(value) : String(value);
  if (typeof value === "string") return value;
  if (kind === "points" && Array.isArray(value)) return count(value.length, "point", "points");
  return Array.isArray(value) && value.every((one) => typeof one !== "object") ? value.join(", ") || "none" : "…";
}

/** "obstacle oak, crown from: 12 ft 9 in → 13 ft 1 in". */
function change({ table, thing, column, field, kind, before, after }: RecordChange, n: Numbers): string {
  const single: Partial<Record<RecordChange["table"], string>> = { obstacles: "obstacle", hookups: "hookup", parking: "stall", "rig-supports": "tire or jack", "rig-parts": "part", "rig-inlets": "inlet", "rig-loads": "load" };
  const head = thing === null ? "" : `${single[table]} ${thing}`;
  if (column === null && field === null) return `${head} ${after === undefined ? "removed" : "added"}`;
  const name = column ?? fields[field!] ?? field!;
  const lead = head === "" ? name : `${head}, ${name}`;
  const was = valueText(kind, before, n), is = valueText(kind, after, n);
  return kind === null || was === is || kind === "points" && before !== undefined && after !== undefined ? `${lead} changed${kind === "points" && was !== is ? ` (${was}, now ${is})` : ""}` : `${lead}: ${was} → ${is}`;
}

const fields: Readonly<Record<string, string>> = { approach: "the way in", survey: "the survey", map: "map", loops: "loops", north: "north", origin: "where the map lies", name: "name", units: "units" };

export const inventory = {
  title: "Inventory, in and out",
  lead: "Take every site as files, and read files in. Nothing is saved before you have seen what it would do.",
  out: {
    title: "Take it out",
    lead: "What you take out and read in again changes nothing.",
    json: { name: "Everything, as JSON", about: "Whole records, with the survey, the way in and your own notes. The only form that holds everything." },
    csv: { name: "Tables for a spreadsheet, as CSV", about: "One row for each site, obstacle, hookup, stall or rig. Lengths are in millimeters; you may change the unit in a header and write feet and inches." },
    map: { name: "A map, as GeoJSON", about: "Outlines, roads and points in longitude and latitude, for a mapping program." },
    mapMissing: "For a map, say first where the park’s map lies.",
    mapWithout: (ids: readonly string[]) => `Not on the map, since they have no place on it: ${list(ids)}.`,
    stays: { name: "Stays", about: "Every stay with its nights, site and guest, as CSV. It holds people’s names and numbers: keep it safe. You may change it and read it in again." },
    files: { "park.json": "the park", "sites.json": "sites", "rigs.json": "rigs", "sites.csv": "sites", "obstacles.csv": "obstacles", "hookups.csv": "hookups", "parking.csv": "parking stalls", "rigs.csv": "rigs", "rig-supports.csv": "tires and jacks", "rig-parts.csv": "parts", "rig-inlets.csv": "inlets", "rig-loads.csv": "electric loads", "sites.geojson": "map of the sites", "stays.csv": "stays" } as Readonly<Record<string, string>>,
  },
  in: {
    title: "Read files in",
    lead: (most: string) => `JSON, CSV or GeoJSON files, several at once, up to ${most} together. What they would do is shown before anything is saved.`,
    files: "Files",
    missing: "What the files do not name",
    keep: "stays as it is",
    remove: "is taken out",
    removeAbout: "Sites that a list of sites leaves out go out of use. Obstacles, hookups and stalls that their list leaves out of a site are deleted. Stays are never canceled this way.",
    go: "Show what it would do", sending: "Sending the files …",
    none: "Choose at least one file.",
    tooLarge: (most: string) => `These files are larger than ${most} together. Send fewer at a time, or use the command line.`,
    tooMany: (most: number) => `More than ${most} files. Send fewer at a time.`,
    broken: "The files did not come through whole. Send them again.",
  },
  origin: {
    title: "Where the map lies",
    about: "Longitude and latitude of the corner that east and north are measured from, and which way the map’s north points. Needed for maps alone.",
    latitude: "Latitude, degrees", longitude: "Longitude, degrees (west is below zero)", bearing: "The map’s north, degrees clockwise from true north",
    save: "Save", saved: "Saved.",
    set: (latitude: number, longitude: number, bearing: number) => `Latitude ${latitude}°, longitude ${longitude}°, north turned by ${bearing}°.`,
    unset: "Not said yet.",
    accuracy: "A point 1 km from the corner is up to about 0.2 m off on the earth. Lengths on a site are not touched by that.",
    faults: { latitude: "Write a latitude between -80 and 80, such as 43.6.", longitude: "Write a longitude between -180 and 180, such as -74.8.", bearing: "Write an angle between -360 and 360, such as 0." },
  },
  preview: {
    title: "What these files would do", titleGoing: "These files are being read in", titleDone: "What these files did",
    back: "Inventory, in and out",
    gone: "These files are not here any more. Send them again.",
    faultsTitle: (n: number) => count(n, "thing to put right", "things to put right"),
    faultsLead: "Nothing was saved. Put these right in the files and send them again.",
    faultsMore: (shown: number) => `Only the first ${shown} are shown.`,
    file: "File", place: "Where", fault: "What is wrong",
    read: "What was read",
    rows: (n: number) => count(n, "row", "rows"), records: (n: number) => count(n, "record", "records"), features: (n: number) => count(n, "feature", "features"),
    units: (of: readonly string[]) => `Units: ${of.join(", ")}.`,
    passed: (of: readonly string[]) => `Passed over, since no record has such a column: ${list(of.map(quoted))}.`,
    foreign: (n: number) => `${count(n, "feature is", "features are")} of no site and passed over.`,
    settings: "The file’s settings or rates differ from the park’s. They stay as they are: change them on their own pages.",
    changes: "What would change",
    nothing: "Nothing. The park is exactly as these files have it.",
    sites: (plan: ImportPlan) => tallied(countsOf(plan.sites), "Site", "Sites"),
    rigs: (plan: ImportPlan) => tallied(countsOf(plan.rigs), "Rig", "Rigs"),
    stayPlans: ({ stays }: Pick<ImportPlan, "stays">) => tallied({ added: stays.filter(({ what }) => what === "added").length, changed: stays.filter(({ what }) => what === "changed").length, removed: 0 }, "Stay", "Stays"),
    unchanged: ({ sites, rigs, stays }: ImportPlan["unchanged"]) => `Unchanged: ${list([count(sites, "site", "sites"), count(rigs, "rig", "rigs"), ...(stays ? [count(stays, "stay", "stays")] : [])])}.`,
    park: (names: readonly string[]) => `The park’s file: ${list(names.map((name) => fields[name] ?? name))} changed`,
    whats: { added: "Added", changed: "Changed", removed: "Taken out" },
    moreRecords: (n: number) => `and ${n.toLocaleString("en-US")} more`,
    moreChanges: (n: number) => `and ${count(n, "more change", "more changes")}`,
    change,
    stays: "What it means for stays to come",
    staysNone: (asked: number) => (asked === 0 ? "No stay to come is on these sites." : `${count(asked, "stay to come was", "stays to come were")} looked at. Nothing changes for any of them.`),
    staysOpen: "This could not be worked out in time. It is worked out after the files are read in, and the desk is told.",
    staysUnknown: (n: number) => `Of ${count(n, "stay", "stays")} nothing can be said, since not all of it is known.`,
    staysDesk: "When the files are read in, stays that no longer fit, and those that begin to, are put on the desk’s list. Nobody is moved.",
    why: "Why, for the record", whyHelp: "Optional. It stands beside the change of each site and stay.",
    go: "Read it in", giveUp: "Forget these files",
    looking: "Looking through the files. Thousands of sites take some seconds.",
    weighing: "Working out which stays to come would no longer fit, or begin to …",
    bar: "Reading in",
    working: "Looking through the files once more …",
    progress: (done: number, of: number, stays = false) => `${done.toLocaleString("en-US")} of ${stays ? count(of, "record", "records") : count(of, "site", "sites")} written.${done >= of ? " Finishing …" : ""}`,
    leave: "None of it counts before all of it is saved. You may leave this page: it goes on, and this page says later what came of it.",
    lost: "The connection broke off. The files may still be on their way in: look what came of it before you press the button again.",
    look: "Look what came of it",
    going: "When all of it is saved, this page says so. You may leave it: the reading in goes on.",
    goingLook: "Look again",
    changedSince: "The park was changed since you looked. This is what the files would do now.",
    stale: "Somebody changed one of these sites or stays at the same moment, or took one of the nights. Nothing was saved. Look again and press the button again.",
    inUse: (sites: readonly string[]) => `Nothing was saved: ${list(sites)} cannot be taken out of use while stays or closures are on ${sites.length === 1 ? "it" : "them"}.`,
    whyMissing: "Nothing was saved: say why. A guest is taken off the site that they chose.",
    changePlaces: "Nothing was saved: guests who are here would change places with each other at one moment. Move one of them at the desk first.",
    failed: "Nothing was saved. Try again.",
    slow: "These files take too long to look through. Split them, or use the command line.",
    busy: "Too much is being worked out just now. Try again in a moment.",
    done: "Read in.",
    doneBy: (who: string, when: string) => `${when}, by ${who}.`,
  },
  history: { title: "Read in before", none: "Nothing yet." },
  outcome: ({ sites, rigs, park, stays }: { readonly sites: Counts; readonly rigs: Counts; readonly park: boolean; readonly stays?: Omit<Counts, "removed"> }) => `${[tallied(sites, "Site", "Sites"), tallied(rigs, "Rig", "Rigs"), stays ? tallied({ ...stays, removed: 0 }, "Stay", "Stays") : null, park ? "The park’s file changed" : null].filter((part) => part !== null).join(". ") || "Nothing changed"}.`,
  fault: (fault: Fault) => sentences[fault.code](fault),
  place: placeOf,
  stayWords,
  what: (what: FileRead["what"]) => (what === null ? "" : whats[what]),
  tallied,
};

type Counts = Readonly<Record<keyof typeof verbs, number>>;

function countsOf(plans: ImportPlan["sites"]): Record<keyof typeof verbs, number> {
  const counts = { added: 0, changed: 0, removed: 0 };
  for (const { what } of plans) counts[what]++;
  return counts;
}
