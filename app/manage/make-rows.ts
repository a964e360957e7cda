import { siteSchema, groundPlane, type Site } from "@/lib/park";
import { boundsOf } from "@/lib/plane";
import type { Units } from "@/lib/measure";
import { numbersFor, unbroken, type Numbers } from "@/lib/wording";
import { staffTable as words, type SiteColumn } from "@/lib/wording/en/staff-table";
import { dayNumber, readDate, type IsoDate } from "@/lib/stays";
import { ageOn, isOlderThan, partsOf } from "./age";
import type { SiteRow } from "./site-rows";

/** A site with the day it was measured on, which its record may carry beside what a site needs. */
export interface SurveyedSite {
  readonly site: Site;
  /** Null where the record says nothing that can be read as a date. */
  readonly measuredOn: IsoDate | null;
}

/** A site measured longer ago than this should be measured again: limbs grow, posts get moved, gravel wanders. Months. */
const DUE_AFTER = 24;

/** Reads a record as the park's file has it. */
export function surveyedSite(record: unknown): SurveyedSite {
  const noted = typeof record === "object" && record !== null && "measuredOn" in record ? record.measuredOn : null;
  return { site: siteSchema.parse(record), measuredOn: typeof noted === "string" ? readDate(noted) : null };
}

/** What the table shows of each site, in the reader's units. `loopNames` by the loop's id. */
export function makeRows(surveyed: readonly SurveyedSite[], loopNames: ReadonlyMap<string, string>, units: Units, today: IsoDate): SiteRow[] {
  const n = numbersFor(units);
  return surveyed.map(({ site, measuredOn }) => {
    const label = site.label ?? site.id;
    const cells = { ...cellsOfPad(site, n), ...cellsOfHookups(site, n), ...cellsOfRules(site, n), ...cellOfSurvey(measuredOn, today) };
    const all: Cells = { ...cells, site: [label, label], loop: [site.loop ?? words.none, site.loop] };
    return {
      id: site.id,
      label,
      words: [label, site.id, site.loop ?? "", loopNames.get(site.loop ?? "") ?? ""].join(" ").toLowerCase(),
      loop: site.loop ?? null,
      entry: site.entry,
      power50: receptaclesOf(site).includes(50),
      sewer: site.hookups.some((h) => h.kind === "sewer"),
      accessible: site.rules?.accessible === true,
      pets: site.rules?.pets !== false,
      due: isDue(measuredOn, today),
      texts: mapCells(all, ([text]) => unbroken(text)),
      values: mapCells(all, ([, value]) => value),
    };
  });
}

/** Whether a site should be measured again, or was never measured. */
export function isDue(measuredOn: IsoDate | null, today: IsoDate): boolean {
  return measuredOn === null || isOlderThan(measuredOn, DUE_AFTER, today);
}

/** Text to read and value to sort by. */
type Cell = readonly [text: string, value: number | string | undefined];
type Cells = Readonly<Record<SiteColumn, Cell>>;

function mapCells<T>(cells: Cells, pick: (cell: Cell) => T): Record<SiteColumn, T> {
  return Object.fromEntries(Object.entries(cells).map(([id, cell]) => [id, pick(cell)])) as Record<SiteColumn, T>;
}

function cellsOfPad(site: Site, n: Numbers) {
  const { minX, maxX, minY, maxY } = boundsOf(site.pad.outline);
  const plane = groundPlane(site.ground);
  const along = 100 * plane.alongGradient, across = 100 * plane.acrossGradient;
  const either = site.entry === "pull-through" && site.enterFrom === "either";
  const trees = site.obstacles.filter((o) => o.kind === "tree").length;
  return {
    entry: [either ? words.either : words.entries[site.entry], site.entry === "back-in" ? 0 : either ? 2 : 1],
    "pad-length": [n.measured(maxX - minX), maxX - minX],
    "pad-width": [n.measured(maxY - minY), maxY - minY],
    "slope-along": [words.slopeAlong(along), Math.abs(along)],
    "slope-across": [words.slopeAcross(across), Math.abs(across)],
    surface: [site.pad.surface?.replaceAll("-", " ") ?? words.none, site.pad.surface],
    obstacles: [words.obstacles(site.obstacles.length, trees), site.obstacles.length],
  } satisfies Partial<Record<SiteColumn, Cell>>;
}

/** The ratings a site offers, each once, largest first. */
export function receptaclesOf(site: Site): number[] {
  return [...new Set(site.hookups.flatMap((h) => h.receptacles ?? []))].sort((a, b) => b - a);
}

function cellsOfHookups(site: Site, n: Numbers) {
  const amperes = receptaclesOf(site);
  const hasPost = site.hookups.some((h) => h.kind === "power");
  const drain = site.hookups.some((h) => h.kind === "sewer");
  return {
    // By the largest, then by how many: 50 and 30 come after 50 alone.
    power: [amperes.length > 0 ? words.receptacles(amperes) : hasPost ? words.deadPower : words.none, (amperes[0] ?? 0) * 10 + amperes.length + (hasPost ? 0.5 : 0)],
    water: waterCell(site, n),
    sewer: [drain ? words.yes : words.none, Number(drain)],
  } satisfies Partial<Record<SiteColumn, Cell>>;
}

function waterCell(site: Site, n: Numbers): Cell {
  const taps = site.hookups.filter((h) => h.kind === "water");
  if (taps.length === 0) return site.hookups.some((h) => h.kind === "rinse-water") ? [words.rinseOnly, 1] : [words.none, 0];
  const gauged = taps.flatMap(({ pressure }) => pressure ?? []);
  return gauged.length === 0 ? [words.pressureUnknown, 2] : [n.pressure(Math.max(...gauged)), 3 + Math.max(...gauged)];
}

/** A rule that the record leaves out is met by everyone, and says so. */
function cellsOfRules(site: Site, n: Numbers) {
  const rules: Partial<NonNullable<Site["rules"]>> = site.rules ?? {};
  const most = (value: number | undefined): Cell => (value === undefined ? [words.noRule, undefined] : [value === 0 ? words.none : String(value), value]);
  return {
    // As the post says it: 9,140 mm is a limit of 30 ft, written to the nearest.
    "max-length": rules.maxLength === undefined ? [words.notPosted, undefined] : [n.measured(rules.maxLength), rules.maxLength],
    guests: most(rules.maxGuests),
    vehicles: most(rules.maxVehicles),
    pets: rules.pets === undefined ? [words.noRule, 2] : [words.petsAllowed(rules.pets), Number(rules.pets)],
    tents: most(rules.tents),
    accessible: [words.isAccessible(rules.accessible === true), Number(rules.accessible === true)],
  } satisfies Partial<Record<SiteColumn, Cell>>;
}

/** A site never measured counts as measured before all others: those that most need it stand together. */
function cellOfSurvey(measuredOn: IsoDate | null, today: IsoDate): { measured: Cell } {
  if (!measuredOn) return { measured: [words.neverMeasured, Number.MIN_SAFE_INTEGER] };
  const age = ageOn(measuredOn, today);
  return { measured: [`${words.date(partsOf(measuredOn))}, ${words.ago(age.months, age.days)}`, dayNumber(measuredOn)] };
}
