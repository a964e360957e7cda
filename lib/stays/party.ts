import { isMotorized, type Rig } from "@/lib/rig";
import type { QuoteParty } from "./quote";

/** What a rig's record says of who and what comes along. Vehicles are counted as the park's rules count them: a motorized rig is one, a trailer none, and a tow vehicle or towed car one unless it stays elsewhere. */
export function partyOf({ kind, tow, party }: Pick<Rig, "kind" | "tow" | "party">): QuoteParty {
  const along = tow && tow.stays !== "elsewhere" ? 1 : 0;
  return { persons: party.adults + party.children, vehicles: (isMotorized(kind) ? 1 : 0) + along, pets: party.pets };
}
