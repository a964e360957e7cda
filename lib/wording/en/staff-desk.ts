import { lengthFault } from "./verdicts";
import { things } from "./things";
import { count, list } from "./text";
import type { LengthFault, Units } from "@/lib/measure";
import type { Rig } from "@/lib/rig";
import type { Numbers } from "../format";

type Kind = Rig["kind"];

/** What is wrong with what a clerk typed: as the desk's reader of calls tells it. */
type Fault =
  | { readonly code: "kind-missing" }
  | { readonly code: "kind-vague"; readonly text: string; readonly either: readonly Kind[] }
  | { readonly code: "kind-two"; readonly kinds: readonly Kind[] }
  | { readonly code: "length"; readonly fault: LengthFault; readonly text: string }
  | { readonly code: "short" | "long"; readonly overall: number };

interface Effect {
  readonly answer: boolean;
  readonly lost: number;
  readonly gained: number;
  readonly moreGear: number;
  readonly lessGear: number;
}

type Question = "accessible" | "hookups" | "sewer" | "plug-50" | "left-slide" | "right-slide" | "tall" | "vehicle" | "pets";

/** What a question is about: the rig that is taken until it is answered. */
interface About {
  readonly motorized: boolean;
  readonly height: number;
  readonly tallerBy: number;
}

/** The quick check for a caller on the phone. */
export const staffDesk = {
  title: "Desk",
  heading: "A caller on the phone",
  lead: "Type the kind and the length they give, press Enter.",
  field: "Kind and length",
  example: (units: Units) => (units === "metric" ? "tt 9.4" : "tt 31"),
  hint: "The length people quote counts the hitch, and so does this.",
  kinds: "Short words",
  loop: "Loop",
  anyLoop: "All loops",
  loopName: (id: string, name: string | undefined) => (name ? `${id}, ${name}` : id),
  submit: "Check",
  choose: "Choose from lists instead",
  kind: "Kind",
  length: "Length overall",
  slow: "Still working it out…",
  keys: "Keys: y and n answer the question in focus, the arrows go up and down, Esc goes back to the field.",

  fault: (fault: Fault, short: (kind: Kind) => string, units: Units, n: Numbers) => {
    const named = (kinds: readonly Kind[], word: string) => list(kinds.map((kind) => `${things.rigKinds[kind].toLowerCase()} (${short(kind)})`), word);
    switch (fault.code) {
      case "kind-missing": return "Which kind of rig? Put its short word or its name beside the length, such as tt or fifth wheel.";
      case "kind-vague": return `“${fault.text}” may mean ${named(fault.either, "or")}. Ask which.`;
      case "kind-two": return `That names ${fault.kinds.length} kinds: ${named(fault.kinds, "and")}. Keep one.`;
      case "length": return fault.fault === "empty" ? "How long is it, hitch included? Put the length beside the kind." : lengthFault(fault.fault, fault.text, units);
      case "short": return `${n.measured(fault.overall)} is shorter than any rig. Check the length and its unit.`;
      case "long": return `${n.measured(fault.overall)} is longer than any rig.${units === "metric" ? " If feet were meant, write ft." : " Check the length and its unit."}`;
    }
  },

  rig: (kind: Kind, length: string) => `${things.rigKinds[kind]}, ${length} overall`,
  answer: (fits: number, gear: number, no: number, open: number) =>
    `${fits === 0 ? "No site fits" : `${count(fits, "site fits", "sites fit")}`} as it is. ${gear === 0 ? "None" : gear} more with gear to bring. ${no === 0 ? "None" : no} ${no === 1 ? "does" : "do"} not fit.${open > 0 ? ` ${open} not settled.` : ""}`,
  inLoop: (id: string) => `In loop ${id}.`,
  taken: "What is not asked yet counts as usual for such a rig.",

  ask: "Ask the caller",
  askLead: "What would change the most comes first.",
  asking: "Working out what else to ask. It takes longer than usual.",
  stopped: "This could not be worked out in the time allowed. Try again in a moment.",
  nothingToAsk: "No other answer would change anything.",
  question: (id: Question, { motorized, height, tallerBy }: About, n: Numbers): string => {
    switch (id) {
      case "accessible": return "Do they need an accessible site?";
      case "hookups": return "Do they need hookups at all?";
      case "sewer": return "Do they need a sewer drain at the site?";
      case "plug-50": return "Is its plug a 50 A one?";
      case "left-slide": return "Does it have a slide on the road side (left, facing forward)?";
      case "right-slide": return "Does it have a slide on the curb side (right, the door side)?";
      case "tall": return `Is it taller than ${n.measured(height)}, with everything on the roof? It then counts as ${n.measured(height + tallerBy)}.`;
      case "vehicle": return motorized ? "Do they tow a car, to be parked on the site?" : "Will the tow vehicle be parked on the site?";
      case "pets": return "Do they bring a pet?";
    }
  },
  effect: ({ answer, lost, gained, moreGear, lessGear }: Effect) => {
    const changes = [
      ...(lost > 0 ? [`${lost} fewer ${lost === 1 ? "site" : "sites"}`] : []),
      ...(gained > 0 ? [`${gained} more ${gained === 1 ? "site" : "sites"}`] : []),
      ...(moreGear > 0 ? [`${moreGear} that then ${moreGear === 1 ? "needs" : "need"} gear brought`] : []),
      ...(lessGear > 0 ? [`${lessGear} that then ${lessGear === 1 ? "needs" : "need"} none brought`] : []),
    ];
    return `${answer ? "If so" : "If not"}, ${list(changes)}.`;
  },
  same: (questions: readonly string[]) => `Changes nothing here: ${questions.join(" ")}`,
  yes: "Yes",
  no: "No",
  answerTo: (answer: boolean, question: string) => `${answer ? "Yes" : "No"}: ${question}`,
  answered: "Answered",
  takeBack: "Take back",
  takeBackOf: (question: string) => `Take back the answer to: ${question}`,

  best: "Best first",
  more: (n: number) => `${n} more that fit`,
  refused: (n: number) => `Why ${count(n, "site does", "sites do")} not`,
  none: "None of these sites takes it.",
  planOf: (label: string) => `Plan of site ${label}`,
  backToCall: "Back to the caller",
  bring: "Bring",
  why: "Why",
  remedies: "What would change it",
  typical: "With typical numbers for its kind and length. The guest should measure before they rely on it.",
};
