import { addDays, dateIn, nights, stayRequestSchema, type IsoDate, type Nights, type StayRequest, type StayRequestInput } from "@/lib/stays";
import type { Actor } from "@/lib/store/stays-actor";
import { smallPark } from "./small-park";

/** A park with stays to be tried on: two sites, clocks at UTC. */
export const park = "two-pines";
export const desk: Actor = { kind: "desk", account: "desk-one", park };
export const manager: Actor = { kind: "manager", account: "the-manager", park };
export const guest: Actor = { kind: "guest", link: null };
export const guestWith = (link: string | null): Actor => ({ kind: "guest", link });

export const person = { name: "Ada Quill", email: "ada@example.org", phone: "555 0100", plate: "QM 4711" };
export const rig = smallPark().rigs.rigs[0]!.rig as unknown as StayRequestInput["rig"];

/** Today at UTC, and other days by how many away they are. */
export const today = (): IsoDate => dateIn("UTC", Date.now());
export const day = (away: number): IsoDate => addDays(today(), away);
export const stayFrom = (away: number, count: number): Nights => nights(day(away), day(away + count));

/** A request as it comes out of the form. */
export function ask(away: number, count: number, more: Partial<StayRequestInput> = {}): StayRequest {
  return stayRequestSchema.parse({ arrive: day(away), depart: day(away + count), site: "a01", rig, guest: person, ...more });
}
