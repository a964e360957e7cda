import type { Verdict } from "@/lib/fit/types";
import type { Thing } from "../things";
import { cap } from "./text";
import { things } from "./things";

const BODY: Readonly<Record<string, string>> = {
  length: "the body from its rear wall to its front wall, without the hitch",
  width: "the body from wall to wall, with the slides in",
  height: "from the ground to the highest thing on the roof",
  floor: "from the ground to the lowest fixed part of the rig",
};

const GEAR: Readonly<Record<string, string>> = {
  powerCord: "the power cord, with what you would add to it",
  waterHose: "the water hose",
  sewerHose: "the sewer hose",
  liftSide: "how high your blocks lift one side",
  liftAlong: "how high your jack or blocks lift one end",
};

const TOW: Readonly<Record<string, string>> = { length: "from bumper to bumper", width: "from mirror to mirror", height: "from the ground to the roof" };

const PART: Readonly<Record<string, string>> = {
  0: "from the rear wall forward to where it begins",
  1: "from the rear wall forward to where it ends",
  depth: "how far it reaches out from the wall",
  from: "from the ground to its underside",
  to: "from the ground to its top",
  "span.0": "from the rear wall forward to where it begins",
  "span.1": "from the rear wall forward to where it ends",
};

const OBSTACLE: Readonly<Record<string, string>> = {
  crownFrom: "from the ground to its lowest limb",
  crownTo: "from the ground to its top",
  crownRadius: "from the trunk to the end of its longest limb",
  trunkRadius: "its trunk: the girth, divided by six and a quarter",
  radius: "half of its width",
  from: "from the ground to its underside",
  to: "from the ground to its top",
};

const OUTLETS: Readonly<Record<string, string>> = { power: "power inlet", water: "water inlet", sewer: "sewer outlet" };

/** What to measure, and from where to where. `last` is the last word of the field, `named` what it belongs to. */
export const measure = {
  body: (last: string) => BODY[last] ?? "the body",
  hitch: () => "from the front wall to the middle of the coupler",
  gear: (last: string) => GEAR[last] ?? "your gear",
  tow: (last: string, named: Thing) => `${things.full(named)} ${TOW[last] ?? ""}`.trim(),
  part: (number: string, named: Thing) => `${things.full(named)}: ${PART[number] ?? "its place"}`,
  obstacle: (last: string, named: Thing) => `${things.full(named)}: ${OBSTACLE[last] ?? "its size"}`,
  hookup: (named: Thing) => `${things.full(named)}: its height above the ground`,
  inlet: (last: string, kind: string) => {
    const outlet = OUTLETS[kind] ?? "inlet";
    if (last === "u") return `from the rear wall forward to your ${outlet}`;
    return last === "v" ? `from the middle of the wall sideways to your ${outlet}` : `from the ground up to your ${outlet}`;
  },
  load: (name: string) => `what ${name} draws: its label says`,
  slope: (last: string) => (last === "along" ? "the pad’s slope from the road inward" : "the pad’s slope from side to side"),
  other: (field: string) => field,
};

const OUTCOMES: Readonly<Record<Verdict, string>> = {
  fits: "it fits", gear: "it fits with extra gear", no: "it does not fit", ask: "it hangs on something else", unsettled: "it is not settled",
};

/** "Measure from the rear wall forward to your sewer outlet. Under 9 ft 2 in it fits; above, it does not fit." */
export function ask(what: string, value: string, below: Verdict, above: Verdict): string {
  return `Measure ${what}. ${cap(`under ${value} ${OUTCOMES[below]}; above, ${OUTCOMES[above]}.`)}`;
}
