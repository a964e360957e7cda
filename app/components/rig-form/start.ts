import { parseLength, type Units } from "@/lib/measure";
import { typicalKinds, typicalLengths, typicalRig, usualLengthOf, type RigKind } from "@/lib/rig/typical";
import type { Rig } from "@/lib/rig";
import type { KeptRig } from "@/lib/store/rigs";
import { catalogueOf } from "@/lib/wording";
import { one, typed, type Params } from "./params";

/** The rig whose numbers stand until they are changed: the typical one of a kind and length, or one that the park keeps. */
export interface Start {
  readonly base: Rig;
  readonly name: string;
  /** Its kind, where its numbers are the typical ones of that kind; null for a rig that was measured. */
  readonly kind: RigKind | null;
  /** What the address needs to find it again. */
  readonly query: Readonly<Record<string, string>>;
}

/** `rig=<id>` names a kept rig, `kind=<kind>` a typical one, as long as `length` says where that can be read. */
export function startOf(params: Params, kept: readonly KeptRig[], units: Units): Start | null {
  const keptRig = kept.find(({ id }) => id === one(params.rig));
  if (keptRig) return { base: keptRig.rig, name: keptRig.name, kind: null, query: { rig: keptRig.id } };
  const kind = typicalKinds.find((k) => k === one(params.kind));
  if (!kind) return null;
  return { base: typicalRig(kind, lengthIn(params, units) ?? usualLengthOf(kind)), name: catalogueOf().things.rigKinds[kind], kind, query: { kind } };
}

/** What no such rig is as long as makes none: the field says what is wrong. */
function lengthIn(params: Params, units: Units): number | null {
  const parsed = parseLength(typed(params.length) ?? "", units === "metric" ? "m" : "ft");
  return parsed.ok && parsed.mm >= typicalLengths.shortest && parsed.mm <= typicalLengths.longest ? parsed.mm : null;
}
