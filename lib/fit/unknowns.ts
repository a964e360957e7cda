/** A number that is not known for sure: its field, the least and most it may be, and what it most likely is. */
export interface Unknown {
  /** Such as `rig.inlets.2.u` or `site.obstacles.0.crownFrom`. */
  readonly field: string;
  readonly min: number;
  readonly max: number;
  readonly typical: number;
}

export interface Taken {
  /** The record with a likely number in place of each unknown one, ready for its schema. */
  readonly value: unknown;
  readonly unknowns: readonly Unknown[];
  readonly faults: readonly { readonly path: string; readonly message: string }[];
}

/** Numbers whose absence means "not measured", with the range that generic rigs and sites keep to (common practice; mm, per cent, VA). */
const RANGES: readonly (readonly [pattern: RegExp, min: number, max: number, typical: number])[] = [
  [/^rig\.body\.length$/, 3000, 13_700, 8000],
  [/^rig\.body\.width$/, 1800, 2600, 2500],
  [/^rig\.body\.height$/, 2000, 4115, 3500],
  [/^rig\.body\.floor$/, 150, 600, 350],
  [/^rig\.hitch\.length$/, 0, 2000, 1100],
  [/^rig\.parts\.\d+\.depth$/, 150, 2600, 900],
  [/^rig\.parts\.\d+\.(from|to)$/, 0, 3500, 1500],
  [/^rig\.inlets\.\d+\.u$/, 0, 13_000, 2500],
  [/^rig\.inlets\.\d+\.v$/, -1250, 1250, 0],
  [/^rig\.inlets\.\d+\.height$/, 200, 1500, 600],
  [/^rig\.gear\.powerCord$/, 0, 15_000, 7600],
  [/^rig\.gear\.waterHose$/, 0, 30_000, 7600],
  [/^rig\.gear\.sewerHose$/, 0, 6100, 3000],
  [/^rig\.gear\.liftSide$/, 0, 200, 0],
  [/^rig\.gear\.liftAlong$/, 0, 500, 0],
  [/^rig\.electric\.loads\.\d+\.va$/, 100, 4000, 1500],
  [/^rig\.tow\.length$/, 3500, 7000, 5800],
  [/^rig\.tow\.width$/, 1700, 2200, 2030],
  [/^rig\.tow\.height$/, 1400, 2200, 1900],
  [/^site\.obstacles\.\d+\.crownFrom$/, 0, 12_000, 4000],
  [/^site\.obstacles\.\d+\.crownTo$/, 3000, 30_000, 12_000],
  [/^site\.obstacles\.\d+\.crownRadius$/, 300, 8000, 2500],
  [/^site\.obstacles\.\d+\.trunkRadius$/, 50, 800, 250],
  [/^site\.obstacles\.\d+\.(from|to|radius)$/, 0, 12_000, 1000],
  [/^site\.hookups\.\d+\.height$/, 0, 1500, 600],
  [/^site\.ground\.(along|across)$/, -8, 8, 0],
];

/**
 * Takes the unknown numbers out of a record: `null` where a number is required, a range `{ min, max }`, or a typical
 * value with a spread `{ typical, spread }`.
 */
export function takeUnknowns(value: unknown, root: "rig" | "site"): Taken {
  const unknowns: Unknown[] = [], faults: { path: string; message: string }[] = [];
  const walk = (at: unknown, path: string): unknown => {
    if (at === null) return fromRange(path, unknowns);
    if (Array.isArray(at)) return at.map((item, i) => walk(item, `${path}.${i}`));
    if (typeof at !== "object") return at;
    const given = at as Record<string, unknown>;
    if (isUncertain(given)) return fromUncertain(given, path, unknowns, faults);
    return Object.fromEntries(Object.entries(given).map(([key, item]) => [key, walk(item, `${path}.${key}`)]));
  };
  return { value: walk(value, root), unknowns, faults };
}

/** A copy of the record with other numbers in some fields. */
export function withNumbers<T>(record: T, numbers: readonly (readonly [field: string, value: number])[]): T {
  const copy = structuredClone(record);
  for (const [field, value] of numbers) {
    const steps = field.split(".").slice(1);
    const last = steps.pop()!;
    let at = copy as Record<string, unknown>;
    for (const step of steps) at = at[step] as Record<string, unknown>;
    at[last] = value;
  }
  return copy;
}

function fromRange(path: string, unknowns: Unknown[]): number | null {
  const range = RANGES.find(([pattern]) => pattern.test(path));
  if (!range) return null; // a field that may be null: its schema knows
  const [, min, max, typical] = range;
  unknowns.push({ field: path, min, max, typical });
  return typical;
}

const FORMS: readonly (readonly string[])[] = [["min", "max"], ["typical", "spread"]];

function isUncertain(given: Record<string, unknown>): boolean {
  const keys = Object.keys(given).sort().join();
  return FORMS.some((form) => [...form].sort().join() === keys);
}

function fromUncertain(given: Record<string, unknown>, path: string, unknowns: Unknown[], faults: Taken["faults"][number][]): unknown {
  const { min, max, typical, spread } = given;
  const ranged = typeof typical === "number" && typeof spread === "number" ? [typical - spread, typical + spread] : [min, max];
  const [low, high] = ranged;
  if (typeof low !== "number" || typeof high !== "number" || !Number.isFinite(low) || !Number.isFinite(high) || low > high) {
    faults.push({ path, message: "must be a range { min, max } or { typical, spread } of finite numbers, the lesser first" });
    return given;
  }
  const likely = typeof typical === "number" ? typical : (low + high) / 2;
  if (low < high) unknowns.push({ field: path, min: low, max: high, typical: likely });
  return likely;
}
