import type { Field } from "./fields";
import { typed, type Params } from "./params";
import type { Step } from "./steps";

/** A number of a typical rig that nobody has measured on this one. Millimetres. */
export interface Assumed {
  /** Where it stands in the rig's record, such as `rig.inlets.2.u`. */
  readonly field: string;
  /** The name of the form's field to type it into: that counts as the record does. */
  readonly input: string;
  readonly step: Step;
  /** The least and most it is on real rigs, common practice. */
  readonly min: number;
  readonly max: number;
  readonly typical: number;
}

/**
 * Every typical number still standing that the record holds as the form asks for it. Not among them: a trailer's overall
 * length, of which the record has only what is left without the hitch, and where things lie across a rear or front wall.
 */
export function assumedOf(fields: readonly Field[], params: Params): Assumed[] {
  const body = fields.find((f) => f.input === "length")!.typical - (fields.find((f) => f.input === "hitch")?.typical ?? 0);
  return fields.flatMap((f) => {
    const { input, step, path, typical, spread, what, most } = f;
    if (path === null || spread === 0 || typed(params[input]) !== undefined) return [];
    // Ends of parts and places of inlets stay on their wall, whose length is the most they can be.
    const onWall = what === "start" || what === "end" || what === "inletAt";
    const max = Math.min(typical + spread, onWall ? Math.max(typical, Math.min(most, body)) : most);
    return [{ field: path, input, step, min: Math.max(0, typical - spread), max, typical }];
  });
}
