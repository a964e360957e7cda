import type { Verdict } from "@/lib/fit/types";
import type { Hookup, Obstacle, Site } from "@/lib/park";
import type { Numbers } from "../format";
import { cap, count, list } from "./text";

/** Where something lies: into the site from the pad's entry edge, and left of its centerline; mm. */
export interface Spot {
  readonly into: number;
  readonly left: number;
}

/** How a line crosses the pad's centerline: so far in, at so many degrees. */
export interface Crossing {
  readonly into: number;
  readonly degrees: number;
}

/** Closer to a line than a tape is read outdoors counts as on it. */
const ON_LINE = 10;

/** One site on record, for those who keep it. */
export const staffSite = {
  title: (label: string) => `Site ${label}`,
  back: "Back to the table",
  neighbours: "Other sites of the table",
  previous: (label: string) => `Previous: ${label}`,
  next: (label: string) => `Next: ${label}`,
  position: (index: number, all: number) => `${index} of ${all} in the table`,
  loop: (id: string, name: string | undefined) => `Loop ${id}${name ? `, ${name}` : ""}`,

  measurements: "What is on record",
  frame: "Distances along count from the pad’s entry edge, left and right from its centerline, as one sees them from the road.",
  pad: "Pad",
  padSize: (surface: string | undefined, long: number, wide: number, n: Numbers) => `${surface ? `${cap(surface.replaceAll("-", " "))}, ` : ""}${n.measured(long)} long and ${n.measured(wide)} wide at its longest and widest.`,
  corners: (n: number) => `${count(n, "corner", "corners")}, in order around`,
  ground: "Ground",
  groundLines: (along: string, across: string) => [`Along: ${along}.`, `Across: ${across}.`],
  misfit: (spots: number, worst: number, n: Numbers) => `From ${count(spots, "spot height", "spot heights")}; the one that fits the plane worst is off by ${n.lacking(worst)}.`,
  slopesOnly: "Recorded as two slopes. No spot heights, so nothing tells whether the pad is crowned or dished.",
  spotHeights: "Spot heights",
  spotHeight: (z: number, n: Numbers) => (Math.abs(z) < 1 ? "level with the entry edge" : `${n.measured(Math.abs(z))} ${z > 0 ? "above" : "below"} the entry edge`),
  road: "Road edge",
  roadLine: ({ into, degrees }: Crossing, n: Numbers) => `Crosses the centerline ${fromEntry(into, n)}, at ${degrees}° to it.`,
  roadAlong: "Does not cross the centerline: it runs along it.",
  roadAssumed: "Not on record. Taken as the pad’s entry edge.",
  exit: "Road edge at the far end",
  noExit: "None on record: nothing limits the far end.",
  lot: "Lot",
  lotSize: ({ long, wide, fromInto, left, right }: { long: number; wide: number; fromInto: number; left: number; right: number }, n: Numbers) =>
    `${n.measured(long)} deep and ${n.measured(wide)} across. Begins ${fromEntry(fromInto, n)}; reaches ${n.measured(left)} to the left and ${n.measured(right)} to the right.`,
  noLot: "Not on record: nothing is asked of what lies beside the pad.",
  bearing: "Lies",
  bearingLine: (bearing: number) => `Going in, one heads ${Math.round(bearing)}°, clockwise from north.`,
  survey: "Measured on",

  obstacles: "Obstacles",
  noObstacles: "None on record.",
  hookups: "Hookups",
  noHookups: "None: a site without power, water or sewer.",
  parking: "Parking stalls",
  rules: "Rules",
  noRules: "None on record: everyone is welcome.",

  name: (full: string) => cap(full.replace(/^the /, "")),
  spot: ({ into, left }: Spot, n: Numbers) => `${cap(fromEntry(into, n))}, ${aside(left, n)}.`,
  obstacle: (o: Obstacle, n: Numbers) => [
    o.kind === "tree"
      ? `Trunk ${n.measured(2 * (o.trunkRadius ?? 0))} through. Limbs from ${n.measured(o.crownFrom ?? 0)} to ${n.measured(o.crownTo ?? 0)} up, reaching ${n.measured(o.crownRadius ?? 0)} out.`
      : `${o.radius === undefined ? "" : `${n.measured(2 * o.radius)} across, `}${heights(o.from ?? 0, o.to ?? 0, n)}.`.replace(/^./, (c) => c.toUpperCase()),
    ...(o.removable ? ["May be taken away."] : []),
  ],
  hookup: (h: Hookup, n: Numbers) => [
    `${cap(offers(h, n))}${n.measured(h.height)} above the ground.`,
    ...(h.groundZ === undefined ? [] : [`The ground there lies ${Math.abs(h.groundZ) < 1 ? "level with the entry edge" : `${n.measured(Math.abs(h.groundZ))} ${h.groundZ < 0 ? "below" : "above"} the entry edge`}.`]),
    h.postRadius === undefined ? "No post." : `Post ${n.measured(2 * h.postRadius)} through, ${n.measured(h.postHeight ?? h.height)} high.`,
    ...(h.kind === "rinse-water" ? ["For rinsing tanks. Never drunk."] : []),
  ],
  stall: ({ long, wide }: { long: number; wide: number }, n: Numbers) => `${n.measured(long)} long, ${n.measured(wide)} wide.`,
  stallFrom: (fromInto: number, sideways: number, n: Numbers) => `Begins ${fromEntry(fromInto, n)}; its middle is ${aside(sideways, n)}.`,
  ruleLines: (rules: NonNullable<Site["rules"]>, n: Numbers) => [
    ...(rules.maxLength === undefined ? [] : [`Posted limit ${n.measured(rules.maxLength)}, body and hitch together.`]),
    ...(rules.maxGuests === undefined ? [] : [`Up to ${count(rules.maxGuests, "guest", "guests")}.`]),
    ...(rules.maxVehicles === undefined ? [] : [`Up to ${count(rules.maxVehicles, "vehicle", "vehicles")}.`]),
    ...(rules.pets === undefined ? [] : [rules.pets ? "Pets allowed." : "No pets."]),
    ...(rules.tents === undefined ? [] : [rules.tents === 0 ? "No tents." : `Up to ${count(rules.tents, "tent", "tents")}.`]),
    ...(rules.accessible ? ["An accessible site."] : []),
  ],

  fits: "Which rigs fit",
  fitsLead: "The usual rig of each kind and length, hitch included, with typical numbers. Follow one to its plan.",
  fitsForAccessible: "Each is asked about as for a guest who needs an accessible site, since this one is kept for them.",
  fitsKind: "Kind",
  fitsLengths: "Overall length, shortest first",
  fitsRegion: "Which kinds and lengths of rig fit",
  fitsLink: (kind: string, length: string, verdict: string) => `${kind}, ${length}: ${verdict}`,
  fitsWaiting: "Working out which rigs fit. It takes longer than usual.",
  fitsStopped: "Which rigs fit could not be worked out in the time allowed. Load the page again in a moment.",
  verdict: { fits: "fits", gear: "with gear", ask: "one number missing", unsettled: "not settled", no: "no" } satisfies Record<Verdict, string>,
  verdictKey: { fits: "fits with its own gear", gear: "fits if more gear is brought", no: "does not fit" },
};

function fromEntry(into: number, n: Numbers): string {
  if (Math.abs(into) < ON_LINE) return "at the entry edge";
  return into > 0 ? `${n.measured(into)} past the entry edge` : `${n.measured(-into)} short of the entry edge`;
}

function aside(left: number, n: Numbers): string {
  return Math.abs(left) < ON_LINE ? "on the centerline" : `${n.measured(Math.abs(left))} ${left > 0 ? "left" : "right"} of the centerline`;
}

function heights(from: number, to: number, n: Numbers): string {
  if (from > 0) return `from ${n.measured(from)} to ${n.measured(to)} up`;
  return to > 0 ? `${n.measured(to)} high` : "flush with the ground";
}

function offers({ kind, receptacles = [], volts = 120, pressure }: Hookup, n: Numbers): string {
  if (kind === "power") return receptacles.length > 0 ? `${list(receptacles.map((a) => `${a} A`))} at ${volts} V, ` : "no receptacle works, ";
  return pressure === undefined ? "" : `${n.pressure(pressure)}, `;
}
