import { motorizedKinds, trailerKinds } from "@/lib/rig";
import { day, length, measured, number, numbers, place, points, text, word, words, yesNo, type CellKind } from "./cells";

export type Path = readonly (string | number)[];

/** A column of a table: where in the record its cells stand, and how they are written. */
export interface Column {
  /** As its header says it, without the unit. */
  readonly name: string;
  readonly path: Path;
  readonly kind: CellKind;
  /** Other headers that it is known by. */
  readonly also: readonly string[];
}

export const tableNames = ["sites", "obstacles", "hookups", "parking", "rigs", "rig-supports", "rig-parts", "rig-inlets", "rig-loads"] as const;
export type TableName = (typeof tableNames)[number];

export interface Table {
  readonly name: TableName | "stays";
  readonly of: "site" | "rig" | "stay";
  /** Where in the record its rows stand as a list; null: each row is a record of its own. */
  readonly list: Path | null;
  /** The column that says to which record a row belongs. */
  readonly owner: Column;
  /** The column that names a thing among the others of its list; null where they have no names, and the rows of a record are its whole list. */
  readonly id: Column | null;
  readonly columns: readonly Column[];
}

/** What a site is in flat columns. The way in (`approach`), the survey and notes of one's own are in JSON alone, and stay as they are; only a measurement whose number changes goes. */
export const tables: Readonly<Record<TableName, Table>> = {
  sites: record("site", "sites", column("id", ["id"], text, "site", "site id"), [
    column("label", ["label"], text, "site name", "name", "post"),
    column("loop", ["loop"], text),
    column("entry", ["entry"], word(["back-in", "pull-through"]), "type", "site type"),
    column("enter from", ["enterFrom"], word(["front", "either"])),
    column("measured on", ["measuredOn"], day, "measured", "date measured"),
    column("pad outline", ["pad", "outline"], points(2), "pad"),
    column("surface", ["pad", "surface"], text, "pad surface"),
    column("road edge", ["roadEdge"], points(2)),
    column("exit edge", ["exitEdge"], points(2)),
    column("east", ["place", "east"], place, "place east"),
    column("north", ["place", "north"], place, "place north"),
    column("bearing", ["place", "bearing"], measured("angle"), "place bearing"),
    column("lot outline", ["lot", "outline"], points(2), "lot"),
    column("slope along", ["ground", "along"], measured("slope"), "along"),
    column("slope across", ["ground", "across"], measured("slope"), "across"),
    column("spot heights", ["ground", "heights"], points(3)),
    column("max length", ["rules", "maxLength"], length, "maximum length"),
    column("max guests", ["rules", "maxGuests"], number, "maximum guests"),
    column("max vehicles", ["rules", "maxVehicles"], number, "maximum vehicles"),
    column("pets", ["rules", "pets"], yesNo),
    column("tents", ["rules", "tents"], number),
    column("accessible", ["rules", "accessible"], yesNo),
  ]),
  obstacles: things("obstacles", [
    column("kind", ["kind"], text),
    ...at(), column("outline", ["outline"], points(2)),
    column("radius", ["radius"], length), column("from", ["from"], length), column("to", ["to"], length),
    column("trunk radius", ["trunkRadius"], length), column("crown radius", ["crownRadius"], length),
    column("crown from", ["crownFrom"], length), column("crown to", ["crownTo"], length),
    column("removable", ["removable"], yesNo),
  ]),
  hookups: things("hookups", [
    column("kind", ["kind"], word(["power", "water", "sewer", "rinse-water"])),
    ...at(), column("height", ["height"], length),
    column("receptacles", ["receptacles"], numbers, "receptacles (a)", "amps"),
    column("volts", ["volts"], measured("volts")),
    column("pressure", ["pressure"], measured("pressure"), "water pressure"),
    column("ground z", ["groundZ"], place),
    column("post radius", ["postRadius"], length), column("post height", ["postHeight"], length),
  ]),
  parking: things("parking", [column("outline", ["outline"], points(2))]),
  rigs: record("rig", "rigs", column("id", ["rig", "id"], text, "rig", "rig id"), [
    column("name", ["name"], text), column("note", ["note"], text),
    column("kind", ["rig", "kind"], word([...trailerKinds, ...motorizedKinds]), "type"),
    column("length", ["rig", "body", "length"], length, "body length"), column("width", ["rig", "body", "width"], length, "body width"),
    column("height", ["rig", "body", "height"], length, "body height"), column("floor", ["rig", "body", "floor"], length),
    column("hitch length", ["rig", "hitch", "length"], length), column("hitch width", ["rig", "hitch", "width"], length),
    column("hitch from", ["rig", "hitch", "from"], length), column("hitch to", ["rig", "hitch", "to"], length),
    column("wants", ["rig", "wants"], words),
    column("power cord", ["rig", "gear", "powerCord"], length), column("water hose", ["rig", "gear", "waterHose"], length), column("sewer hose", ["rig", "gear", "sewerHose"], length),
    column("lift side", ["rig", "gear", "liftSide"], length), column("lift along", ["rig", "gear", "liftAlong"], length),
    column("adapters", ["rig", "gear", "adapters"], words), column("regulator", ["rig", "gear", "regulator"], yesNo),
    column("plug", ["rig", "electric", "plug"], number, "plug (a)"),
    column("tow length", ["rig", "tow", "length"], length), column("tow width", ["rig", "tow", "width"], length), column("tow height", ["rig", "tow", "height"], length),
    column("tow overlap", ["rig", "tow", "overlap"], length), column("tow stays", ["rig", "tow", "stays"], word(["on-site", "elsewhere", "hitched"])),
    column("adults", ["rig", "party", "adults"], number), column("children", ["rig", "party", "children"], number), column("pets", ["rig", "party", "pets"], number),
    column("tents", ["rig", "party", "tents"], number), column("accessible", ["rig", "party", "accessible"], yesNo),
    column("wishes", ["rig", "wishes"], words),
  ]),
  "rig-supports": ofRig("rig-supports", ["rig", "supports"], null, [column("kind", ["kind"], word(["tyre", "jack"])), column("u", ["at", 0], place), column("v", ["at", 1], place)]),
  "rig-parts": ofRig("rig-parts", ["rig", "parts"], "part", [
    column("kind", ["kind"], text), column("side", ["side"], word(["left", "right", "rear", "front"])), column("begins", ["span", 0], place), column("ends", ["span", 1], place),
    column("depth", ["depth"], length), column("from", ["from"], length), column("to", ["to"], length), column("need", ["need"], word(["must", "nice"])),
  ]),
  "rig-inlets": ofRig("rig-inlets", ["rig", "inlets"], null, [
    column("kind", ["kind"], word(["power", "water", "sewer"])), column("side", ["side"], word(["left", "right", "rear", "front"])),
    column("u", ["u"], place), column("v", ["v"], place), column("height", ["height"], length),
  ]),
  "rig-loads": ofRig("rig-loads", ["rig", "electric", "loads"], "load", [column("load", ["va"], measured("power"), "va"), column("need", ["need"], word(["must", "nice"]))]),
};

function record(of: "site" | "rig", name: TableName, owner: Column, columns: readonly Column[]): Table {
  return { name, of, list: null, owner, id: null, columns: [owner, ...columns] };
}

function things(name: "obstacles" | "hookups" | "parking", columns: readonly Column[]): Table {
  const id = column("id", ["id"], text, name.replace(/s$/, ""));
  return { name, of: "site", list: [name], owner: column("site", ["id"], text, "site id"), id, columns: [id, ...columns] };
}

function ofRig(name: TableName, list: Path, idName: string | null, columns: readonly Column[]): Table {
  const id = idName === null ? null : column("id", ["id"], text, idName);
  return { name, of: "rig", list, owner: column("rig", ["rig", "id"], text, "rig id"), id, columns: id ? [id, ...columns] : columns };
}

/** A column with the other headers that it is known by. */
export function column(name: string, path: Path, kind: CellKind, ...also: string[]): Column {
  return { name, path, kind, also };
}

function at(): Column[] {
  return [column("x", ["at", 0], place), column("y", ["at", 1], place)];
}
