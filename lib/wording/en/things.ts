import type { Hookup } from "@/lib/park";
import type { Rig, RigPart } from "@/lib/rig";
import type { Thing } from "../things";

/** What kinds of parts are called. A kind that is not here is called by its own word. */
const PART_NOUNS: Record<string, string> = { slide: "slide", awning: "awning", entry: "door", bed: "bed", ramp: "ramp", steps: "steps", door: "door" };

const HOOKUP_NOUNS: Record<Hookup["kind"], string> = { power: "power pedestal", water: "water tap", sewer: "sewer drain", "rinse-water": "rinse-water tap" };

/** What is short enough to stand beside a mark on the drawing. */
const HOOKUP_LABELS: Record<Hookup["kind"], string> = { power: "power", water: "water", sewer: "sewer", "rinse-water": "rinse only" };

export const things = {
  /** As it stands in a sentence: "the lounge slide", "the oak". */
  full(thing: Thing): string {
    const name = nameOf(thing);
    return thing.type === "other" ? name : withArticle(name);
  },

  theLoad: (id: string) => withArticle(things.load(id)),

  /** As it stands on the drawing: "lounge slide", "oak". */
  label(thing: Thing): string {
    if (thing.type === "hookup") return HOOKUP_LABELS[thing.hookup.kind];
    if (thing.type === "obstacle") return labelOfObstacle(thing.obstacle.id, thing.obstacle.kind);
    if (thing.type === "stall") return "parking";
    return nameOf(thing);
  },

  rigKinds: {
    "travel-trailer": "Travel trailer",
    "fifth-wheel": "Fifth wheel",
    "folding-trailer": "Folding trailer",
    "toy-hauler": "Trailer with a garage",
    "class-a": "Large motorhome",
    "class-b": "Camper van",
    "class-c": "Small motorhome",
    van: "Van",
    "truck-camper": "Truck camper",
  } satisfies Record<Rig["kind"], string>,

  sides: { left: "road side", right: "curb side", rear: "rear", front: "front" } satisfies Record<RigPart["side"], string>,
  services: { power: "power", water: "water", sewer: "sewer" },
  hookups: HOOKUP_NOUNS,

  load(id: string): string {
    return plain(id).replace(/\b(air|ac)\b(?! conditioner)/, "air conditioner").replace(/\bfridge\b/, "refrigerator");
  },
};

/** What carries a number is a name: "tree 3", but "the oak". */
function withArticle(name: string): string {
  return /\d( \(|$)/.test(name) ? name : `the ${name}`;
}

function nameOf(thing: Thing): string {
  switch (thing.type) {
    case "rig": return "rig";
    case "ground": return "ground";
    case "body": return "rig’s body";
    case "hitch": return "hitch";
    case "supports": return "tires and jacks";
    case "pad": return "edge of the pad";
    case "road": return "road edge";
    case "lot": return "edge of the site";
    case "vehicle": return thing.towed ? "towed car" : "tow vehicle";
    case "part": return nameOfPart(thing.part);
    case "obstacle": return nameOfObstacle(thing.obstacle.id, thing.obstacle.kind);
    case "hookup": return thing.alone ? HOOKUP_NOUNS[thing.hookup.kind] : `${HOOKUP_NOUNS[thing.hookup.kind]} ${plain(thing.hookup.id)}`;
    case "stall": return thing.alone ? "parking stall" : `parking stall ${plain(thing.id)}`;
    case "service": return `${thing.service} hookup`;
    case "other": return plain(thing.id);
  }
}

function nameOfPart({ id, kind }: RigPart): string {
  const noun = PART_NOUNS[kind] ?? plain(kind);
  const { base, number } = split(id);
  if (base === noun || base === plain(kind) || base.endsWith(` ${noun}`)) return [base === plain(kind) ? noun : base, number].filter(Boolean).join(" ");
  if (kind === "entry") return plain(id).includes("step") ? plain(id) : `${plain(id)} door`;
  return `${plain(id)} ${noun}`;
}

/** Everybody knows these for trees. */
const TREES = new Set(["alder", "ash", "aspen", "beech", "birch", "cedar", "cherry", "apple", "elm", "fir", "hawthorn", "hemlock", "hickory", "juniper", "larch", "linden", "locust", "maple", "oak", "pine", "poplar", "redwood", "spruce", "sycamore", "walnut", "willow"]);

/** "oak", "snag (tree)", "tree 3", "fire ring", "rock r7". */
function nameOfObstacle(id: string, kind: string): string {
  const { base } = split(id);
  const noun = plain(kind);
  if (base === noun || base.endsWith(` ${noun}`)) return plain(id);
  if (`${noun} `.startsWith(`${base} `) || noun.endsWith(` ${base}`)) return noun; // "fire" for a fire ring
  if (kind === "tree" && base.split(" ").some((word) => TREES.has(word))) return plain(id);
  return isWord(base) ? `${plain(id)} (${noun})` : `${noun} ${plain(id)}`;
}

function labelOfObstacle(id: string, kind: string): string {
  const { base } = split(id);
  const noun = plain(kind);
  if (`${noun} `.startsWith(`${base} `) || noun.endsWith(` ${base}`)) return noun;
  return isWord(base) ? plain(id) : noun;
}

/** "r" or "t" before a number is a surveyor's short mark, not a name. */
function isWord(base: string): boolean {
  return /[a-z]{3}/i.test(base);
}

function split(id: string): { base: string; number: string } {
  const match = /^(.*?)[\s_-]*(\d+)$/.exec(plain(id));
  return match?.[1] ? { base: match[1].trim(), number: match[2]! } : { base: plain(id), number: "" };
}

function plain(id: string): string {
  return id.replace(/[_-]+/g, " ").trim();
}
