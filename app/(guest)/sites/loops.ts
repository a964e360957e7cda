import type { Site } from "@/lib/park";
import type { ParkRecord } from "../../components/park-map/record";

export interface Loop {
  readonly id: string;
  readonly name?: string | undefined;
  readonly character?: string | undefined;
}

/** The loops that sites stand in, in the sites' own order, with what the park says of each. */
export function loopsOf(sites: readonly Site[], { loops }: ParkRecord): Loop[] {
  const ids = [...new Set(sites.flatMap((s) => (s.loop === undefined ? [] : [s.loop])))];
  return ids.map((id) => loops.find((l) => l.id === id) ?? { id });
}
