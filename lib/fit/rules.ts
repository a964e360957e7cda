import type { Site } from "@/lib/park";
import { isMotorized, overallLength, type Rig } from "@/lib/rig";
import type { Policy } from "./policy";
import type { Reason } from "./types";

/** The park's rules that this rig and party break, whatever the pose. Empty where all are met. */
export function brokenRules(site: Site, rig: Rig, policy: Policy): Reason[] {
  const { maxLength, maxGuests, maxVehicles, pets, tents, accessible = false } = site.rules ?? {};
  const { party } = rig;
  return [
    ...over("rule:maxLength", overallLength(rig), maxLength),
    ...over("rule:maxGuests", party.adults + party.children, maxGuests),
    ...over("rule:maxVehicles", vehiclesOf(rig), maxVehicles),
    ...(pets === false && party.pets > 0 ? [{ code: "rule:pets", parts: [], short: party.pets }] : []),
    ...over("rule:tents", party.tents, tents),
    ...(party.accessible && !accessible ? [{ code: "rule:accessible", parts: ["guest"], short: null }] : []),
    ...(!party.accessible && accessible && policy.keepAccessible ? [{ code: "rule:accessible", parts: ["site"], short: null }] : []),
  ];
}

function over(code: string, have: number, most: number | undefined): Reason[] {
  return most === undefined || have <= most ? [] : [{ code, parts: [], short: have - most, have, need: most }];
}

/** A motorized rig is a vehicle, and so is a tow vehicle or towed car that comes along; a trailer is none. */
function vehiclesOf(rig: Rig): number {
  return Number(isMotorized(rig.kind)) + Number(rig.tow !== undefined && rig.tow.stays !== "elsewhere");
}
