import type { Units } from "@/lib/measure";
import { rigSchema, type Rig, type RigPart } from "@/lib/rig";
import { catalogueOf } from "@/lib/wording";
import { assumedOf, type Assumed } from "./assumed";
import { countFields, fromWall, gearFields, inletFields, isEnd, partFields, readCount, readLength, driveNames, sizeFields, steerFields, steerInputs, towFields, typicalText, wallOf, type CountField, type Field } from "./fields";
import { notesOn } from "./notes";
import { outlineOf, type Outline } from "./outline";
import { one, typed, type Params } from "./params";
import { queryOf } from "./query";
import { resized, sizeOf } from "./resize";
import type { Start } from "./start";

export type { Assumed } from "./assumed";

/** A form of its own: its path, where its answer is, and what leads there. */
export interface FormWay {
  readonly path: string;
  readonly answer: string;
  readonly submit: string;
}

/** What the address says about a rig: the texts as typed, what is wrong with each, and the rig where nothing is. */
export interface RigForm {
  readonly start: Start;
  /** Where the form is and where it leads: the guest's own, from `/rig` to `/sites`, where left out. */
  readonly way?: FormWay;
  readonly base: Rig;
  readonly units: Units;
  /** Every length the form asks for, with the number that stands until something is typed. */
  readonly fields: readonly Field[];
  /** What stands in each field, by its name: as typed; of a rig that the park keeps its own number; empty where only a typical one is known. */
  readonly texts: Readonly<Record<string, string>>;
  readonly faults: Readonly<Record<string, string>>;
  /** What is possible but unusual, by field: told beside it, and no obstacle. */
  readonly notes: Readonly<Record<string, string>>;
  readonly rig: Rig | null;
  /** The rig as far as it can be read, to draw from while there are faults. */
  readonly outline: Outline;
  /** The address' own words for this rig, as short as they can be: only what differs from the typical one. */
  readonly query: string;
  /** Numbers nobody has measured: the typical ones of the kind. Empty for a rig that the park keeps. */
  readonly assumed: readonly Assumed[];
  /** Nobody has told the length either: it is the usual one of the kind. */
  readonly lengthAssumed: boolean;
}

export function unitsOf(params: Params, fallback: Units): Units {
  const asked = one(params.units);
  return asked === "metric" || asked === "ft-in" ? asked : fallback;
}

export function readRigForm(params: Params, start: Start, units: Units): RigForm {
  const reader = new Reader(params, units, start.kind === null);
  const { base } = start;
  const size = sizeFields(base);
  const sized = inSize(reader, base, size);
  const outline = outlineOf(sized, params);
  const spans = outline.parts.map(({ part }) => readPart(reader, part, sized));
  const fields = [...size, ...replaced(partFields(outline), spans), ...inletFields(outline), ...gearFields(outline), ...towFields(outline), ...steerFields(withTow(reader, outline))];
  const drawn = measuredOutline(reader, outline, spans, fields);
  const counts = readCounts(reader, base);
  const read = Object.keys(reader.faults).length === 0 ? rigSchema.safeParse({ ...drawn.rig, party: { ...drawn.rig.party, ...counts } }) : null;
  if (read?.success === false) reader.fail(fieldOfIssue(read.error.issues[0]?.path ?? [], fields), catalogueOf().guestRig.faults.impossible);
  for (const f of fields) reader.show(f);
  const { faults, texts } = reader;
  return {
    start, base, units, fields, texts, faults, outline: drawn,
    notes: notesOn(base.kind, fields, reader.values, units),
    rig: read?.success ? read.data : null,
    query: queryOf(params, start, units, fields, sized),
    assumed: start.kind ? assumedOf(fields, params) : [],
    lengthAssumed: start.kind !== null && typed(params.length) === undefined,
  };
}

/** Reads one field after another and keeps what was typed and what is wrong with it. */
class Reader {
  readonly faults: Record<string, string> = {};
  readonly texts: Record<string, string> = {};
  /** The numbers that were typed and could be read. */
  readonly values: Record<string, number> = {};

  constructor(readonly params: Params, readonly units: Units, private readonly measured: boolean) {}

  /** What was typed; null where nothing was, or nothing that can be read. */
  typed(asked: Field): number | null {
    const text = typed(this.params[asked.input]);
    if (text === undefined) return null;
    const read = readLength(text, asked, this.units, this.measured && asked.untold !== true);
    if (read.ok) return (this.values[asked.input] = read.value);
    this.fail(asked.input, read.fault);
    return null;
  }

  number(asked: Field): number {
    return this.typed(asked) ?? asked.typical;
  }

  /** The first thing wrong with a field is the one told. */
  fail(input: string, fault: string): void {
    this.faults[input] ??= fault;
  }

  show(asked: Field): void {
    this.texts[asked.input] = typed(this.params[asked.input]) ?? (this.measured && asked.untold !== true ? typicalText(asked, this.units) : "");
  }
}

/** What is usual of what steers goes by how long that is. */
function withTow(reader: Reader, { rig }: Outline): Rig {
  const [length] = towFields({ rig } as Outline);
  return rig.tow && length ? { ...rig, tow: { ...rig.tow, length: reader.number(length) } } : rig;
}

/** Less than this is no body to live in: the hitch was taken for the whole, or a unit for another. */
const SHORTEST_BODY = 1000;

/** The rig in the size typed: what is said overall is with the hitch, which comes off. */
function inSize(reader: Reader, base: Rig, fields: readonly Field[]): Rig {
  const values = Object.fromEntries(fields.map((f) => [f.what, reader.number(f)])) as Partial<Record<Field["what"], number>>;
  const known = sizeOf(base), { faults: words } = catalogueOf().guestRig;
  const length = values.length!, hitch = values.hitch ?? 0, height = values.height!, floor = values.floor!;
  if (length - hitch < SHORTEST_BODY) {
    if (hitch > 0 && length >= SHORTEST_BODY) reader.fail("hitch", words.hitchTooLong);
    else reader.fail("length", words.tooShort);
  }
  if (height <= floor) reader.fail(typed(reader.params.floor) === undefined ? "height" : "floor", words.lowerThanFloor);
  if (Object.keys(reader.faults).length > 0) return base;
  const size = { length: length - hitch, hitch, width: values.width!, height };
  const same = (Object.keys(size) as (keyof typeof size)[]).every((k) => Math.abs(size[k] - known[k]) < 1e-6);
  const shaped = same ? base : resized(base, size);
  return floor === base.body.floor ? shaped : { ...shaped, body: { ...shaped.body, floor } };
}

/** The two ends of a part along its wall as the form counts them, and which of them are typical. */
interface Span {
  readonly start: number;
  readonly end: number;
  /** What stands for each until it is typed: moved along where only the other one was. */
  readonly typicalStart: number;
  readonly typicalEnd: number;
}

/** A part keeps its width where one end alone was measured, as far as its wall goes. */
function readPart(reader: Reader, part: RigPart, rig: Rig): Span {
  const name = `part-${part.id}`, wall = wallOf(rig, part.side), { faults: words } = catalogueOf().guestRig;
  const [from, to] = fromWall(rig, part.side, part.span);
  const base = { step: "opens", spread: 0, path: null, most: wall + NEAR, small: false } as const;
  const start = reader.typed({ ...base, input: `${name}.start`, what: "start", typical: from, zero: true });
  const end = reader.typed({ ...base, input: `${name}.end`, what: "end", typical: to, zero: false });
  const width = to - from;
  const typicalStart = end === null ? from : Math.max(0, end - width);
  const typicalEnd = start === null ? to : Math.min(Math.max(wall, to), start + width);
  const span = { start: start ?? typicalStart, end: end ?? typicalEnd, typicalStart, typicalEnd };
  if (span.start >= span.end) reader.fail(start === null ? `${name}.end` : `${name}.start`, isEnd(part.side) ? words.spanOnEnd : words.span);
  return span;
}

/** A tape held to a wall may read a finger's breadth more than the wall is long. */
const NEAR = 20;

function replaced(fields: readonly Field[], spans: readonly Span[]): Field[] {
  // Five fields a part, in the order of the parts.
  return fields.map((f, i) => {
    const span = spans[Math.floor(i / 5)]!;
    return f.what === "start" ? { ...f, typical: span.typicalStart } : f.what === "end" ? { ...f, typical: span.typicalEnd } : f;
  });
}

/** The outline with every number that was typed in its place. */
function measuredOutline(reader: Reader, outline: Outline, spans: readonly Span[], fields: readonly Field[]): Outline {
  const { rig } = outline, words = catalogueOf().guestRig.faults;
  const value = (input: string, otherwise: number) => { const f = fields.find((x) => x.input === input); return f ? reader.number(f) : otherwise; };
  const parts = outline.parts.map((entry, i) => {
    const { part } = entry, name = `part-${part.id}`;
    const from = value(`${name}.from`, part.from), to = value(`${name}.to`, part.to);
    if (from > to) reader.fail(typed(reader.params[`${name}.from`]) === undefined ? `${name}.to` : `${name}.from`, words.upsideDown);
    const { start, end } = spans[i]!;
    return { ...entry, part: { ...part, span: start < end ? fromWall(rig, part.side, [start, end]) : part.span, depth: value(`${name}.depth`, part.depth), from, to } };
  });
  const inlets = outline.inlets.map((entry) => {
    const { key, inlet } = entry;
    if (!inlet) return entry;
    const end = isEnd(inlet.side), half = rig.body.width / 2;
    const at = value(`inlet-${key}.at`, end ? half - (inlet.v ?? 0) : (inlet.u ?? 0)), height = value(`inlet-${key}.height`, inlet.height);
    return { ...entry, inlet: { ...inlet, height, ...(end ? { v: half - at } : { u: at }) } };
  });
  const { gear, tow } = rig;
  const measured: Rig = {
    ...rig,
    parts: parts.flatMap(({ part, index }) => (index === null ? [] : [part])),
    inlets: inlets.flatMap(({ inlet }) => (inlet ? [inlet] : [])),
    gear: {
      ...gear,
      powerCord: value("powerCord", gear.powerCord), waterHose: value("waterHose", gear.waterHose), sewerHose: value("sewerHose", gear.sewerHose),
      liftSide: value("liftSide", gear.liftSide), liftAlong: value("liftAlong", gear.liftAlong),
    },
    tow: tow && { ...tow, length: value("towLength", tow.length) },
    ...steered(reader, rig, fields),
  };
  return { rig: measured, parts, inlets };
}

/** What was typed of what steers; nothing where nobody knows anything of it. */
function steered(reader: Reader, { drive }: Rig, fields: readonly Field[]): Pick<Rig, "drive"> {
  const told = steerInputs.flatMap((input) => {
    const asked = fields.find((f) => f.input === input), value = asked ? reader.typed(asked) : null;
    return value === null ? [] : [[driveNames[input], value] as const];
  });
  return told.length === 0 ? { drive } : { drive: { ...NOTHING_KNOWN, ...drive, ...Object.fromEntries(told) } };
}

const NOTHING_KNOWN: NonNullable<Rig["drive"]> = {
  wheelbase: undefined, frontOverhang: undefined, rearOverhang: undefined, track: undefined, turningCircle: undefined, hitchBehindAxle: undefined, hitchToAxle: undefined, maxHitchAngle: undefined, driver: "left",
};

function readCounts(reader: Reader, base: Rig): Partial<Record<CountField, number>> {
  return Object.fromEntries(countFields.flatMap((name) => {
    const text = typed(reader.params[name]) ?? String(base.party[name]);
    reader.texts[name] = text;
    const read = readCount(text);
    if (!read.ok) reader.fail(name, read.fault);
    return read.ok ? [[name, read.value]] : [];
  }));
}

/** What the schema refuses and no field has told before is told beside the field whose number it is, else beside the length. */
function fieldOfIssue(path: readonly PropertyKey[], fields: readonly Field[]): string {
  const whole = ["rig", ...path].map(String).join(".");
  return fields.find((f) => f.path !== null && (f.path === whole || f.path.startsWith(`${whole}.`) || whole.startsWith(`${f.path}.`)))?.input ?? "length";
}
