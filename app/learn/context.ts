import { defaultPolicy, type Policy } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import { getDefaultPark } from "@/lib/store/parks";
import type { Params } from "../components/rig-form/params";
import { unitsOf } from "../components/rig-form/read";

/** The reader's units and the park's own settings; the usual ones where no park is loaded. */
export async function learnContext(searchParams: Promise<Params>): Promise<{ readonly units: Units; readonly policy: Policy }> {
  const [params, park] = await Promise.all([searchParams, getDefaultPark()]);
  return { units: unitsOf(params, park?.units ?? "ft-in"), policy: park?.policy ?? defaultPolicy };
}
