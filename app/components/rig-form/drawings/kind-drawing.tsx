import { typicalRig, usualLengthOf, type RigKind } from "@/lib/rig";
import { GroundLine, RigSide } from "./rig-side";
import styles from "./drawings.module.css";

/** Every kind on the same sheet, so that one scale shows which is large: 12.4 m by 4.4 m, in centimetres. */
const WIDE = 1240, TALL = 440;

/** The typical rig of a kind at its usual length, from its door side. Told in words beside it, so hidden from those who hear the page. */
export function KindDrawing({ kind }: { readonly kind: RigKind }) {
  const rig = typicalRig(kind, usualLengthOf(kind));
  const ahead = (rig.hitch?.length ?? 0) / 10, length = rig.body.length / 10;
  const behind = kind === "toy-hauler" ? 156 : kind === "folding-trailer" ? 115 : 0;
  const front = kind === "folding-trailer" ? Math.max(ahead, 115) : ahead;
  const left = (WIDE - (behind + length + front)) / 2;
  return (
    <svg className={styles.sheet} viewBox={`0 0 ${WIDE} ${TALL}`} aria-hidden="true" focusable="false">
      <g transform={`translate(0 ${TALL - 24})`}>
        <GroundLine x0={0} x1={WIDE} />
        <g transform={`translate(${Math.round(left + behind)} 0)`}><RigSide rig={rig} /></g>
      </g>
    </svg>
  );
}
