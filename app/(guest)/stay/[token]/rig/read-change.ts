import type { Params } from "../../../../components/rig-form/params";
import { readRigForm, unitsOf, type FormWay, type RigForm } from "../../../../components/rig-form/read";
import { startOf, type Start } from "../../../../components/rig-form/start";
import { mayChange } from "@/lib/stays";
import type { Rig } from "@/lib/rig";
import { listRigs } from "@/lib/store/rigs";
import { catalogueOf } from "@/lib/wording";
import { readStayOf, type GuestStay } from "../read-stay";

/** The rig form of a stay: what the guest brings instead. */
export interface RigChange {
  readonly data: GuestStay;
  readonly form: RigForm;
  readonly way: FormWay;
  /** Whether the guest may still change it. */
  readonly allowed: boolean;
  /** The address' own words for the rig, where they alone tell it; null where it is told by what differs from the stay's. */
  readonly rigQuery: string | null;
}

/** The form as the address has it, begun from the rig of the stay where it names no other. Null where the link leads to no stay. */
export async function readChange(token: string, params: Params): Promise<RigChange | null> {
  const data = await readStayOf(token);
  if (!data) return null;
  const { stay, park } = data, units = unitsOf(params, park.units);
  const named = startOf(params, await listRigs(park.slug), units);
  const way = { path: `/stay/${token}/rig`, answer: `/stay/${token}/rig/check`, submit: catalogueOf().guestStay.change.submit };
  const form = { ...readRigForm(params, named ?? startOfStay(stay.rig), units), way };
  return { data, form, way, allowed: mayChange(stay.state, "rig", "guest"), rigQuery: named ? form.query : null };
}

/** Where the form begins: the guest's own words for the rig, or nothing but who comes, for the rig as it was taken down. */
export function firstAddress({ data: { stay }, way }: RigChange): string | null {
  return stay.rigQuery ? `${way.path}?${stay.rigQuery}` : null;
}

/** A rig that was taken down without the form: its numbers count as measured. */
function startOfStay(rig: Rig): Start {
  return { base: rig, name: catalogueOf().things.rigKinds[rig.kind], kind: null, query: {} };
}
