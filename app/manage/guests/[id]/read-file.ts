import { cache } from "react";
import type { StaffActor } from "@/app/staff-session";
import { StoreError } from "@/lib/store/errors";
import { readGuestFile, type GuestFile } from "@/lib/store/guests-data";

/** What the park keeps of the guest; null where there is no such guest for this person. Once a request. */
export const fileOf = cache(async (actor: StaffActor, id: string): Promise<GuestFile | null> => {
  try {
    return await readGuestFile(actor, actor.park, id);
  } catch (error) {
    if (error instanceof StoreError && error.kind === "missing") return null;
    throw error;
  }
});
