import { count } from "./text";

/** The columns of the table of sites, in their order. */
export const siteColumns = [
  "site", "loop", "entry", "pad-length", "pad-width", "slope-along", "slope-across", "surface", "power", "water", "sewer",
  "max-length", "guests", "vehicles", "pets", "tents", "accessible", "obstacles", "measured",
] as const;
export type SiteColumn = (typeof siteColumns)[number];

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

const columns: Readonly<Record<SiteColumn, string>> = {
  site: "Site",
  loop: "Loop",
  entry: "Entry",
  "pad-length": "Pad length",
  "pad-width": "Pad width",
  "slope-along": "Slope along",
  "slope-across": "Slope across",
  surface: "Surface",
  power: "Power",
  water: "Water",
  sewer: "Sewer",
  "max-length": "Posted limit",
  guests: "Guests",
  vehicles: "Vehicles",
  pets: "Pets",
  tents: "Tents",
  accessible: "Accessible",
  obstacles: "Obstacles",
  measured: "Measured on",
};

/** What the two ends of each order are called: from least to most, and back. */
const orders: Readonly<Record<SiteColumn, readonly [string, string]>> = {
  site: ["A to Z", "Z to A"],
  loop: ["A to Z", "Z to A"],
  entry: ["back-ins first", "pull-throughs first"],
  "pad-length": ["shortest first", "longest first"],
  "pad-width": ["narrowest first", "widest first"],
  "slope-along": ["flattest first", "steepest first"],
  "slope-across": ["flattest first", "steepest first"],
  surface: ["A to Z", "Z to A"],
  power: ["least first", "most first"],
  water: ["none first", "highest pressure first"],
  sewer: ["none first", "with a drain first"],
  "max-length": ["lowest first", "highest first"],
  guests: ["fewest first", "most first"],
  vehicles: ["fewest first", "most first"],
  pets: ["not allowed first", "allowed first"],
  tents: ["fewest first", "most first"],
  accessible: ["others first", "accessible first"],
  obstacles: ["fewest first", "most first"],
  measured: ["oldest first", "newest first"],
};

/** The inventory: one row a site. Goes to the browser, so it holds texts and nothing that imports. */
export const staffTable = {
  title: "Sites",
  lead: "Every site as it was measured. Sort by any column, filter, choose columns; the address keeps what you see.",
  printed: (park: string, date: string) => `${park}, sites as measured. Printed ${date}.`,
  printedFilters: (filters: readonly string[]) => `Only: ${filters.join("; ")}.`,
  quoted: (text: string) => `“${text}”`,
  inLoop: (loop: string) => `loop ${loop}`,
  region: "Table of sites",
  caption: "Sites of the park, one a row",
  columns,
  order: (column: SiteColumn, descending: boolean) => orders[column][descending ? 1 : 0],
  sortBy: (column: SiteColumn, descending: boolean) => `${columns[column]}, sort ${orders[column][descending ? 1 : 0]}`,

  filters: "Filter",
  find: "Site, loop or name",
  loop: "Loop",
  entry: "Entry",
  any: "Any",
  anyLoop: "All loops",
  loopName: (id: string, name: string) => `${id}, ${name}`,
  power50: "Has 50 A",
  sewer: "Has a sewer drain",
  accessible: "Accessible",
  pets: "Pets allowed",
  apply: "Apply",
  applying: "Applying…",
  clear: "Clear filters",
  print: "Print",
  chooseColumns: (shown: number, all: number) => `Columns: ${shown} of ${all}`,
  columnsHelp: "The site is always shown.",
  standardColumns: "Usual columns",
  allColumns: "All columns",

  left: (left: number, all: number) => (left === all ? `${count(all, "site", "sites")}.` : `${left} of ${count(all, "site", "sites")}.`),
  sorted: (column: SiteColumn, descending: boolean) => `Sorted by ${columns[column].toLowerCase()}, ${orders[column][descending ? 1 : 0]}.`,
  unsorted: "In the park’s own order.",
  due: (n: number) => `${count(n, "site is", "sites are")} due for measuring again.`,
  nothing: "No site matches these filters.",
  noSites: "This park has no sites on record yet. They come in with the park’s file.",
  noPark: "No park is loaded yet. Whoever runs this can load the demo park by starting without --empty.",

  entries: { "back-in": "back-in", "pull-through": "pull-through" },
  either: "pull-through, either end",
  yes: "yes",
  none: "none",
  noRule: "no rule",
  notPosted: "not posted",
  deadPower: "post, no receptacle",
  receptacles: (amperes: readonly number[]) => `${amperes.join(", ")} A`,
  rinseOnly: "rinse only",
  pressure: (pressure: string) => pressure,
  pressureUnknown: "yes, not gauged",
  petsAllowed: (allowed: boolean) => (allowed ? "allowed" : "not allowed"),
  isAccessible: (accessible: boolean) => (accessible ? "accessible" : "no"),
  obstacles: (all: number, trees: number) => (all === 0 ? "none" : trees === 0 ? `${all}, no tree` : `${all}, ${count(trees, "tree", "trees")}`),

  /** As someone says it who stands on the road and looks in. */
  slopeAlong: (percent: number) => slope(percent, "rises toward the back", "falls toward the back"),
  slopeAcross: (percent: number) => slope(percent, "rises to the left", "rises to the right"),

  date: ({ year, month, day }: { readonly year: number; readonly month: number; readonly day: number }) => `${MONTHS[month - 1] ?? month} ${day}, ${year}`,
  ago: (months: number, days: number) => {
    if (days < 0) return "a day to come: check the date";
    if (days === 0) return "today";
    if (days === 1) return "yesterday";
    if (months < 1) return `${days} days ago`;
    if (months < 24) return `${count(months, "month", "months")} ago`;
    const rest = months % 12;
    return `${Math.floor(months / 12)} years${rest > 0 ? ` ${count(rest, "month", "months")}` : ""} ago`;
  },
  neverMeasured: "never measured",
  measureAgain: "measure again",
};

/** Flatter than this prints as 0.0 per cent. */
const LEVEL = 0.05;

function slope(percent: number, up: string, down: string): string {
  return Math.abs(percent) < LEVEL ? "level" : `${percent > 0 ? up : down} ${Math.abs(percent).toFixed(1)} %`;
}
