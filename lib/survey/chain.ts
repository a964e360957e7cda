import type { Point } from "@/lib/plane";
import type { KnownPoint, Measurement, Site } from "@/lib/park";
import { latestOf, measurementOf } from "./latest";
import { placeByOffsets, times } from "./offsets";
import { apartUnlessOne, EXACT, evenly } from "./spread";
import { placeByTapes } from "./tapes";
import { usualError } from "./tolerances";
import { note, refused, type Known, type Placement, type Rows, type Surveyed } from "./types";

/** The places of a site's record, with how well each is known. */
export interface SitePlaces {
  /** By name: `origin`, `pad.0`, `obstacles.<id>.at`, `hookups.<id>.at`. */
  readonly known: ReadonlyMap<string, Known>;
  /** What the readings of a position come to, worked out anew, by the path of the field: also where that cannot be. */
  readonly worked: ReadonlyMap<string, Surveyed<Placement>>;
}

const made = new WeakMap<Site, SitePlaces>();

/**
 * Every named place of the record, at the place recorded, with the error that its readings and those of the points it was measured
 * from give it, however long the chain; without readings, its measurement's own; without a measurement, none. The corners
 * of a pad are known to its measurement's error, each for itself. Worked out once a record.
 */
export function placesOf(site: Site): SitePlaces {
  let places = made.get(site);
  if (!places) made.set(site, (places = workOut(site)));
  return places;
}

/** A position field with the readings that give it. */
interface Pending {
  readonly path: string;
  readonly at: Point;
  readonly measurement: Measurement;
}

function workOut(site: Site): SitePlaces {
  const known = new Map<string, Known>([["origin", { name: "origin", at: [0, 0], spread: EXACT }]]);
  const padError = measurementOf(site, "pad")?.error ?? 0;
  site.pad.outline.forEach((at, k) => known.set(`pad.${k}`, { name: `pad.${k}`, at, spread: evenly(padError) }));
  const pending: Pending[] = [];
  for (const [path, at] of placesRecorded(site)) {
    const measurement = latestOf(site).get(path);
    if (measurement?.readings?.tapes || measurement?.readings?.offset) pending.push({ path, at, measurement });
    else known.set(path, { name: path, at, spread: evenly(measurement?.error ?? 0) });
  }
  return { known, worked: workThrough(pending, known) };
}

function placesRecorded(site: Site): (readonly [path: string, at: Point])[] {
  return [
    ...site.obstacles.flatMap(({ id, at }) => (at ? [[`obstacles.${id}.at`, at] as const] : [])),
    ...site.hookups.map(({ id, at }) => [`hookups.${id}.at`, at] as const),
  ];
}

/** More points than this that are both measured and measured from are no survey of one site: the rest count with their measurement's own error. */
const MOST_LINKS = 200;

/** Each as soon as what it was measured from is known. What waits for itself in a circle falls back on its measurement's own error. */
function workThrough(pending: readonly Pending[], known: Map<string, Known>): ReadonlyMap<string, Surveyed<Placement>> {
  const worked = new Map<string, Surveyed<Placement>>(), common = new Common();
  const links = linksAmong(pending);
  const settle = ({ path, at, measurement }: Pending, outcome: Surveyed<Placement>) => {
    worked.set(path, outcome);
    known.set(path, { name: path, at, spread: outcome.ok ? outcome.value.spread : evenly(measurement.error) });
    if (outcome.ok && links.has(path)) common.add(known.get(path)!, outcome.value);
  };
  const [within, beyond] = [pending.filter(({ path }) => links.get(path) !== "beyond"), pending.filter(({ path }) => links.get(path) === "beyond")];
  for (const one of beyond) settle(one, refused(note("chain:long", namesIn(one.measurement))));
  let waiting = within;
  while (waiting.length > 0) {
    const paths = new Set(waiting.map(({ path }) => path));
    const ready = waiting.filter(({ measurement }) => !namesIn(measurement).some((name) => paths.has(name)));
    if (ready.length === 0) {
      for (const one of waiting) settle(one, refused(note("chain:circle", namesIn(one.measurement))));
      break;
    }
    for (const one of ready) settle(one, workOne(one.measurement, known, common));
    waiting = waiting.filter((one) => !ready.includes(one));
  }
  return worked;
}

/** The pending points that others are measured from. */
function linksAmong(pending: readonly Pending[]): ReadonlyMap<string, "within" | "beyond"> {
  const wanted = new Set(pending.flatMap(({ measurement }) => namesIn(measurement)));
  return new Map(pending.filter(({ path }) => wanted.has(path)).map(({ path }, i) => [path, i < MOST_LINKS ? "within" : "beyond"]));
}

function namesIn({ readings }: Measurement): string[] {
  const points: readonly KnownPoint[] = [...(readings?.tapes ?? []).map(({ from }) => from), ...(readings?.offset?.base ?? [])];
  return points.filter((point) => typeof point === "string");
}

function workOne({ how, readings }: Measurement, known: ReadonlyMap<string, Known>, common: Common): Surveyed<Placement> {
  const missing = namesIn({ readings } as Measurement).filter((name) => !known.has(name));
  if (missing.length > 0) return refused(note("chain:unknown", missing));
  const find = (point: KnownPoint) => (typeof point === "string" ? known.get(point)! : { name: `at ${point.join(",")}`, at: point, spread: EXACT });
  if (readings?.tapes) {
    const tapes = readings.tapes.map(({ from, distance, add = 0, error }, i) => ({ name: String(i), from: find(from), distance: distance + add, error: error ?? usualError(how, distance) }));
    return placeByTapes(tapes, { side: readings.side, shared: common.shared });
  }
  const { along, across, base } = readings!.offset!;
  const from = base ?? ["origin", [1000, 0] as const];
  return placeByOffsets({ along, across, alongError: usualError("tape", along), acrossError: usualError("offsets", across) }, [find(from[0]), find(from[1])], common.shared);
}

/** What the errors of places have in common. Kept for those that others are measured from: of the rest nobody asks. */
class Common {
  private readonly rows = new Map<string, Map<string, Rows>>();
  private readonly met = new Map<string, Known>();

  readonly shared = (a: Known, b: Known): Rows => {
    if (a.name === b.name) return apartUnlessOne(a, b);
    return this.rows.get(a.name)?.get(b.name) ?? transposed(this.rows.get(b.name)?.get(a.name)) ?? apartUnlessOne(a, b);
  };

  /** A new place has in common with every other what the points that it follows have. */
  add(place: Known, { follows }: Placement): void {
    for (const { from } of follows) this.met.set(from.name, from);
    const row = new Map<string, Rows>();
    for (const other of this.met.values()) {
      row.set(other.name, follows.reduce<Rows>((sum, { from, rows }) => plus(sum, times(rows, this.shared(from, other))), [[0, 0], [0, 0]]));
    }
    this.rows.set(place.name, row);
    this.met.set(place.name, place);
  }
}

function plus([[a, b], [c, d]]: Rows, [[e, f], [g, h]]: Rows): Rows {
  return [[a + e, b + f], [c + g, d + h]];
}

function transposed(rows: Rows | undefined): Rows | undefined {
  return rows && [[rows[0][0], rows[1][0]], [rows[0][1], rows[1][1]]];
}
