import type { LengthFault, Units } from "@/lib/measure";
import type { Addable } from "@/lib/park/edit/change";
import type { Copyable } from "@/lib/park/edit/copy";
import type { Fault, FaultCode } from "@/lib/park/edit/faults";
import type { Drawn } from "@/lib/park/edit/snap";
import type { ThingKind } from "@/lib/park/edit/things";
import type { Numbers } from "../format";
import { cap, count } from "./text";
import { lengthFault } from "./verdicts";

/** Why a typed number cannot be read. */
export type UnreadFault = LengthFault | "number" | "side";

const corner = (i: number) => i + 1;

/** The plan editor of a site, and what is made from a site: a copy, the same for others. */
export const siteEditor = {
  title: (label: string) => `Edit site ${label}`,
  newTitle: (label: string) => `New site ${label}`,
  lead: "Drag what is on the plan, or type its numbers beside it. Both change the same record, and nothing is saved until you have looked at what it changes.",
  back: (label: string) => `Site ${label}`,
  editLink: "Edit the plan and the numbers",
  copyLink: "Copy this site",
  loopLink: "Give the same to other sites",
  historyLink: "History",
  mapLink: "Where it lies on the map",
  needsScript: "The plan is edited in the browser and needs JavaScript. Turn it on and load this page again. Without it, a site can be changed by exporting the park’s files, editing them, and importing them.",
  retired: "This site is out of use. Saving brings it back.",

  plan: {
    name: (label: string) => `Plan of site ${label}, to edit`,
    keys: "Tab goes from thing to thing. Enter takes hold of one and shows its corners. Arrow keys move what has the focus: up is into the site, left is left as one looks in from the road. With Shift in large steps, with Alt in small ones. Insert or I adds a corner behind this one, Delete takes the corner or the thing out, Escape lets go. Plus and minus zoom in and out, 0 shows the whole site. On a touch screen one finger moves what is chosen, or else the plan; two fingers move the plan and zoom.",
    keysSummary: "Keys on the plan",
    road: "road",
    handle: "handle",
    thing: (name: string, where: string, faulty: boolean) => `${name}, ${where}${faulty ? ", something is wrong with it" : ""}`,
    cornerOf: (name: string, i: number, all: number, where: string) => `${name}, corner ${corner(i)} of ${all}, ${where}`,
    pointOf: (name: string, i: number, all: number, where: string) => `${name}, point ${corner(i)} of ${all}, ${where}`,
    placeOf: (name: string, where: string) => `Place of ${name.toLowerCase()}, ${where}`,
    moved: (name: string, where: string, to: Drawn) => `${name}: ${where}${to === null || to === "grid" ? "" : `, ${{ corner: "on a corner", edge: "on the pad’s edge", axis: "on the line" }[to]}`}.`,
    closer: "Zoom in",
    farther: "Zoom out",
    wholeSite: "Whole site",
    wayIn: "Way in",
    toSelected: "To what is chosen",
    zoom: "View",
    selected: (name: string) => `${name} is chosen.`,
    addCorner: "Add a corner here",
    north: "N",
  },

  bar: {
    name: "Editing",
    undo: "Undo",
    redo: "Redo",
    snap: "Snap",
    snapHint: (units: Units) => `To ${units === "metric" ? "5 cm" : "1 inch"}, corners, the pad’s edge and the two lines. Hold Alt while dragging to go without.`,
    mirror: "Mirror left and right",
    mirrored: "Mirrored: what was left is right.",
    undone: "Undone.",
    redone: "Done again.",
    units: "Lengths in",
    unitNames: { "ft-in": "Feet and inches", metric: "Meters" } satisfies Record<Units, string>,
    add: "Add",
    addLabel: "What to add",
    put: "Put it on the plan",
    added: (name: string) => `${name} added, in the middle of what the plan shows. Give it its numbers.`,
    removed: (name: string) => `${name} taken out.`,
  },

  addable: {
    tree: "Tree", post: "Post or lamp", table: "Table", "fire-ring": "Fire ring", rock: "Rock or stump", wire: "Overhead wire",
    power: "Power pedestal", water: "Water tap", sewer: "Sewer drain", "rinse-water": "Rinse-water tap",
    stall: "Parking stall", lot: "Lot", "road-edge": "Road edge", "exit-edge": "Road edge at the far end", "spot-heights": "Spot heights",
    road: "Road in front (way in)", "exit-road": "Road at the far end", driveable: "Driveable ground", "height-limit": "Wire or limb over the way",
  } satisfies Record<Addable, string>,

  kinds: {
    pad: "Pad", lot: "Lot", "road-edge": "Road edge", "exit-edge": "Road edge at the far end", road: "Road in front", "exit-road": "Road at the far end",
    driveable: "Driveable ground", "height-limit": "Height limit", obstacle: "Obstacle", hookup: "Hookup", stall: "Parking stall", "spot-heights": "Spot heights",
  } satisfies Record<ThingKind, string>,
  numbered: (name: string, i: number) => `${name} ${i + 1}`,
  limit: (kind: string, id: string) => (kind === id ? cap(kind) : `${cap(kind)} ${id}`),

  groups: { site: "The site", ground: "Ground", lines: "Roads and way in", obstacles: "Obstacles", hookups: "Hookups", parking: "Parking", rules: "Rules" },
  list: "Everything on the site, with its numbers",
  wrong: "To put right",
  slopes: "Slope of the ground",
  names: "Names and entry",
  rules: "Rules",
  nothing: { obstacles: "No obstacles.", hookups: "No hookups.", parking: "No stalls." },
  summary: {
    corners: (n: number) => count(n, "corner", "corners"),
    points: (n: number) => count(n, "point", "points"),
  },

  fields: {
    label: "What the post says", loop: "Loop", entry: "Entry", enterFrom: "Driven in from", surface: "Surface",
    along: "Rises toward the back, %", across: "Rises toward the left, %",
    into: "In from the entry edge", left: "Left or right of the centerline", height: "Height",
    spotHeight: "Above the entry edge", id: "Name", kind: "Kind",
    trunkThrough: "Trunk, through", trunkGirth: "Trunk, around", crownRadius: "Limbs reach out", crownFrom: "Lowest limb", crownTo: "Top",
    through: "Across (diameter)", from: "Begins above the ground", to: "Reaches up to", removable: "May be taken away",
    hookupHeight: "Above the ground there", receptacles: "Receptacles", volts: "Volts", pressure: "Pressure",
    groundZ: "Ground there, above the entry edge", postThrough: "Post, through", postHeight: "Post, height",
    width: "Width of the road", traffic: "Traffic, as one faces the site", limitHeight: "Lowest point",
    gradeAt: "In from the entry edge", gradeChange: "Slope changes by, %", grades: "Where the slope changes", addGrade: "Add a change of slope", removeGrade: (i: number) => `Take change ${i + 1} out`,
    maxLength: "Longest rig, hitch included", maxGuests: "Most guests", maxVehicles: "Most vehicles", tents: "Most tents", pets: "Pets", accessible: "Accessible site",
  },
  optional: "if known",
  choices: {
    entry: { "back-in": "Back in", "pull-through": "Pull through" },
    enterFrom: { front: "The front only", either: "Either end" },
    hookup: { power: "Power", water: "Water", sewer: "Sewer", "rinse-water": "Rinse water, never drunk" },
    traffic: { both: "Both ways", "toward-left": "Toward the left", "toward-right": "Toward the right" },
    pets: { "": "Nothing said", yes: "Allowed", no: "Not allowed" },
    accessible: { "": "Nothing said", yes: "Yes", no: "No" },
  },
  amperes: (a: number) => `${a} A`,
  row: { corner: (i: number) => `Corner ${corner(i)}`, point: (i: number) => `Point ${corner(i)}`, spot: (i: number) => `Spot ${corner(i)}`, place: "Place" },
  addAfter: (row: string) => `Add one after ${row.toLowerCase()}`,
  takeOut: (row: string) => `Take ${row.toLowerCase()} out`,
  addShort: "+",
  removeShort: "−",
  remove: (name: string) => `Take out ${name.toLowerCase()}`,
  makeRound: "Make it round",
  giveCorners: "Give it corners",
  howToType: (units: Units) =>
    units === "metric"
      ? "Type 7.5 m, 750 cm or 24 ft 6 in. A bare number counts as meters; for trunks and posts as centimeters. Right of the centerline: 1.8 m right, or −1.8."
      : "Type 24 ft 6 in, 24' 6\", 294 in or 7.5 m. A bare number counts as feet; for trunks and posts as inches. Right of the centerline: 6 ft right, or −6.",

  spot: (x: number, y: number, n: Numbers) => `${into(x, n)}, ${aside(y, n)}`,
  leftWord: "left",
  rightWord: "right",

  fault: (fault: Fault): string => faultWords[fault.code](fault),
  faultsTitle: (n: number) => (n === 0 ? "Nothing is wrong with the record." : `${count(n, "thing has", "things have")} to be put right before it can be saved`),
  faultLine: (name: string, field: string | null, what: string) => `${name}${field ? `, ${field.charAt(0).toLowerCase()}${field.slice(1)}` : ""}: ${what.charAt(0).toLowerCase()}${what.slice(1)}`,
  unread: (fault: UnreadFault, text: string, units: Units): string => (fault === "number" ? `“${text}” cannot be read as a number.` : fault === "side" ? "Say left or right once, or put a minus sign for right." : lengthFault(fault, text, units)),

  save: {
    name: "Saving",
    look: "Look at what changes",
    looking: "Working…",
    unchanged: "Nothing has been changed yet.",
    changed: (n: number) => `${count(n, "step", "steps")} since it was opened. Not saved.`,
    how: "The new numbers are",
    howNames: { unsaid: "noted without how they are known", tape: "measured with a tape", "from-plan": "read off a plan", estimated: "estimated by eye" },
    howHintFirst: "Numbers that you changed or added are noted as known this way. A fit that hangs on how well they are known then says so.",
    howHint: "This site was surveyed. Numbers that you changed or added are noted as known this way, and no longer as they were measured before.",
    refused: "It cannot be saved yet. What has to be put right is listed here.",
    failed: "It could not be sent. Your changes are kept in this browser; check the connection and press the button again.",
    gone: "You are not signed in as a manager any more. Your changes are kept in this browser: sign in and open this page again.",
    leave: "Your changes are not saved. They are kept in this browser tab and offered when you come back. Leave the page?",
  },
  kept: {
    title: "Unsaved changes from before",
    text: "This browser tab has changes to this site that were not saved.",
    older: "The site has been saved by somebody since. Before you save, you are shown what they changed.",
    take: "Take them up again",
    drop: "Throw them away",
    taken: "Your unsaved changes are back.",
    dropped: "The unsaved changes are thrown away.",
  },

  copy: {
    title: (label: string) => `Copy site ${label}`,
    lead: "A new site with the same pad, ground, hookups and obstacles. Where it lies on the map and when it was measured are not copied: both are its own. Measure what differs.",
    id: "Identifier",
    idHint: "Short and never changed later, such as c12. Letters, digits, and dashes.",
    label: "What the post says",
    loop: "Loop",
    mirrored: "Mirrored: what is on the left is on the right",
    mirroredHint: "For the site across the road, or the other half of a pair.",
    make: "Look at the copy",
    idEmpty: "Give the new site an identifier.",
    idForm: "Only letters, digits, and dashes, up to 40.",
    idTaken: (id: string) => `The park already has a site ${id}.`,
    labelEmpty: "Say what the post will say.",
    labelLong: "At most 80 letters.",
    labelTaken: (label: string) => `Another site’s post already says ${label}.`,
  },

  loop: {
    title: (label: string) => `Give others what site ${label} has`,
    lead: "Choose what to give and to which sites. You see what changes at each of them before anything is saved.",
    noLoop: "No other site is in this loop. Choose among all of the park’s sites.",
    what: "What to give",
    parts: {
      pad: "The pad’s outline", surface: "The pad’s surface", lot: "The lot", ground: "Slope and spot heights", roadEdge: "Road edge", exitEdge: "Road edge at the far end", approach: "The way in",
      obstacles: "All obstacles", hookups: "All hookups, with their places", offers: "What hookups offer: receptacles, volts, pressure, height", parking: "Parking stalls", rules: "Rules",
    } satisfies Record<Copyable, string>,
    replaces: "What a site has of these is replaced, and so are the measurements it came from.",
    thisLoop: (id: string) => `Sites of loop ${id}`,
    otherSites: "Other sites",
    look: "Look at what changes",
    nothingChosen: "Choose at least one thing to give.",
    noSites: "Tick at least one site.",
    preview: "What would change",
    same: "Like that already.",
    site: (label: string) => `Site ${label}`,
    changes: (parts: readonly string[]) => `${parts.map((part, i) => (i === 0 ? part : part.charAt(0).toLowerCase() + part.slice(1))).join("; ")}.`,
    faults: (label: string, n: number) => `Site ${label} would have ${count(n, "fault", "faults")}`,
    cannot: "It cannot be saved like this. Open the site and put it right, or untick it.",
    why: "Why",
    whyHint: "Kept in each site’s history.",
    save: (n: number) => `Save ${count(n, "site", "sites")}`,
    stale: "Somebody else has saved one of these sites meanwhile, so nothing was saved. What you see below is from now.",
    refused: "The database refused it. Nothing was saved.",
    saved: (n: number) => `${count(n, "site has", "sites have")} been changed. Each has it in its history.`,
    nothing: "Nothing to save: they are all like that already.",
    effects: "Stays to come",
    noEffects: "No stay to come changes its answer.",
    worse: (n: number) => `${count(n, "stay", "stays")} to come would no longer fit. The desk is told.`,
    other: (n: number) => `${count(n, "stay", "stays")} to come would get another answer, or begin to fit.`,
    unknown: (n: number) => `${count(n, "stay", "stays")} to come could not be worked out.`,
    unweighed: "Which stays to come would no longer fit could not be worked out in the time allowed.",
  },
};

const rounds = (n: number) => corner(n);

const faultWords: Record<FaultCode, (fault: Fault) => string> = {
  missing: () => "This number is needed.",
  negative: () => "Cannot be below zero.",
  far: () => "Lies more than 1,640 ft (500 m) from the entry edge.",
  few: () => "Needs at least three corners; a line needs two points.",
  same: ({ corners }) => (corners ? `Corners ${rounds(corners[0])} and ${rounds(corners[1])} lie on the same spot. Move one or take it out.` : "Two of its points lie on the same spot. Move one or take it out."),
  crossing: ({ corners }) => (corners ? `The edge after corner ${rounds(corners[0])} crosses or touches the one after corner ${rounds(corners[1])}. Move a corner so that the outline does not meet itself.` : "The outline meets itself. Move a corner."),
  flat: () => "The corners lie on one line. Move one aside.",
  "pad-size": () => "From end to end a pad is between 3 ft 3 in and 1,300 ft (1 and 400 m). Was another unit meant?",
  order: () => "Ends below where it begins.",
  taken: () => "Something else on this site has this name.",
  empty: () => "Cannot be empty.",
  "one-line": () => "The spots lie on one line and give no plane. Move one aside.",
  "twice-given": () => "Give slopes or spot heights, not both.",
  "post-height": () => "A post needs its height.",
  receptacles: () => "Tick the receptacles it has.",
  "no-exit": () => "A back-in site has no road at its far end. Take it out, or make the site a pull-through.",
  "posted-length": () => "Must be between 3 ft 4 in and 328 ft (1 and 100 m).",
  "road-width": () => "Must be between 6 ft 7 in and 131 ft (2 and 40 m).",
  count: () => "Must be a whole number from 0 to 1,000.",
  slope: () => "Must be a slope between −100 and 100 percent.",
  other: ({ told }) => cap(`${told}.`),
};

function into(x: number, n: Numbers): string {
  if (Math.abs(x) < 1) return "at the entry edge";
  return x > 0 ? `in ${n.measured(x)}` : `${n.measured(-x)} short of the entry edge`;
}

function aside(y: number, n: Numbers): string {
  return Math.abs(y) < 1 ? "on the centerline" : `${y > 0 ? "left" : "right"} ${n.measured(Math.abs(y))}`;
}
