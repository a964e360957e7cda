import type { Bring, Verdict } from "@/lib/fit/types";
import type { LengthFault, Units } from "@/lib/measure";
import type { Numbers } from "../format";
import { adapterName } from "./reasons";

export const verdicts: Record<Verdict, { label: string; line: string; group: string }> = {
  fits: { label: "Fits", line: "There is a place for it with what you have.", group: "Sites that fit" },
  gear: { label: "Fits with extra gear", line: "There is a place for it if you bring what is listed, such as a longer hose or more blocks.", group: "Sites that fit with extra gear" },
  ask: { label: "One measurement missing", line: "A measurement that nobody has taken yet decides it.", group: "Sites waiting for one measurement" },
  unsettled: { label: "Not settled", line: "The search reached its limit: neither a yes nor a no.", group: "Sites not settled" },
  no: { label: "Does not fit", line: "There is no place on the site where everything holds. The answer says what stands against it.", group: "Sites that do not fit" },
};

export const tightWord = "tight";

/** What the guest has besides, in mm, so that a sentence can tell how much more it takes. */
export type Have = Record<Bring["code"], number>;

export function bring({ code, amount, what }: Bring, have: Have, n: Numbers): string {
  const size = amount === null ? "" : n.lacking(amount);
  const own = have[code] > 0 ? ` (yours: ${n.spare(have[code])})` : "";
  switch (code) {
    case "cord": return `A power cord at least ${size} long${own}.`;
    case "hose": return `A drinking-water hose at least ${size} long${own}.`;
    case "sewer-hose": return `A sewer hose at least ${size} long${own}.`;
    case "adapter": return `${adapterName(what ?? "").replace(/^a /, "A ")}.`;
    case "regulator": return "A water pressure regulator.";
    case "lift-side": return `Blocks for ${size} of lift side to side${own}.`;
    case "lift-along": return `Lift of ${size} front to back, with jack or blocks${own}.`;
  }
}

/** Shown wherever a verdict is: what it does not decide. */
export const cautions = [
  "This is advice from measurements, not a promise. The person on the ground decides, and looks up, down and behind before the rig moves.",
  "Trees grow, limbs sag, posts get moved. Whatever was measured some time ago may have changed.",
  "Electrical supply, wires overhead, water, sewage and fire follow local code and the park’s own rules. Ask where you are not sure.",
  "Sizes of your rig count as you give them. Measure with everything on the roof, and with slides and awning out.",
];

export function lengthFault(fault: LengthFault, text: string, units: Units): string {
  const example = units === "metric" ? "7.5 m or 750 cm" : "24 ft 6 in or 24.5";
  switch (fault) {
    case "empty": return `Type a length, such as ${example}.`;
    case "unreadable": return `“${text}” cannot be read as a length. Write it like ${example}.`;
    case "negative": return "A length cannot be less than zero.";
    case "mixed": return `“${text}” mixes feet or inches with meters. Use one of the two.`;
    case "order": return `“${text}” has its units in an order that cannot be read. Write the larger unit first, such as ${example}.`;
    case "part-fraction": return `“${text}” has a fraction before a smaller unit. Write it like ${example}.`;
    case "carry": return units === "metric" ? `In “${text}” the smaller unit is a whole larger one or more.` : `In “${text}” the inches come to a foot or more.`;
    case "comma": return `The comma in “${text}” could mean thousands or a decimal. Write it without.`;
    case "too-long": return `“${text}” is longer than any campsite. Check the unit.`;
  }
}
