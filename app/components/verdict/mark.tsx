import type { Verdict } from "@/lib/fit";
import styles from "./verdict.module.css";

/** A verdict's shape: told apart without colour and without reading. The word always stands beside it. */
export function VerdictMark({ verdict }: { readonly verdict: Verdict }) {
  return (
    <svg className={styles.mark} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      {verdict === "fits" && <g><rect className={styles.full} x="2" y="2" width="20" height="20" /><path className={styles.cut} d="M6.5 12.5l4 4 7-9" /></g>}
      {verdict === "gear" && <g><circle className={styles.open} cx="12" cy="12" r="9.5" /><path className={styles.line} d="M12 6.5v11M6.5 12h11" /></g>}
      {verdict === "no" && <path className={styles.line} d="M4 4l16 16M20 4L4 20" />}
      {(verdict === "ask" || verdict === "unsettled") && <g><path className={styles.dashed} d="M12 2l10 10-10 10L2 12z" /><path className={styles.line} d="M8 12h8" /></g>}
    </svg>
  );
}

/** Somebody has the site: a square struck through, as on the map. The word always stands beside it. */
export function TakenMark() {
  return (
    <svg className={styles.mark} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <rect className={styles.open} x="3" y="3" width="18" height="18" />
      <path className={styles.line} d="M3 21L21 3" />
    </svg>
  );
}
