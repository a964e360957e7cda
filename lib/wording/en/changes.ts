import type { Change } from "@/lib/fit/types";
import type { Numbers } from "../format";
import type { Thing } from "../things";
import { list } from "./text";
import { things } from "./things";

const RULES: Readonly<Record<string, string>> = {
  "rule:maxLength": "Let the rig stand here though it is longer than the site’s limit, by the park’s leave.",
  "rule:maxGuests": "Let the party stay though it is larger than the site’s limit, by the park’s leave.",
  "rule:maxVehicles": "Let one vehicle more stand here, by the park’s leave.",
  "rule:pets": "Let the pets stay, by the park’s leave.",
  "rule:tents": "Let the tents be pitched here, by the park’s leave.",
};

/** What a person would do, from the road looking in; lengths rounded so that the change is never too small. */
export function change(it: Change, named: Thing | null, n: Numbers): string {
  const what = named ? things.full(named) : "it";
  switch (it.code) {
    case "remove": return named?.type === "obstacle" && named.obstacle.kind === "tree" ? `Take down ${what}.` : `Take ${what} away.`;
    case "trim": return `Trim ${what}: no limbs below ${n.lacking(it.amount)}.`;
    case "move": return `Move ${what} ${way(it.by, n)}.`;
    case "lengthen": return `Make the pad ${n.lacking(it.amount)} longer at the end away from the road.`;
    case "widen-left": return `Make the pad ${n.lacking(it.amount)} wider on the left, looking in from the road.`;
    case "widen-right": return `Make the pad ${n.lacking(it.amount)} wider on the right, looking in from the road.`;
    case "add-receptacle": return `Have a ${it.amount} A receptacle fitted at ${what} by a licensed electrician.`;
    case "add-hookup": return `Put in a ${things.services[it.what]} hookup ${spot(it.at, n)}.`;
    case "level": return "Level the pad.";
    case "waive": return RULES[it.what] ?? `Set the rule aside by the park’s leave (${it.what}).`;
    case "leave-in": return `Leave ${what} in.`;
    case "do-without": return `Do without ${things.services[it.what]} for the stay.`;
    case "park-elsewhere": return `Park ${what} somewhere else.`;
    case "enter-from-either": return "Let the rig come in from the far end and face the other way, by the park’s leave.";
    case "allow-run": return `Let a ${RUNS[it.what]} run ${n.lacking(it.amount)} in all, by the park’s leave.`;
    case "allow-lift": return `Let the rig be raised ${n.lacking(it.amount)} ${it.what === "side" ? "side to side" : "front to back"}, by the park’s leave and as far as its maker allows.`;
  }
}

/** Two changes that only do it together, as one sentence; and what is to be brought besides. */
export function together(sentences: readonly string[], bring: readonly string[]): string {
  const bare = sentences.map((text) => small(text.replace(/\.$/, "")));
  const changes = bare.length === 1 ? sentences[0]! : `Both together: ${bare.join("; and ")}.`;
  return bring.length === 0 ? changes : `${changes} You would also bring ${list(bring.map((text) => small(text.replace(/ \(yours: [^)]*\)/, "").replace(/\.$/, ""))))}.`;
}

/** For pages that tell whose job a change is. */
export const remedyWords = {
  guest: "You could",
  park: "The park could",
  none: "No one change here, nor any two together, would make a place for this rig.",
};

const RUNS = { power: "power cord", water: "water hose", sewer: "sewer hose" } as const;

function small(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** Less than this sideways is no direction of its own, mm. */
const STRAIGHT = 5;

function way([dx, dy]: readonly [number, number], n: Numbers): string {
  const parts = [
    ...(Math.abs(dx) > STRAIGHT ? [`${n.lacking(Math.abs(dx))} ${dx > 0 ? "away from the road" : "toward the road"}`] : []),
    ...(Math.abs(dy) > STRAIGHT ? [`${n.lacking(Math.abs(dy))} to the ${dy > 0 ? "left" : "right"}`] : []),
  ];
  return `${parts.join(" and ")}${Math.abs(dy) > STRAIGHT ? ", looking in from the road" : ""}`;
}

function spot([x, y]: readonly [number, number], n: Numbers): string {
  const side = Math.abs(y) > STRAIGHT ? `, ${n.measured(Math.abs(y))} to the ${y > 0 ? "left" : "right"} of its centerline` : ", on its centerline";
  return `${n.measured(Math.abs(x))} ${x >= 0 ? "past" : "before"} the pad’s entry edge${side}`;
}
