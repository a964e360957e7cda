import { parseLength, type LengthFault, type Units } from "@/lib/measure";
import { typicalLengths, type typicalKinds } from "@/lib/rig/typical";

/** The kinds that a caller's words are told apart by. */
export type CalledKind = (typeof typicalKinds)[number];

/** What somebody on the phone says of a rig: its kind, and its length overall, hitch included, in mm. */
export interface Call {
  readonly kind: CalledKind;
  readonly overall: number;
}

/**
 * What is wrong with a call, as data; `wording` makes the sentence. `kind-vague` a word that may mean several kinds,
 * `kind-two` words for more than one, `length` why the rest is no length, `short` and `long` a length no such rig has.
 */
export type CallFault =
  | { readonly code: "kind-missing" }
  | { readonly code: "kind-vague"; readonly text: string; readonly either: readonly CalledKind[] }
  | { readonly code: "kind-two"; readonly kinds: readonly CalledKind[] }
  | { readonly code: "length"; readonly fault: LengthFault; readonly text: string }
  | { readonly code: "short" | "long"; readonly overall: number };

export type ReadCall = { readonly ok: true; readonly call: Call } | { readonly ok: false; readonly faults: readonly CallFault[] };

/**
 * Reads a kind and a length in either order: "tt 31", "31 ft travel trailer", "class c 28' 6\"", "fw33". A number
 * without a unit counts in feet, or meters where those are the reader's. Tells every fault at once.
 */
export function readCall(text: string, units: Units): ReadCall {
  const { kinds, vague, rest } = takeKinds(text.toLowerCase());
  const faults: CallFault[] = [];
  if (kinds.length > 1) faults.push({ code: "kind-two", kinds });
  else if (kinds.length === 0) faults.push(vague ? { code: "kind-vague", ...vague } : { code: "kind-missing" });
  const length = parseLength(rest, units === "metric" ? "m" : "ft");
  if (!length.ok) faults.push({ code: "length", fault: length.fault, text: rest });
  else if (length.mm < typicalLengths.shortest || length.mm > typicalLengths.longest) faults.push({ code: length.mm < typicalLengths.shortest ? "short" : "long", overall: length.mm });
  return faults.length === 0 && length.ok ? { ok: true, call: { kind: kinds[0]!, overall: length.mm } } : { ok: false, faults };
}

/** The short word for a kind, to type and to see in the help. */
export const shortWords: Readonly<Record<CalledKind, string>> = {
  "travel-trailer": "tt", "fifth-wheel": "fw", "toy-hauler": "th", "folding-trailer": "pu", "class-a": "ca", "class-c": "cc", van: "cb", "truck-camper": "tc",
};

const WORDS: Readonly<Record<CalledKind, readonly string[]>> = {
  "travel-trailer": ["travel trailer", "bumper pull", "tag along", "tagalong", "trailer"],
  "fifth-wheel": ["fifth wheel", "5th wheel", "fifthwheel", "fiver", "5er", "5w"],
  "toy-hauler": ["trailer with a garage", "garage trailer", "toy hauler", "toyhauler"],
  "folding-trailer": ["folding trailer", "tent trailer", "pop up", "popup"],
  "class-a": ["large motorhome", "big motorhome", "diesel pusher", "motor coach", "class a", "coach", "bus"],
  "class-c": ["small motorhome", "class c"],
  van: ["camper van", "campervan", "class b", "van"],
  "truck-camper": ["truck camper", "slide in camper"],
};

/** Words that leave open which kind is meant. */
const VAGUE: Readonly<Record<string, readonly CalledKind[]>> = {
  motorhome: ["class-a", "class-c"], "motor home": ["class-a", "class-c"],
  camper: ["travel-trailer", "van", "truck-camper"], rv: ["travel-trailer", "class-a", "class-c"],
};

/** What people say around a length. */
const FILLERS = /(?<![a-z])(?:an?|the|my|our|is|it|its|it's|with|about|around|long|overall|hitch|included|including|and|of|total)(?![a-z'])/g;

function takeKinds(text: string): { kinds: CalledKind[]; vague: { text: string; either: readonly CalledKind[] } | null; rest: string } {
  const kinds = new Set<CalledKind>();
  // "pop-up" and "31-ft" are written with and without their hyphen; between digits it belongs to a fraction.
  let rest = text.replace(/(?<=[a-z])-(?=[a-z])|(?<=\d)-(?=[a-z])/g, " ").replace(/\s+/g, " ");
  for (const { pattern, kind } of PATTERNS) {
    rest = rest.replace(pattern, () => {
      kinds.add(kind);
      return " ";
    });
  }
  let vague: { text: string; either: readonly CalledKind[] } | null = null;
  for (const [word, either] of Object.entries(VAGUE)) {
    rest = rest.replace(wordPattern(word), () => {
      vague ??= { text: word, either };
      return " ";
    });
  }
  return { kinds: [...kinds], vague, rest: rest.replace(FILLERS, " ").replace(/\s+/g, " ").replace(/^[\s,;:]+|[\s,;:]+$/g, "") };
}

/** Longest first, so that "travel trailer" is not also a trailer; a length may stand right before or after: fw33. */
const PATTERNS = (Object.entries(WORDS) as [CalledKind, readonly string[]][])
  .flatMap(([kind, words]) => [...words, shortWords[kind]].map((word) => ({ word, kind })))
  .sort((a, b) => b.word.length - a.word.length)
  .map(({ word, kind }) => ({ pattern: wordPattern(word), kind }));

function wordPattern(word: string): RegExp {
  return new RegExp(`(?<!${/^\d/.test(word) ? "[a-z\\d.]" : "[a-z]"})${word}s?(?![a-z])`, "g");
}

