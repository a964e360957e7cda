import type { PolicyTurn, StayUnknown } from "@/lib/insight/policy-effects";
import { count, list } from "./text";

/** One value of the fit policy: what it is called, what it means, and where its default comes from. */
interface SettingWords {
  readonly label: string;
  readonly means: string;
  readonly source: string;
}

const ownChoice = "Our own choice; no code stands behind it.";
const wireSource = "From memory of the U.S. electrical code (NEC 551.79). Check the edition that is in force: local code and the utility decide, and may ask for more.";

/** Every value of a park's fit policy, by its name in the record. */
const policy = {
  clearance: { label: "Room to the side", means: "Kept free on the ground between the rig and whatever stands there.", source: ownChoice },
  headroom: { label: "Room above and below", means: "Kept free above and below, wherever rig and obstacle could touch.", source: ownChoice },
  limbRoom: { label: "Room under tree crowns", means: "Kept free below branches. They sag in rain and grow.", source: ownChoice },
  footing: { label: "Tires and jacks inside the pad", means: "How far inside the edge of the pad they stand: half a tire or half a jack plate.", source: ownChoice },
  roadSetback: { label: "Set back from the road", means: "How far behind the edge of the road the rig stands.", source: ownChoice },
  wireRoom: { label: "Room under overhead wires", means: "Kept free between the top of the rig and a wire above it.", source: wireSource },
  wireClearance: { label: "Room beside overhead wires", means: "Kept free sideways between the rig and a wire.", source: wireSource },
  fireClearance: { label: "Awning to fire ring", means: "Kept free between an awning that is out and a fire ring.", source: "Our own choice. Local fire rules decide where they ask for more." },
  "longest.power": { label: "Longest power cord", means: "No cord may run farther than this, whoever owns it.", source: "Our own choice. Local electrical code decides where it asks for less." },
  "longest.water": { label: "Longest water hose", means: "No drinking-water hose may run farther than this.", source: ownChoice },
  "longest.sewer": { label: "Longest sewer hose", means: "No sewer hose may run farther than this.", source: "Our own choice. Local health rules decide where they ask for less." },
  underBody: { label: "May run straight under the rig", means: "Lines that are not ticked go around it, and so need to be longer.", source: "Common practice." },
  maxPressure: { label: "Water pressure without a regulator", means: "Where a tap was measured above this, the guest has to bring a regulator.", source: "From the Uniform Plumbing Code (UPC 608.2). Local code decides." },
  continuous: { label: "Power drawn for hours", means: "The share of a receptacle that may be used for hours on end.", source: "From the rule of 125% in the U.S. electrical code (NEC 210.19). Local code decides." },
  levelWithin: { label: "Slope that needs no leveling", means: "A pad that slopes no more than this asks for no blocks.", source: "Common practice: half a degree." },
  maxLiftSide: { label: "Most lift, side to side", means: "More blocks than this may not be asked for on one side.", source: ownChoice },
  maxLiftAlong: { label: "Most lift, front to back", means: "More lift than this may not be asked for at one end.", source: ownChoice },
  overflow: { label: "There is overflow parking", means: "A car or truck that has no place on the site can go there.", source: "Our own choice." },
  keepAccessible: { label: "Accessible sites are kept", means: "Only guests who need one get an accessible site.", source: "Our own choice. The law may ask for it." },
  tight: { label: "Marked tight below", means: "A fit with less room than this is marked tight. It still fits.", source: ownChoice },
  comfort: { label: "Room enough", means: "Room beyond this makes a place no better. It decides where the rig is drawn and what it then has to bring, not whether it fits.", source: ownChoice },
  touch: { label: "Closer than anybody measures", means: "So little may be missing and it still counts as a fit.", source: "Our own choice: tapes are not read closer." },
} satisfies Record<string, SettingWords>;

export type PolicySetting = keyof typeof policy;

const who = (name: string | null) => name ?? "Somebody";

/** The settings of a park: what a fit needs, what they would change, and what became of them before. */
export const manageSettings = {
  title: "Settings",
  lead: "What this park asks of a fit, and how it takes stays. Before anything is saved you see what would change.",
  parts: {
    fit: { name: "What a fit needs", about: "Room to keep free, longest hoses, slopes, wires and fire. Shows which verdicts and which stays would change." },
    stays: { name: "Stays, house rules and lending", about: "Booking, times, limits, canceling, house rules, and what the desk lends." },
  },
  back: "All settings",
  saved: "Saved. It counts from now on.",
  history: {
    title: "What was changed",
    none: "Nothing was changed yet.",
    line: (name: string | null, when: string) => `${who(name)}, ${when}`,
    reason: (text: string) => `Why: ${text}`,
    from: (from: string, to: string) => `${from} → ${to}`,
    inWords: (from: string, to: string) => `from ${from} to ${to}`,
    earlier: (most: number) => `The last ${most} are shown.`,
    /** Where a save wrote down what held already. */
    nothing: "Nothing that can be seen.",
  },
  policy,
  groups: {
    room: { title: "Room around the rig", note: null },
    safety: { title: "Wires and fire", note: "Local code, the utility and the fire department decide. These numbers only keep plans clear of what was measured: they do not make a place safe." },
    hookups: { title: "Power, water and sewer", note: "Codes and licensed people decide whether a hookup is safe. Ask them before you allow more." },
    level: { title: "Leveling", note: null },
    vehicles: { title: "Vehicles and accessible sites", note: null },
    marks: { title: "How answers are given", note: null },
  },
  fit: {
    title: "What a fit needs",
    lead: "Every rig is judged by these. Change one or more, then look at what it would do.",
    bare: { "ft-in": "A number alone means inches; for cords, hoses and the fire ring it means feet.", metric: "A number alone means centimeters; for cords, hoses and the fire ring it means meters." },
    usual: (value: string) => `Usual: ${value}.`,
    record: (value: string) => `Now exactly ${value}.`,
    yes: "Yes",
    no: "No",
    none: "none",
    under: (length: string) => `less than ${length}`,
    percent: (value: number) => `${value}%`,
    services: { power: "Power cord", water: "Water hose", sewer: "Sewer hose" },
    unit: { percent: "%", psi: "psi", kPa: "kPa" },
    check: "Show what would change",
    same: "Nothing is changed. Change a number first.",
  },
  faults: {
    title: (n: number) => `${count(n, "field needs", "fields need")} another look`,
    longest: (most: string) => `Must not be more than ${most}.`,
    percent: (most: number) => `Type a number from 0 to ${most}, such as 0.9.`,
    share: "Type a share above 0 and up to 100, such as 80.",
    pressure: (most: string, unit: string) => `Type a pressure from 0 to ${most}, such as ${unit === "psi" ? "80" : "550"}.`,
    choice: "Choose one.",
  },
  stale: {
    title: "Somebody else saved first",
    line: "Nothing of yours was saved yet. What they changed:",
    keep: "Your own changes are kept below, on top of theirs. Look at them again, then save.",
    both: (names: readonly string[]) => `Both of you changed: ${list(names)}. Saving puts yours in place of theirs.`,
  },
  preview: {
    title: "What would change",
    columns: { setting: "Setting", now: "Now", then: "Then" },
    caution: (label: string) => `${label}: this asks for less care than the usual value. Check the local code, and ask who answers for it, before you save.`,
    notSaved: "Nothing is saved yet.",
    reason: "Why (kept in the history)",
    save: "Save",
    saveUnseen: "Save without waiting",
    unseen: "What it would do is not worked out yet. You can wait, or save without knowing.",
    drop: "Drop these changes",
  },
  working: {
    title: "Working out what would change",
    line: (sites: number, rigs: number, stays: number) => `${count(sites, "site", "sites")} with ${count(rigs, "typical rig", "typical rigs")}, and ${count(stays, "stay", "stays")} from today on, each under the settings now and then.`,
    busy: "Too much else is being worked out right now. Load the page again in a moment.",
  },
  effects: {
    stays: "Stays from today on",
    staysNone: (asked: number) => (asked === 0 ? "No stays are booked from today on." : `Nothing changes for the ${count(asked, "stay", "stays")} from today on.`),
    staysSome: (changed: number, asked: number) => `${changed} of ${count(asked, "stay", "stays")} from today on would change.`,
    stayTurns: {
      shut: "Would no longer fit",
      opened: "Would begin to fit",
      "gear-more": "Would have to bring more",
      "gear-less": "Would have to bring less",
      tighter: "Would fit, but be marked tight",
      roomier: "Would no longer be marked tight",
      unclear: "Could not be told for sure",
    } satisfies Record<PolicyTurn, string>,
    kept: "Saving changes no stay. Who is booked stays booked: call them, or give them another site.",
    overridden: "poor fit, taken on purpose",
    anySite: "any site that fits",
    site: (label: string) => `site ${label}`,
    nameless: "No name",
    notWorkedOut: "Not worked out",
    whys: {
      rig: "its rig on record cannot be read",
      site: "its site on record cannot be read",
      failed: "the search failed on this rig and site",
    } satisfies Record<StayUnknown, string>,
    cells: "Typical rigs on every site",
    cellsNone: (asked: string) => `No verdict changes, of ${asked} pairs of a typical rig and a site.`,
    cellsSome: (changed: string, asked: string) => `${changed} of ${asked} pairs of a typical rig and a site would be answered otherwise.`,
    cellTurns: {
      shut: "Newly no",
      opened: "Newly fit",
      "gear-more": "Newly need gear, or more of it",
      "gear-less": "Need less gear",
      tighter: "Newly marked tight",
      roomier: "No longer marked tight",
      unclear: "Could not be told for sure",
    } satisfies Record<PolicyTurn, string>,
    pairs: (n: number) => count(n, "pair", "pairs"),
    onSites: (n: number) => `on ${count(n, "site", "sites")}`,
    cellsUnknown: (n: number) => `${count(n, "pair", "pairs")} could not be worked out and ${n === 1 ? "is" : "are"} left out of the counts.`,
    sitesUnknown: (ids: readonly string[]) => `Left out, as their records cannot be read: ${list(ids)}.`,
    unclearHelp: "The search reached its limit, or it hangs on a measurement.",
    feet: (lengths: readonly number[]) => `${lengths.join(", ")} ft`,
  },
};
