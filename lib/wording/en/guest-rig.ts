import type { Rig, RigPart } from "@/lib/rig";
import { cap, count } from "./text";

type Kind = Rig["kind"];
type Side = RigPart["side"];

const SIDES = { left: "driver’s side", right: "door side", rear: "rear wall", front: "front wall" } satisfies Record<Side, string>;

/** What a guest reads while telling about the rig. */
export const guestRig = {
  title: "Your rig",
  first: {
    title: "What do you travel in?",
    lead: "Tap the one that looks most like yours. We check it against every measured site in the park and show you which ones it fits.",
    learn: "How it works",
    scale: "All drawn to one scale.",
    again: "Go on with your last one",
    againLine: "Kept on this device only.",
    forget: "Forget it",
    noPark: "No park is loaded yet. Whoever runs this can load the demo park by starting without --empty.",
  },

  /** What each kind is, for those who do not know its trade word. */
  kinds: {
    van: "One piece, as wide as a delivery van",
    "truck-camper": "A cabin that rides in the bed of a pickup",
    "class-c": "A van’s cab with a bed over it (class C)",
    "class-a": "A flat front like a bus (class A)",
    "class-b": "One piece, as wide as a delivery van (class B)",
    "folding-trailer": "A low box with beds that fold out, a pop-up",
    "travel-trailer": "Hooks to a ball behind the bumper",
    "fifth-wheel": "Its nose rests in the bed of a pickup",
    "toy-hauler": "The rear wall is a ramp, a toy hauler",
  } satisfies Record<Kind, string>,

  steps: {
    size: "Size",
    opens: "What opens",
    hookups: "Hookups",
    party: "Who comes",
  },
  step: (at: number, of: number) => `Step ${at} of ${of}`,
  stepsLabel: "Steps",
  toSites: "See the sites",
  next: (step: string) => `Next: ${step}`,
  skip: "You can skip any step. What you leave empty counts as typical.",
  working: "Looking for a place on every site…",
  otherKind: "Another kind",
  useUnits: { metric: "Use meters", "ft-in": "Use feet and inches" },
  kindLine: (kind: string, length: string) => `${kind}, ${length}`,
  typicalLine: "Typical numbers until you type your own.",
  keptNumbers: "These numbers were measured. Change what is different.",

  typicalMark: "typical, not measured",
  yoursMark: "yours",
  how: "Write 24' 6\", 24 ft 6 in or 24.5.",
  howMetric: "Write 7.5 m, 750 cm or 7.5.",

  within: (whole: string, part: string) => `${cap(whole)}, ${part.charAt(0).toLowerCase()}${part.slice(1)}`,
  summary: {
    title: (n: number) => `${count(n, "number needs", "numbers need")} another look`,
    line: "The sites can be checked once this is put right.",
  },

  size: {
    classes: "Pick the nearest length",
    classesHelp: "The length people call it by, from the coupler to the rear bumper.",
    classesHelpMotor: "The length people call it by, from bumper to bumper.",
    exact: "Or type what you measured",
    bodyEquals: "Overall less hitch leaves a body of",
    bodyUnclear: "not clear yet",
  },

  fields: {
    length: "Length overall",
    hitch: "Hitch",
    width: "Width",
    height: "Height",
    floor: "Ground clearance",
    start: "Rear wall to where it begins",
    end: "Rear wall to where it ends",
    startOnEnd: "Driver’s side to where it begins",
    endOnEnd: "Driver’s side to where it ends",
    depth: "How far it comes out",
    from: "Ground to its underside",
    to: "Ground to its top",
    inletAt: "From the rear wall",
    inletAtOnEnd: "From the driver’s side",
    inletHeight: "Up from the ground",
    powerCord: "Power cord",
    waterHose: "Water hose",
    sewerHose: "Sewer hose",
    liftSide: "Blocks, side to side",
    liftAlong: "Lift, front to back",
    towLength: "Its length",
    turningCircle: "Turning circle",
    wheelbase: "Wheelbase",
    hitchBehind: "Rear axle to the ball",
    adults: "Adults",
    children: "Children",
    pets: "Pets",
    tents: "Tents",
  },
  /** Where to hold the tape, in words beside the drawing. */
  holds: {
    length: "From the tip of the hitch to the rear bumper, ladder and spare wheel included.",
    lengthMotor: "From bumper to bumper, ladder and bike rack included.",
    hitch: "From the tip of the coupler to the front wall.",
    hitchFifth: "How far anything reaches ahead of the nose. Often next to nothing.",
    width: "From wall to wall at the widest, slides in, mirrors folded.",
    height: "From the ground to the highest thing on the roof.",
    floor: "From the ground to the lowest fixed part.",
    start: "Along the wall, to the edge nearer the rear.",
    end: "Along the wall, to the edge nearer the front.",
    startOnEnd: "Along the wall, to the edge nearer the driver’s side.",
    endOnEnd: "Along the wall, to the edge nearer the door side.",
    depth: "From the wall out to its face, when open.",
    from: "When it is open.",
    to: "When it is open.",
    inletAt: "Along the wall to where it plugs in.",
    inletHeight: "From the ground to where it plugs in.",
    powerCord: "End to end, with what you add to it.",
    waterHose: "End to end, all of them together.",
    sewerHose: "Pulled out to its full length.",
    liftSide: "How high your blocks raise one side.",
    liftAlong: "How high the jack or blocks raise one end.",
    towLength: "From bumper to bumper.",
    turningCircle: "Curb to curb, right across: the maker prints it.",
    wheelbase: "From the middle of a front wheel to the middle of the rear one.",
    hitchBehind: "From the middle of the rear wheel back to the ball.",
  },
  tape: (what: string) => `Where to hold the tape: ${what}`,

  sides: SIDES,
  sidesShort: { left: "Driver’s side", right: "Door side", rear: "Rear", front: "Front" } satisfies Record<Side, string>,
  opens: {
    lead: "Is everything on the right side? Tap a part to change it.",
    facing: "Driver’s side and door side as you sit facing forward.",
    drawing: (side: string) => `The ${side} of your rig, with what opens there`,
    rear: "rear",
    front: "front",
    tapHelp: "Choose what, then tap its place on a wall above, or say which wall.",
    kinds: { slide: "Slide", awning: "Awning", bed: "Bed", steps: "Steps", door: "Door", ramp: "Ramp" },
    addTitle: "Missing something?",
    addTo: (side: string) => `Add to the ${side}`,
    wall: (side: string) => cap(side),
    partOn: (name: string, side: string) => (name.toLowerCase().includes(side.toLowerCase()) ? cap(name) : `${cap(name)}, ${side.toLowerCase()}`),
    parts: "What opens on yours",
    none: "Nothing opens on this rig. Add what does.",
    place: (start: string, end: string, deep: string) => `${start} to ${end} from the rear, ${deep} out`,
    placeOnEnd: (deep: string) => `${deep} out`,
    need: "How much it matters",
    needs: { must: "Has to open", nice: "Nice to have open", off: "Stays in" },
    remove: "Take it off",
    removeOf: (name: string) => `Take off the ${name}`,
    staysIn: "stays in",
    notMine: "Mine has none",
  },

  hookups: {
    lead: "Where cord and hoses plug in, and what you carry.",
    wants: "Which hookups do you need?",
    wantsNames: { power: "Power", water: "Water", sewer: "Sewer" },
    where: "Where they plug in",
    inletNames: { power: "Power inlet", water: "Water inlet", sewer: "Sewer outlet" },
    side: "On the",
    noInlet: "There is none",
    at: (side: string, along: string, up: string) => `${side}, ${along} from the rear, ${up} up`,
    atEnd: (side: string, up: string) => `${side}, ${up} up`,
    gear: "What you carry",
    power: "Power",
    plug: "Your cord’s plug",
    plugs: { 50: "50 A (four prongs)", 30: "30 A (three prongs)", 20: "20 A", 15: "15 A, as at home" },
    noPlug: "No cord",
    adapters: "Adapters you own",
    adapter: (plug: string, receptacle: string) => `${plug} A plug into ${receptacle} A socket`,
    regulator: "A water pressure regulator",
    loads: "What has to run on the hookup?",
    load: (name: string) => cap(name),
    loadNeeds: { must: "Has to run", nice: "Nice to have", off: "Stays off" },
    caution: "An adapter does not add power. The smaller number counts, and the breaker decides.",
    blocksCaution: "Chock the wheels before you lift, on firm ground, and mind the maker’s limits.",
  },

  party: {
    lead: "Who and what comes along.",
    people: "How many",
    vehicle: "Your tow vehicle",
    where: "On the site or not?",
    steers: "How your tow vehicle turns, if you know it",
    steersItself: "How your rig turns, if you know it",
    steersHelp: "For the way in alone. We go by what is usual. Where one of these decides, the site’s page asks for it.",
    towed: "Do you tow a car?",
    stays: { "on-site": "It parks on the site", hitched: "It stays hitched", elsewhere: "It parks elsewhere" },
    towedStays: { none: "No car", "on-site": "It parks on the site", hitched: "It stays hitched", elsewhere: "It parks elsewhere" },
    accessible: "We need an accessible site",
    accessibleHelp: "Then only accessible sites count.",
    wishes: "Nice to have",
    wishNames: { "pull-through": "A pull-through", "back-in": "A back-in", shade: "Shade" },
    wishHelp: "Wishes change the order, never the answer.",
  },

  keep: {
    title: "Keep this rig",
    line: "This link holds your rig’s numbers and nothing about you: no name, no account.",
    label: "Link to your rig",
    copy: "Copy the link",
    copied: "Copied",
    failed: "Select it and copy",
    hint: "Send it to yourself, bookmark it, or print this page.",
    remembered: "This device also remembers it, until you tell it to forget.",
  },

  faults: {
    zero: "This has to be more than zero.",
    tooShort: "That leaves less than 3 ft 3 in of body. Check the unit.",
    hitchTooLong: "The hitch cannot be as long as the whole rig.",
    lowerThanFloor: "The height has to be more than the floor’s.",
    span: "It has to end farther from the rear than it begins.",
    spanOnEnd: "It has to end farther from the driver’s side than it begins.",
    upsideDown: "The top has to be above the underside.",
    impossible: "These numbers do not make a rig together. Look at them once more.",
    count: (text: string) => `“${text}” is not a whole number from 0 to 99.`,
    tooLarge(what: string, given: string, most: string): string {
      if (what === "length") return "Nothing that long is towed or driven. Check the unit.";
      if (what === "width") return "Nothing that wide is towed or driven. Check the unit.";
      if (what === "height") return "Nothing that tall is towed or driven. Check the unit.";
      if (what === "start" || what === "end" || what === "inletAt") return `That is past the end of the wall, which is ${most} long.`;
      return `That reads as ${given}. It can be ${most} at most; check the unit.`;
    },
  },
  notes: {
    small(what: string, least: string): string {
      if (what === "height") return `Under ${least} nobody stands up in it. Is this from the ground up?`;
      if (what === "length") return `Rare for this kind: most are over ${least}. Keep it if you measured it.`;
      return `Rare: most are over ${least}. Keep it if you measured it.`;
    },
    large(what: string, most: string): string {
      if (what === "height") return `Most roads take ${most} at most. Keep it if you measured it.`;
      if (what === "length") return `Rare for this kind: most are under ${most}. Keep it if you measured it.`;
      return `Rare: most are under ${most}. Keep it if you measured it.`;
    },
  },
};
