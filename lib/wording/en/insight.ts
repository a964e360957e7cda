import type { Verdict } from "@/lib/fit/types";
import type { RigKind } from "@/lib/rig";
import type { Thing } from "../things";
import { cap, count, list } from "./text";
import { things } from "./things";

/** The pages that tell what a park's ground can and cannot take. */
export const insight = {
  title: "Every rig on every site",
  lead: "Sites go down, rigs go across. Each cell says whether that rig finds a place on that site. Open a cell for the plan.",
  noPark: "No park is loaded yet. Whoever runs this can load the demo park by starting without --empty.",
  noSites: "This park has no measured sites yet. Once its sites are loaded, they stand here in rows.",
  noRigs: "This park keeps no rigs of its own. Choose typical rigs above.",

  choose: {
    rigs: "Rigs",
    park: (n: number) => `The park’s own (${n})`,
    all: "Typical rigs of every kind",
    kind: (kind: string) => `Typical: ${kind}`,
    show: "Show",
    loop: "Loop",
    everyLoop: "All loops",
    oneLoop: (loop: string) => `Loop ${loop}`,
    sites: "Order of sites",
    across: "Order of rigs",
    siteOrders: { listed: "The park’s list", "turned-away": "Most turned away" },
    rigOrders: { listed: "Their list", "turned-away": "Most turned away" },
  },

  grid: {
    caption: (sites: number, rigs: number) => `${count(sites, "site", "sites")} down, ${count(rigs, "rig", "rigs")} across`,
    site: "Site",
    takes: "Takes",
    ofAll: (all: number) => `of ${all}`,
    rigTakes: (taken: number, all: number) => `fits ${taken} of ${all} sites`,
    siteTakes: (taken: number, all: number) => `takes ${taken} of ${all} rigs`,
    hint: "Point at a cell, or tab into the table and use the arrow keys, to read why.",
    region: "Table of rigs and sites. It scrolls both ways.",
    help: "With the keyboard: arrow keys move from cell to cell, Home and End along a row, Ctrl with Home or End to the corners. Enter opens the plan.",
    fitsWithRoom: "It fits.",
    tight: "It fits, with little room to spare.",
  },

  /** As short as a cell asks. */
  words: { fits: "Fits", gear: "Gear", ask: "Ask", unsettled: "Open", no: "No" } satisfies Record<Verdict, string>,
  tightWord: "Tight",
  legend: {
    fits: "Fits with what such a rig carries; “Tight” where little room is left",
    gear: "Fits if the guest brings more: a longer hose, an adapter, blocks",
    ask: "One measurement is missing",
    unsettled: "Not settled by the search",
    no: "No place on the site where everything holds",
  } satisfies Record<Verdict, string>,
  legendTitle: "What the marks mean",

  summary: (takes: number, gear: number, all: number) =>
    `Of ${grouped(all)} pairs of a site and a rig, ${grouped(takes)} ${takes === 1 ? "works" : "work"}${gear > 0 ? `, ${grouped(gear)} of them with gear to bring` : ""}.`,
  most: "What turns rigs away most",
  mostColumns: { what: "What stands in the way", count: "Pairs it refuses", alone: "With nothing else against them" },
  mostHelp: "A pair may be refused by several things at once. The last column counts those that one change could help.",

  working: {
    title: "Working out every rig on every site",
    line: (sites: number, rigs: number) => `${count(sites, "site", "sites")} and ${count(rigs, "rig", "rigs")}, each pair searched in full.`,
    /** Filled in by the browser as the work goes on. */
    done: "{done} of {total} pairs done",
    failed: "The work was broken off. Load the page again: what was done is kept.",
    again: "Load the page again",
    noScript: "This page loads itself again until every pair is worked out.",
    section: "Working it out…",
  },

  stopped: {
    title: "This was given up",
    why: { time: "It took too long.", asker: "Nobody was waiting for it any more.", busy: "Too much else is being worked out right now." },
    again: "Try again",
  },

  rig: {
    title: (name: string) => `${name} on every site`,
    back: "Every rig on every site",
    lead: (n: number, taken: number, gear: number) => `Of ${count(n, "site", "sites")}, ${taken === 0 ? "none takes it" : taken === 1 ? "one takes it" : `${taken} take it`}${gear > 0 ? `, ${gear} of them if more gear is brought` : ""}.`,
    measures: (length: string, width: string, height: string) => `${length} overall, ${width} wide, ${height} high`,
    columns: { site: "Site", verdict: "Verdict", why: "Why it stands here", change: "What would turn it" },
    noChange: "No single change would, nor any two.",
    by: "What turns it away",
    byOf: (what: string, n: number, alone: number) => `${cap(what)}: ${count(n, "site", "sites")}${alone > 0 ? ` (${alone === n ? "nothing else stands against it there" : `at ${alone} nothing else does`})` : ""}`,
    caption: "Sites that take it first, best first; then the rest",
  },

  turnedAway: {
    title: "Who it turns away",
    none: (all: number) => `Nobody: all ${count(all, "rig", "rigs")} the park keeps find a place here.`,
    line: (n: number, all: number) => `${n} of the ${count(all, "rig", "rigs")} the park keeps ${n === 1 ? "finds" : "find"} no place here.`,
    typicalLine: (n: number, all: number) => `${n} of ${count(all, "typical rig", "typical rigs")} ${n === 1 ? "finds" : "find"} no place here.`,
    columns: { what: "What stands in the way", count: "Turns away", alone: "By itself" },
    of: (n: number, all: number) => `${n} of ${all}`,
    rigs: (n: number) => `${count(n, "rig", "rigs")} turned away, with the first reason for each`,
    changes: "What one change would let in",
    changesHelp: "Each rig was solved anew with the change made.",
    gain: (n: number, all: number, names: readonly string[]) => `Lets in ${n} of ${all}: ${list(names)}.`,
    noGain: "No single change to the site would let in any of them.",
    raiseLimit: (length: string) => `Raise the posted length limit to ${length}: the ground takes that much.`,
  },

  longest: {
    title: "The longest rigs it takes",
    lead: "Judged by the ground, with typical rigs of each kind: pad, lot, trees, hookups and slope. Lengths are overall, hitch included. Longer gear to bring counts as a yes.",
    posted: (length: string) => `The posted limit is ${length}. It is left out of the judging, so that it can be checked.`,
    notPosted: "No length limit is posted here.",
    without: (services: readonly string[]) => `The site has no ${list(services, "or")}, so the rigs are judged without.`,
    columns: { kind: "Kind", slides: "With its slides out", noSlides: "Without slides" },
    upTo: (length: string) => length,
    more: (length: string) => `${length} or more`,
    none: "None",
    same: "Has none",
    post: "Ready to post",
    postHelp: "Rounded down to a length that was tried as well. Hitch included.",
    kinds: {
      van: "Vans", "class-b": "Camper vans", "truck-camper": "Truck campers", "class-c": "Small motorhomes", "class-a": "Large motorhomes",
      "folding-trailer": "Folding trailers", "travel-trailer": "Travel trailers", "fifth-wheel": "Fifth wheels", "toy-hauler": "Trailers with a garage",
    } satisfies Record<RigKind, string>,
    /** `withSlides` is null where the kind has no slides. Lengths are null where none fits. */
    line: (kind: string, withSlides: string | null, without: string | null, hasSlides: boolean): string => {
      if (!hasSlides) return without === null ? `No ${lower(kind)}.` : `${kind} up to ${without}.`;
      if (withSlides === null && without === null) return `No ${lower(kind)}.`;
      if (withSlides === without) return `${kind} up to ${without}, slides in or out.`;
      if (withSlides === null) return `${kind} up to ${without}, without slides only.`;
      if (without === null) return `${kind} up to ${withSlides}.`;
      return `${kind} up to ${withSlides} with slides out, ${without} without.`;
    },
    any: (kind: string) => `${kind} of any usual length.`,
    wholeLength: (mm: number, metric: boolean) => (metric ? `${(mm / 1000).toFixed(1)} m` : `${Math.floor(mm / 304.8 + 1e-6)} ft`),
    tooGenerous: (kinds: readonly string[]) => `It promises more than the ground gives to ${list(kinds.map(lower))}.`,
  },

  /** What turns a rig away, as it stands in a list. `named` is the thing itself, where it is one. */
  hindrance(by: string, named: Thing | null): string {
    if (named) return things.full(named);
    const [family = "", what = "", which = ""] = by.split(":");
    if (family === "rule") return RULES[which ? `${what}:${which}` : what] ?? `the rule on ${what}`;
    if (family === "missing") return MISSING[what] ?? `no ${what} hookup`;
    if (family === "run") return `the distance to the ${what} hookup`;
    if (family === "inlet") return `no ${what} inlet on the rig`;
    if (family === "kind") return kindsOf(what);
    if (family === "hookup") return HOOKUPS[what] ?? `${what} hookups`;
    return PLAIN[family] ?? by;
  },
};

const RULES: Readonly<Record<string, string>> = {
  maxLength: "the posted length limit",
  maxGuests: "the limit on guests",
  maxVehicles: "the limit on vehicles",
  pets: "the rule on pets",
  tents: "the rule on tents",
  "accessible:kept": "kept for guests who need an accessible site",
  "accessible:lacking": "not an accessible site",
};

const MISSING: Readonly<Record<string, string>> = { power: "no power hookup", water: "no drinking water", sewer: "no sewer hookup" };

const HOOKUPS: Readonly<Record<string, string>> = { power: "power pedestals", water: "water taps", sewer: "sewer drains", "rinse-water": "rinse-water taps" };

const PLAIN: Readonly<Record<string, string>> = {
  pad: "the size of the pad",
  road: "the road edge",
  lot: "the edge of the site",
  power: "what the power pedestal offers",
  fall: "the height of the sewer drain",
  slope: "the slope of the pad",
  vehicle: "no place for a vehicle",
};

function kindsOf(kind: string): string {
  const noun = kind.replace(/[_-]+/g, " ");
  return /s$/.test(noun) ? noun : /(ch|sh|x)$/.test(noun) ? `${noun}es` : `${noun}s`;
}

function lower(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

function grouped(n: number): string {
  return String(n).replace(/\B(?=(\d{3})+$)/g, ",");
}

