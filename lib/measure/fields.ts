import { z } from "zod";

/** Building blocks shared by the schemas of site and rig. Lengths in millimetres. */

/** No campsite or rig reaches further than this from its origin: 500 m. Larger numbers are another unit or a slip. */
const FAR = 500_000;

const finite = (what: string) => z.number({ error: (issue) => `${what}, got ${describe(issue.input)}` });

/** A coordinate: any finite number of millimetres, within 500 m of the origin. */
export const coordinate = finite("must be a number of millimetres").min(-FAR, { error: tooFar }).max(FAR, { error: tooFar });
/** A length of zero or more, millimetres. */
export const length = finite("must be a length in millimetres").min(0, "must not be negative (millimetres)").max(FAR, "is more than 500 m: are these millimetres?");
/** A length above zero, millimetres. */
export const extent = finite("must be a length in millimetres").gt(0, "must be more than 0 (millimetres)").max(FAR, "is more than 500 m: are these millimetres?");

/**
 * A length that nothing of its sort exceeds or falls short of by a wide margin, millimetres: outside of it, the number
 * is another unit or a slip, and the complaint asks which.
 */
export function sized(least: number, most: number) {
  const ask = ({ input }: { readonly input?: unknown }) => wrongUnit(Number(input), least, most);
  return finite("must be a length in millimetres").min(least, { error: ask }).max(most, { error: ask });
}

/** How a length that cannot be meant in millimetres may have been meant, as a complaint with the value. */
export function wrongUnit(mm: number, least: number, most: number): string {
  const told = `is ${readable(mm)} mm`;
  if (mm <= 0) return `${told}: must be more than 0 (millimetres)`;
  const small = mm < least;
  const likely = UNITS.filter(([, size]) => within(small ? mm * size : mm / size, least, most));
  const range = `between ${readable(least)} and ${readable(most)} mm`;
  if (likely.length === 0) return `${told}: must be ${range}`;
  if (small) return `${told}: were ${likely.map(([name]) => name).join(" or ")} meant? Lengths are in millimetres, ${range}`;
  // A whole number in some unit is what somebody typed.
  const [name, size] = likely.find(([, size]) => Math.abs(mm / size - Math.round(mm / size)) < WHOLE) ?? likely[0]!;
  return `${told}, that is ${readable(mm / size)} ${name}: were millimetres meant? It must be ${range}`;
}

/** Units people measure campsites in, in millimetres, the likeliest first. */
const UNITS: readonly (readonly [name: string, size: number])[] = [["metres", 1000], ["feet", 304.8], ["inches", 25.4], ["centimetres", 10]];

/** Rounding leaves a whole number this close to one. */
const WHOLE = 1e-6;

function within(value: number, least: number, most: number): boolean {
  return value >= least && value <= most;
}

function readable(value: number): string {
  return String(Number(value.toPrecision(6)));
}

/** A whole number. Not by `int()`: that ends the check of the whole record, and its other faults would go untold. */
export const count = finite("must be a whole number").multipleOf(1, "must be a whole number").min(0, "must not be negative").max(1000).meta({ type: "integer" });
/** A slope in per cent: 100 x rise / run. */
export const percent = finite("must be a slope in per cent").min(-100).max(100);
export const point = z.tuple([coordinate, coordinate], "must be a point [x, y] in millimetres");
export const identifier = z.string("must be a text").min(1, "must not be empty").max(80);
export const freeWord = z.string("must be a word").min(1, "must not be empty").max(80);

/** Values that a file may leave out or write as null; both read as undefined. */
export function optional<T extends z.ZodType>(schema: T) {
  return schema.nullish().transform((value) => value ?? undefined);
}

/** A list that may be left out or null, which both read as empty. */
export function list<T extends z.ZodType>(item: T, most: number, what = "must be a list") {
  return z.array(item, what).max(most, `must not hold more than ${most}`).nullish().transform((value) => value ?? []);
}

/**
 * A check across fields that runs even where some field is already at fault, so that one answer holds every fault.
 * The value may then be incomplete: the check sees it as `Partial` and must not rely on any field.
 */
export function across<T extends object>(check: (value: Partial<T>, fault: (path: PropertyKey[], message: string) => void) => void): z.core.$ZodCheck<T> {
  const made = z.check<T>((ctx) => {
    const value: unknown = ctx.value;
    if (typeof value !== "object" || value === null) return;
    check(value, (path, message) => ctx.issues.push({ code: "custom", path, message, input: ctx.value }));
  });
  made._zod.def.when = () => true;
  return made;
}

function tooFar({ input }: { readonly input?: unknown }): string {
  return `is ${readable(Number(input))} mm, more than 500 m from the origin: are these millimetres?`;
}

function describe(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "string") return JSON.stringify(value.slice(0, 40));
  return Array.isArray(value) ? "a list" : value === null ? "null" : typeof value === "object" ? "an object" : String(value);
}

/** The places in a list at which an id stands that stood before it; nothing where it is no list. What has no id repeats none. */
export function repeatedIds(items: unknown): { readonly at: number; readonly id: string }[] {
  if (!Array.isArray(items)) return [];
  const seen = new Set<string>();
  return items.flatMap((item: { readonly id?: unknown } | null | undefined, at) => {
    const id = item?.id;
    if (typeof id !== "string") return [];
    if (seen.has(id)) return [{ at, id }];
    seen.add(id);
    return [];
  });
}
