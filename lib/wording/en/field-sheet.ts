import type { Hookup } from "@/lib/park";
import type { Units } from "@/lib/measure";
import { things } from "./things";

/** The paper that somebody takes along to a site with a tape, a level and a pole. */
export const fieldSheet = {
  title: "Field sheets",
  lead: "Paper for measuring sites where a phone is no help. Each site takes two pages; the order is the one you walk in.",
  of: "Sheets for",
  blank: "A blank sheet",
  loop: (id: string, name: string | undefined, sites: number) => `Loop ${id}${name ? `, ${name}` : ""}: ${sites} ${sites === 1 ? "site" : "sites"}`,
  wholeLoops: "A whole loop",
  noLoop: "No loop",
  loopSites: (id: string) => `One site of loop ${id}`,
  paper: "Paper",
  papers: { letter: "Letter", a4: "A4" },
  units: "Measured in",
  unitNames: { "ft-in": "Feet, inches", metric: "Meters" } satisfies Record<Units, string>,
  show: "Show the sheets",
  print: "Print",
  printHint: "Print at 100%, both sides if you can.",
  preview: "The sheets as they are printed",
  more: (sites: number) => `The sheets of ${sites} more ${sites === 1 ? "site" : "sites"} are printed after this one.`,
  unknown: "There is no such site or loop. Here is a blank sheet.",
  bring: "What to bring",
  bringLines: [
    "A tape of 100 ft (30 m) or longer, a level and a ruler, and something to hold the end of the tape.",
    "A pole with marks on it for limbs. For what is higher, an app or a tool that reads angles.",
    "Somebody to hold the other end, and to watch for cars.",
  ],

  sheet: (label: string) => `Site ${label}`,
  blankSheet: "Site",
  ofLoop: (id: string) => `Loop ${id}`,
  another: "Another one",
  part: (page: number) => `Page ${page} of 2`,
  head: { date: "Date", who: "Measured by", tape: "Tape: length and kind", level: "Level: length" },
  safety: "Keep poles and tapes away from overhead wires. Leave pedestals shut and drains capped: read labels from outside. Watch the road.",

  pad: {
    title: "The pad",
    how: "Stand on the road and look in. A is the front corner on your left, B the one on your right. Go on around from B: C, D and so on, until you are back at A.",
    corner: "Corner", before: "From the corner before", fromA: "From A", fromB: "From B", inward: "Points in?",
    surface: "Surface",
    sketch: "Corners of a pad, seen from above with the road below: A front left, B front right, then C and D around the back.",
  },
  slope: {
    title: "The slope",
    how: "Lay the level on the ground and raise its low end until it reads level. Write how long the level is and how far its end was raised, or write degrees.",
    where: "Where", length: "Length of level", rise: "Rise", high: "Higher end", degrees: "or degrees",
    rows: [
      { where: "Along, front half", ends: "road / back" },
      { where: "Along, back half", ends: "road / back" },
      { where: "Across, front half", ends: "left / right" },
      { where: "Across, back half", ends: "left / right" },
    ],
  },
  hookups: {
    title: "Hookups",
    how: "Two tapes give a place: one from A, one from B. Hold them to the face of the post. Tick R for what lies on the road’s side of the line from A to B.",
    what: "Hookup", fromA: "From A", fromB: "From B", road: "R", height: "Height of outlet", girth: "Girth of post", postHeight: "Height of post", label: "On the label",
    labelHint: { power: "amps", water: "pressure", sewer: "", "rinse-water": "not for drinking" } satisfies Record<Hookup["kind"], string>,
    name: (kind: Hookup["kind"], id: string, alone: boolean) => things.full({ type: "hookup", hookup: { id, kind } as Hookup, alone }).replace(/^the /, ""),
  },
  obstacles: {
    title: "Trees, posts, wires and all that stands in the way",
    how: "Of a tree: the girth of its trunk, the lowest limb over the site, its top, and how far the limbs reach from the trunk. Of a long thing, one line for each end or corner. Of a wire, its lowest point; no pole near it.",
    what: "What", fromA: "From A", fromB: "From B", road: "R", girth: "Girth or width", low: "Lowest point", top: "Top", reach: "Limbs reach", again: "Look again by",
  },
  road: {
    title: "The road and the way in",
    fields: [
      "Width of the road", "From A straight to the road’s edge", "From B straight to the road’s edge", "Width of the mouth at the road",
      "Lowest limb or wire over the road", "Cars come from (left / right / both)", "What stands close at the turn", "Length where a rig can pull ahead",
    ],
    farSide: "Far end: from the last corners to the road there",
  },
  grid: {
    title: "Sketch",
    scale: (square: string) => `One square is ${square}. Draw north.`,
    road: "Road",
    north: "N",
    about: "A grid to sketch the site on, the road on the left, with the front corners A and B marked.",
  },
  notes: "Notes: what you are unsure of, what to measure again",
  writeIn: { "ft-in": "Write feet and inches, such as 34 ft 7 1/2 in.", metric: "Write meters, such as 10.55." } satisfies Record<Units, string>,
};
