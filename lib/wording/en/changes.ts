import type { Change } from "@/lib/fit/types";
import type { Numbers } from "../format";
import type { Thing } from "../things";
import { cap } from "./text";
import { things } from "./things";

const RULES: Readonly<Record<string, string>> = {
  "rule:maxLength": "Let the rig stand here though it is longer than the site’s limit, by the park’s leave.",
  "rule:maxGuests": "Let the party stay though it is larger than the site’s limit, by the park’s leave.",
  "rule:maxVehicles": "Let one vehicle more stand here, by the park’s leave.",
  "rule:pets": "Let the pets stay, by the park’s leave.",
  "rule:tents": "Let the tents be pitched here, by the park’s leave.",
  "rule:accessible": "Give up keeping the site for guests who need an accessible one, by the park’s leave.",
};

/** What a person would do, from the road looking in; lengths rounded so that the change is never too small. */
export function change(it: Change, named: Thing | null, n: Numbers): string {
  const what = named ? things.full(named) : "it";
  switch (it.code) {
    case "remove": return named?.type === "obstacle" && named.obstacle.kind === "tree" ? `Take down ${what}.` : `Take ${what} away.`;
    case "trim": return `Cut the limbs of ${what} that begin below ${n.lacking(it.amount)}.`;
    case "move": return `Move ${what} ${way(it.by, n)}, looking in from the road.`;
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
    case "enter-from-either": return "Let the rig come in from the far end, by the park’s leave.";
  }
}

export function together(sentences: readonly string[]): string {
  return sentences.map((text, i) => (i === 0 ? text : cap(`and also: ${text.charAt(0).toLowerCase()}${text.slice(1)}`))).join(" ");
}

/** Less than this sideways is no direction of its own, mm. */
const STRAIGHT = 5;

function way([dx, dy]: readonly [number, number], n: Numbers): string {
  const parts = [
    ...(Math.abs(dx) > STRAIGHT ? [`${n.lacking(Math.abs(dx))} ${dx > 0 ? "away from the road" : "toward the road"}`] : []),
    ...(Math.abs(dy) > STRAIGHT ? [`${n.lacking(Math.abs(dy))} to the ${dy > 0 ? "left" : "right"}`] : []),
  ];
  return parts.join(" and ");
}

function spot([x, y]: readonly [number, number], n: Numbers): string {
  const side = Math.abs(y) > STRAIGHT ? `, ${n.measured(Math.abs(y))} to the ${y > 0 ? "left" : "right"} of the pad’s middle line` : ", on the pad’s middle line";
  return `${n.measured(Math.abs(x))} ${x >= 0 ? "in from" : "before"} the pad’s entry edge${side}`;
}
