"use client";

import { useEffect, useMemo, useRef, useState, type Dispatch, type FocusEvent, type KeyboardEvent, type RefObject } from "react";
import type { Units } from "@/lib/measure";
import type { Point } from "@/lib/plane";
import type { Fault } from "@/lib/park/edit/faults";
import { keyOf, pointAt, type Draft } from "@/lib/park/edit/record";
import type { Drawn } from "@/lib/park/edit/snap";
import { pointsOfThing, thingsOf, type Thing } from "@/lib/park/edit/things";
import { numbersIn } from "@/lib/wording/format";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import type { EditorAction } from "./editor-state";
import { nameOf } from "../../../editing/names";
import { PlanGrips } from "./plan-grips";
import { PlanGround } from "../../../editing/plan-ground";
import { pressOn } from "./plan-keys";
import { PlanLabels } from "../../../editing/plan-labels";
import { usePlanPointer } from "./use-plan-pointer";
import { NEARER, useLens, viewKey } from "../../../editing/use-lens";
import { useSize } from "../../../editing/use-size";
import { reachOf, showing, siteLens, toPage, viewAround, viewOf, type PageSize, type View } from "../../../editing/view";
import plan from "../../../../components/plan/plan.module.css";
import styles from "../../../editing/editor.module.css";

interface EditPlanProps {
  readonly label: string;
  readonly draft: Draft;
  readonly selected: string | null;
  readonly faults: readonly Fault[];
  readonly units: Units;
  readonly snap: boolean;
  readonly send: Dispatch<EditorAction>;
  readonly say: (text: string) => void;
  /** Told where the middle of what is shown lies, for what is added. */
  readonly middleRef: RefObject<readonly [number, number]>;
}

/** The plan, to scale, to be dragged and steered with keys. */
export function EditPlan({ label, draft, selected, faults, units, snap, send, say, middleRef }: EditPlanProps) {
  const svg = useRef<SVGSVGElement>(null), next = useRef<string | null>(null);
  const [frame, setFrame] = useState<HTMLDivElement | null>(null), size = useSize(frame, FIRST);
  const [own, setView] = useState<View | null>(null);
  const [opened] = useState(draft);
  // Until somebody moves it, the view is of the site as it was opened: it must not jump while a corner is dragged.
  const view = own ?? viewOf(opened, size, "site");
  useEffect(() => { middleRef.current = view.middle; }, [middleRef, view]);
  const moved = (now: Draft, thing: Thing, index: number | null, to: Drawn) => {
    const at = pointAt(now, thing.handles[index ?? 0]!);
    if (at) say(words.plan.moved(nameOf(now, thing), words.spot(at[0], at[1], numbersIn(units, ",")), to));
  };
  const through = useMemo(() => siteLens(size), [size]), lens = useLens({ svg, lens: through, look: view, setLook: setView });
  const pointer = usePlanPointer({ draft, selected, view, lens, units, snap, send, setView, moved });
  useEffect(() => {
    if (next.current === null) return;
    svg.current?.querySelector<SVGGElement>(`[data-key="${CSS.escape(next.current)}"]`)?.focus();
    next.current = null;
  });
  const onKeyDown = (event: KeyboardEvent<SVGSVGElement>) => {
    const grip = (event.target as Element).closest<SVGGElement>("[data-grip]"), key = grip?.dataset["key"], asked = viewKey(event);
    if (asked !== null) {
      event.preventDefault();
      const at = placeOf(draft, key);
      if (asked === "whole") setView(viewOf(draft, size, "site")); else lens.zoom(asked, at && toPage(view, size, at));
      return;
    }
    if (!grip || key === undefined || event.ctrlKey || event.metaKey) return;
    const thing = thingsOf(draft).find(({ path, handles }) => keyOf(path) === key || handles.some((handle) => keyOf(handle) === key));
    if (!thing) return;
    const index = grip.dataset["grip"] === "point" ? thing.handles.findIndex((handle) => keyOf(handle) === key) : null;
    const outcome = pressOn(draft, thing, index, event, { units, snap });
    if (!outcome) return;
    event.preventDefault();
    next.current = outcome.focus ?? null;
    send({ do: "change", draft: outcome.draft, mark: outcome.moved ? `keys ${key}` : null, ...(outcome.select === undefined ? {} : { select: outcome.select }), ...(outcome.shifted ? { shifted: true } : {}) });
    if (outcome.moved) moved(outcome.draft, thing, index, null);
    if (outcome.removed) say(words.bar.removed(nameOf(draft, thing)));
  };
  const onFocus = (event: FocusEvent<SVGSVGElement>) => {
    const key = (event.target as Element).closest<SVGGElement>("[data-grip]")?.dataset["key"];
    const at = placeOf(draft, key);
    if (at && event.target.matches(":focus-visible")) setView(showing(view, size, at));
  };
  return (
    <div className={styles.plan}>
      <ViewButtons draft={draft} selected={selected} size={size} setView={setView} zoom={lens.zoom} />
      <div ref={setFrame} className={styles.frame} role="application" aria-label={words.plan.name(label)} aria-describedby="plan-keys">
        <svg ref={svg} className={`${plan.drawing} ${styles.drawing}`} viewBox={`0 0 ${size.w} ${size.h}`} role="group" aria-label={words.plan.name(label)} {...pointer} onKeyDown={onKeyDown} onFocus={onFocus} onBlur={() => send({ do: "settle" })}>
          <PlanGround draft={draft} view={view} size={size} units={units} />
          <PlanLabels draft={draft} view={view} size={size} />
          <PlanGrips draft={draft} view={view} size={size} units={units} faults={faults} selected={selected} />
        </svg>
      </div>
      <details className={styles.keys}><summary>{words.plan.keysSummary}</summary><p id="plan-keys">{words.plan.keys}</p></details>
    </div>
  );
}

/** Where what a key of a grip speaks of lies: a point itself, of a thing its first. */
function placeOf(draft: Draft, key: string | undefined): Point | undefined {
  const thing = key === undefined ? undefined : thingsOf(draft).find(({ path, handles }) => keyOf(path) === key || handles.some((handle) => keyOf(handle) === key));
  return (thing && pointAt(draft, thing.handles.find((handle) => keyOf(handle) === key) ?? thing.handles[0]!)) ?? undefined;
}

function ViewButtons({ draft, selected, size, setView, zoom }: { readonly draft: Draft; readonly selected: string | null; readonly size: PageSize; readonly setView: (view: View) => void; readonly zoom: (by: number) => void }) {
  const chosen = thingsOf(draft).find(({ path }) => keyOf(path) === selected);
  const near = () => {
    if (!chosen) return;
    const reach = Math.max(reachOf(draft, chosen.path), 1500);
    setView(viewAround(pointsOfThing(draft, chosen).flatMap(([x, y]) => [[x - reach, y - reach] as const, [x + reach, y + reach] as const]), size));
  };
  return (
    <div className={styles.views} role="group" aria-label={words.plan.zoom}>
      <button type="button" onClick={() => zoom(NEARER)}>{words.plan.closer}</button>
      <button type="button" onClick={() => zoom(1 / NEARER)}>{words.plan.farther}</button>
      <button type="button" onClick={() => setView(viewOf(draft, size, "site"))}>{words.plan.wholeSite}</button>
      {draft.approach && <button type="button" onClick={() => setView(viewOf(draft, size, "way in"))}>{words.plan.wayIn}</button>}
      <button type="button" disabled={!chosen} onClick={near}>{words.plan.toSelected}</button>
    </div>
  );
}

const FIRST: PageSize = { w: 358, h: 430 };
