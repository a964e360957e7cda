import { lengthClassesOf, typicalKinds, typicalRig, type Rig, type RigKind } from "@/lib/rig";

/** A typical rig of a kind and length class, as a column of a matrix. */
export interface TypicalColumn {
  readonly kind: RigKind;
  /** Overall, hitch included, mm. */
  readonly length: number;
  readonly rig: Rig;
}

/** Every length class of these kinds, each kind from short to long. */
export function typicalColumns(kinds: readonly RigKind[] = typicalKinds): TypicalColumn[] {
  return kinds.flatMap((kind) => lengthClassesOf(kind).map((length) => ({ kind, length, rig: typicalRig(kind, length) })));
}
