import type { SiteDifference, SitePart } from "@/lib/park";
import type { Numbers } from "../format";
import { cap, count, list } from "./text";

type Cause = "load" | "edit" | "survey" | "import" | "restore" | "copy";

/** Fields of things, as they are called before their numbers. What is not here is called by its own word. */
const fields: Readonly<Record<string, string>> = {
  at: "Where it stands", outline: "Outline", surface: "Surface", kind: "Kind", radius: "Across", from: "Begins at", to: "Reaches up to",
  trunkRadius: "Trunk across", crownRadius: "Limbs reach out", crownFrom: "Limbs begin at", crownTo: "Top", removable: "May be taken away",
  height: "Height above the ground", groundZ: "Ground there, from the entry edge", postRadius: "Post across", postHeight: "Post’s height", receptacles: "Receptacles", volts: "Volts", pressure: "Water pressure",
  along: "Along", across: "Across", heights: "Spot heights", road: "Road in front", exitRoad: "Road at the far end", driveable: "Ground to drive on", heightLimits: "Height limits", gradeBreaks: "Breaks in the grade",
  maxLength: "Longest rig", maxGuests: "Guests", maxVehicles: "Vehicles", pets: "Pets", tents: "Tents", accessible: "Accessible", bearing: "Heads", east: "East on the map", north: "North on the map",
  of: "What it gives", how: "How", error: "Give or take", on: "Measured on", by: "By", again: "Look again by", readings: "Readings",
};

const parts: Readonly<Record<Exclude<SitePart, "obstacles" | "hookups" | "other">, string>> = {
  label: "What the post says", loop: "Loop", entry: "Entry", enterFrom: "Entered from", pad: "Pad", lot: "Lot", roadEdge: "Road edge", exitEdge: "Road edge at the far end",
  place: "Place on the map", ground: "Ground", approach: "Way in", parking: "Parking stall", rules: "Rules", survey: "How it was measured",
};

/** Changes of sites: before they are saved, and afterward. */
export const siteChanges = {
  causes: { load: "Loaded with the park", edit: "Edited", survey: "Measured", import: "Imported", restore: "An earlier record restored", copy: "Copied from another site" } satisfies Record<Cause, string>,
  parts,
  note: (name: string) => `Note “${name}”`,
  field: (name: string) => fields[name] ?? cap(name.replace(/([A-Z])/g, " $1").toLowerCase()),
  doubled: new Set(["radius", "trunkRadius", "postRadius"]),
  none: "nothing on record",
  gone: "taken away",
  isNew: "not there",
  there: "on record",
  before: "as it was",
  after: "changed",
  yes: "yes",
  no: "no",
  amps: (all: readonly number[]) => (all.length === 0 ? "none works" : list(all.map((a) => `${a} A`))),
  volts: (v: number) => `${v} V`,
  spots: (n: number) => count(n, "spot height", "spot heights"),
  entries: (n: number) => `${n} on record`,
  map: (value: number) => `${(value / 1000).toFixed(2)} m`,
  degrees: (value: number) => `${Math.round(value * 10) / 10}°`,
  entry: { "back-in": "back-in", "pull-through": "pull-through" },
  ring: ({ along, across, corners }: { along: number; across: number; corners: number }, n: Numbers) => `${n.measured(along)} by ${n.measured(across)}, ${count(corners, "corner", "corners")}`,
  /** How far a thing was moved, after where it is now. */
  moved: ({ into, left }: { into: number; left: number }, n: Numbers) => {
    const ways = [Math.abs(into) >= 5 ? `${n.measured(Math.abs(into))} ${into > 0 ? "farther in" : "toward the road"}` : "", Math.abs(left) >= 5 ? `${n.measured(Math.abs(left))} to the ${left > 0 ? "left" : "right"}` : ""].filter(Boolean);
    return ways.length === 0 ? "" : `Moved ${list(ways)}.`;
  },
  cornerMoved: (mm: number, n: Numbers) => `A corner moved by up to ${n.measured(mm)}.`,
  measurements: (added: number, removed: number, changed: number) => cap(list([added > 0 ? `${added} added` : "", changed > 0 ? `${changed} done again` : "", removed > 0 ? `${removed} taken out` : ""].filter(Boolean))),
  how: { added: "new", removed: "taken away", changed: "changed" } satisfies Record<SiteDifference["how"], string>,

  table: { caption: "What changes", what: "What", before: "Now", after: "Then", was: "Before", is: "After" },
  plans: { title: "The plan, before and after", now: "As it is now", then: "As it would be", revision: (number: number) => `Revision ${number}`, marks: "Marked with a heavy dashed line: what differs." , noPlan: "No plan: the site is not there on this side." },

  change: {
    title: (label: string) => `Site ${label}: look before you save`,
    newTitle: (label: string) => `New site ${label}: look before you save`,
    retireTitle: (label: string) => `Take site ${label} out of use`,
    lead: "Nothing is saved yet. This is what would change, and what it means for the stays that are booked.",
    retireLead: "Nothing is saved yet. Once out of use, nobody can book the site and it is in no list. Its past stays and its history can still be read, and you can bring it back.",
    back: (label: string) => `Site ${label}`,
    gone: "This change is not here any more. It was saved, given up, or is older than 30 days.",
    goneLink: "All sites",
    same: "Nothing is changed. The site already is as this change has it.",
    cause: (cause: Cause, who: string, when: string) => `${{ load: "Loaded", edit: "Edited", survey: "Measured", import: "Imported", restore: "An earlier record, chosen", copy: "Copied" }[cause]} by ${who}, ${when}.`,
    newSite: "A new site. It comes last in the park’s order.",
    comesBack: "The site is out of use now. Saving this brings it back.",
    faults: (n: number) => `${count(n, "thing is", "things are")} wrong with this record. Go back and put ${n === 1 ? "it" : "them"} right; it cannot be saved like this.`,
    edit: "Go on editing",
    why: "Why (kept with the change, for whoever looks it up later)",
    whyHint: "Such as: limb trimmed, pedestal replaced, pad measured again after the flood.",
    save: "Save this change",
    saveNew: "Save the new site",
    retire: "Take it out of use",
    saveUnseen: "Save without waiting",
    drop: "Give this change up",
    seen: "Nothing is saved yet.",
    unseen: "What it means for stays is not worked out yet. You can wait, or save without knowing: the desk is told afterward either way.",
    careful: "The numbers decide where people park under limbs and wires and beside power posts. Check what you did not measure yourself before you save.",
    saved: (number: number) => `Saved as revision ${number}.`,
    dropped: "The change was given up. Nothing was saved.",
    inUse: { title: "It cannot be taken out of use yet", line: (stays: number, closures: number) => `${cap(list([stays > 0 ? count(stays, "stay is", "stays are") : "", closures > 0 ? count(closures, "closure is", "closures are") : ""].filter(Boolean)))} still on it. Move ${stays > 0 ? "the stays" : "nothing"}${closures > 0 ? `${stays > 0 ? " and lift" : ": lift"} the closures` : ""} first.`.replace("Move nothing: lift", "Lift") },
    wentStale: "Somebody else saved this site first. Nothing of yours was saved.",
  },

  stale: {
    title: "Somebody changed this site after you began",
    line: "Nothing of yours is lost, and nothing is saved. What they changed:",
    both: (n: number) => n === 1 ? "You both changed one thing. Choose whose to keep." : `You both changed ${n} things. Choose for each whose to keep.`,
    apart: "You changed different things. Both changes can be kept together.",
    alike: "All that you changed, they have changed to the same.",
    yours: "What you changed and they did not, is kept:",
    mine: "Mine",
    theirs: "Theirs",
    was: "It was",
    choose: (name: string) => `${name}: which to keep`,
    chooseFirst: "Choose one for each thing that you both changed.",
    merge: "Put the two together and look again",
    retired: "They took the site out of use. If you go on, your record brings it back.",
    goOn: "Go on with mine",
    unreadable: "One of the records cannot be read by this version, so the two cannot be put together. Begin again from the site as it is now.",
  },

  effects: {
    title: "Stays from today on",
    none: (asked: number) => (asked === 0 ? "No stay from today on stands on this site or waits for any site." : `Nothing changes for the ${count(asked, "stay", "stays")} from today on that stand on this site or wait for any site.`),
    some: (changed: number, asked: number) => `${changed} of ${count(asked, "stay", "stays")} from today on would change.`,
    desk: "Saving moves nobody. Stays that no longer fit are listed for the desk, until they are moved or somebody has seen them.",
    working: "Working out what it means for the stays",
    done: "{done} of {total} stays looked at",
    verdicts: (was: string, now: string) => `${was} before, ${now.charAt(0).toLowerCase()}${now.slice(1)} then.`,
  },

  history: {
    title: (label: string) => `History of site ${label}`,
    lead: "Every record this site ever had, the latest first. Two of them can be compared, and an earlier one restored.",
    link: "History of this site",
    list: "Revisions",
    saved: (number: number) => `Saved as revision ${number}.`,
    savedNothing: "Saved. The site was already so.",
    retired: "This site is out of use.",
    number: (n: number) => `Revision ${n}`,
    now: "now",
    by: (who: string | null, by: "guest" | "desk" | "manager" | "clock") => who ?? (by === "clock" ? "by itself" : by),
    line: (cause: string, who: string | null, when: string) => `${cause}${who ? ` by ${who}` : ""}, ${when}`,
    first: "The first record.",
    taken: "Taken out of use.",
    back: "Brought back into use.",
    unreadable: "This record cannot be read by this version.",
    nothing: "Nothing that is read of it changed.",
    more: (n: number) => `and ${count(n, "more change", "more changes")}`,
    compare: "Compare",
    older: "Older",
    newer: "Newer",
    pick: (n: number) => `Revision ${n}`,
    withBefore: "What changed",
    compared: (from: number, to: number) => `Revision ${from} and revision ${to}`,
    same: "The two say the same.",
    restore: (n: number) => `Restore revision ${n}…`,
    restoreHint: "You see first what it would change.",
    retire: "Take this site out of use…",
    retireHint: "Out of use, nobody can book it. Its past stays stay readable.",
    edit: "Edit the site",
    oldest: (n: number) => `Only the last ${n} are shown.`,
  },

  desk: {
    title: "A site changed: these stays no longer fit",
    line: (site: string, was: string, now: string) => `Site ${site}. Before the change: ${was.charAt(0).toLowerCase()}${was.slice(1)}. Now: ${now.charAt(0).toLowerCase()}${now.slice(1)}.`,
    changed: (who: string | null, when: string, why: string | null) => `Changed ${when}${who ? ` by ${who}` : ""}${why ? `: ${why}` : ""}.`.replace(/([.!?])\.$/, "$1"),
    move: "Give another site",
    seen: "Seen",
    seenOf: (name: string) => `: ${name}`,
    nameless: "No name",
    onStay: "The site changed after this was booked",
  },
};
