import type { SurveyState } from "@/lib/survey";
import { surveyWalk as words } from "@/lib/wording/en/survey-walk";
import styles from "./survey.module.css";

/** Lengths of the drawing. */
const WIDE = 400, HIGH = 22;

/** How much of what a fit hangs on was measured (solid), is a guess (hatched), is missing (open). */
export function ProgressBar({ counts, name }: { readonly counts: Readonly<Record<SurveyState, number>>; readonly name: string }) {
  const { measured, guessed, missing } = counts, total = Math.max(1, measured + guessed + missing), at = (count: number) => (WIDE * count) / total, hatch = `guess-${name.replace(/\W+/g, "-")}`;
  return (
    <svg className={styles.bar} viewBox={`0 0 ${WIDE} ${HIGH}`} preserveAspectRatio="none" role="img" aria-label={words.overview.picture(name, measured, guessed, missing)}>
      <defs><pattern id={hatch} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="7" className={styles.hatch} /></pattern></defs>
      <rect width={WIDE} height={HIGH} className={styles.open} />
      <rect x={at(measured)} width={at(guessed)} height={HIGH} fill={`url(#${hatch})`} />
      <rect width={at(measured)} height={HIGH} className={styles.solid} />
      <rect width={WIDE} height={HIGH} className={styles.frame} />
    </svg>
  );
}
