import type { ReactNode } from "react";
import type { FitResult } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, missingInWords, namesInConstraint, numbersFor, planInWords, unbroken } from "@/lib/wording";
import { Drawing } from "./drawing";
import { layoutPlan } from "./sheet";
import type { Fit } from "./shapes";
import type { PlanLayout } from "./types";
import styles from "./plan.module.css";

interface PlanProps {
  readonly site: Site;
  /** Left out: the site alone. */
  readonly rig?: Rig;
  readonly result?: FitResult;
  readonly units: Units;
  /** Marks laid over the drawing, from its layout. */
  readonly overlay?: (layout: PlanLayout) => ReactNode;
}

/** A site drawn to scale with the rig where it stands, and the same in words. Drawn on the server; needs no script. */
export function Plan({ site, rig, result, units, overlay }: PlanProps) {
  const { plan, verdicts } = catalogueOf();
  const fit = rig && result ? { rig, result } : null;
  const layout = layoutPlan(site, fit, units);
  const id = `plan-${site.id.replace(/[^A-Za-z0-9_-]/g, "_")}`;
  return (
    <figure className={styles.sheet}>
      <Drawing layout={layout} id={id} title={plan.title(site.label ?? site.id, fit && verdicts[fit.result.verdict].label)} surface={site.pad.surface}>{overlay?.(layout)}</Drawing>
      <figcaption className={styles.caption}>
        {fit && <GapLine site={site} fit={fit} tried={layout.refused !== null && layout.rig !== null} units={units} />}
        <Key layout={layout} />
        <details className={styles.words}>
          <summary>{plan.inWords}</summary>
          <ol id={`${id}-words`}>
            {planInWords(site, fit?.rig ?? null, fit?.result ?? null, units).map((line) => <li key={line}>{unbroken(line)}</li>)}
          </ol>
        </details>
        <details className={styles.words}>
          <summary>{plan.legend}</summary>
          <ul>
            {(layout.refused && layout.rig ? plan.refusedLegendLines : plan.legendLines).map((line) => <li key={line}>{line}</li>)}
          </ul>
        </details>
      </figcaption>
    </figure>
  );
}

/** The gap that decides; under a refusal, that this is only the nearest try, and what is missing there. */
function GapLine({ site, fit: { rig, result }, tried, units }: { readonly site: Site; readonly fit: Fit; readonly tried: boolean; readonly units: Units }) {
  if (tried) return <p className={styles.gapLine}>{unbroken(catalogueOf().plan.nearestCaption(missingInWords(site, rig, result, units) ?? ""))}</p>;
  const between = result.pose && result.limit && namesInConstraint(result.limit.id, site, rig);
  if (!between || !result.limit) return null;
  return <p className={styles.gapLine}>{unbroken(catalogueOf().plan.gap(between, result.limit, numbersFor(units)))}</p>;
}

/** What the numbers in the drawing stand for, where a name found no room. */
function Key({ layout }: { readonly layout: PlanLayout }) {
  if (layout.key.length === 0) return null;
  return (
    <ul className={styles.key}>
      {layout.key.map(({ number, text }) => <li key={number}><b>{number}</b> {text}</li>)}
    </ul>
  );
}
