"use client";

import { useRef, type Dispatch, type PointerEvent } from "react";
import type { Units } from "@/lib/measure";
import type { Point } from "@/lib/plane";
import { addPoint, movePoint, moveThing } from "@/lib/park/edit/change";
import { keyOf, pointAt, type Draft, type Path } from "@/lib/park/edit/record";
import { snapField, snapPoint, type Drawn, type SnapField } from "@/lib/park/edit/snap";
import { thingsOf, type Thing } from "@/lib/park/edit/things";
import type { EditorAction } from "./editor-state";
import type { LensInHand } from "../../../editing/use-lens";
import type { View } from "../../../editing/view";

export interface PlanAround {
  readonly draft: Draft;
  readonly selected: string | null;
  readonly view: View;
  readonly lens: LensInHand;
  readonly units: Units;
  readonly snap: boolean;
  readonly send: Dispatch<EditorAction>;
  readonly setView: (view: View) => void;
  /** Told aloud once something lies where it was put. */
  readonly moved: (draft: Draft, thing: Thing, index: number | null, to: Drawn) => void;
}

/** Something in the hand. */
interface Held {
  readonly pointer: number;
  readonly from: readonly [number, number];
  /** What is dragged, with the point that is drawn to the grid, or the ground itself. */
  readonly drag: { readonly thing: Thing; readonly path: Path; readonly whole: boolean; readonly start: Point; readonly draft: Draft; readonly field: SnapField } | { readonly view: View };
  /** What a tap, without moving, takes hold of. */
  readonly tap: string | null;
  readonly mark: string;
  moved: boolean;
  /** The record is another than before. */
  changed: boolean;
  last: { draft: Draft; to: Drawn } | null;
}

/** A hand trembles by less than this, px. */
const TREMBLE = 4;
/** Something is drawn to what is this near on the glass, px. */
const DRAWN_WITHIN = 9;

/**
 * Dragging on the plan with a mouse, a pen or a thumb. What is moved goes through the same changes as what is typed. A thumb moves only what is chosen, and else, as on bare
 * ground, what is shown; a second finger puts back what the first has moved.
 */
export function usePlanPointer(around: PlanAround) {
  const held = useRef<Held | null>(null);
  const count = useRef(0);
  const onPointerDown = (event: PointerEvent<SVGSVGElement>) => {
    if (around.lens.fingerDown(event)) {
      if (held.current?.changed) around.send({ do: "undo" });
      held.current = null;
      return;
    }
    if (event.button !== 0 || held.current) return;
    const grip = (event.target as Element).closest<SVGGElement>("[data-grip]");
    count.current += 1;
    held.current = take(event, grip, around, `drag ${count.current}`);
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<SVGSVGElement>) => {
    const now = held.current;
    if (around.lens.fingerMove(event) || !now || now.pointer !== event.pointerId) return;
    const dx = event.clientX - now.from[0], dy = event.clientY - now.from[1];
    if (!now.moved && Math.hypot(dx, dy) < TREMBLE) return;
    now.moved = true;
    if ("view" in now.drag) {
      const { view } = now.drag;
      around.setView({ ...view, middle: [view.middle[0] + dy / view.scale, view.middle[1] + dx / view.scale] });
      return;
    }
    now.last = place(now.drag, [dx, dy], around, event.altKey);
    now.changed = true;
    around.send({ do: "change", draft: now.last.draft, mark: now.mark, select: keyOf(now.drag.thing.path) });
  };
  const onPointerUp = (event: PointerEvent<SVGSVGElement>) => {
    const now = held.current;
    if (around.lens.fingerUp(event) || !now || now.pointer !== event.pointerId) return;
    held.current = null;
    if (!now.moved && event.type === "pointerup") {
      if (now.tap !== null || (event.target as Element).closest("[data-grip]") === null) around.send({ do: "select", key: now.tap });
    } else if (now.last && "thing" in now.drag) {
      around.moved(now.last.draft, now.drag.thing, now.drag.whole ? null : now.drag.thing.handles.findIndex((path) => keyOf(path) === keyOf((now.drag as { path: Path }).path)), now.last.to);
    }
    around.send({ do: "settle" });
  };
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel: onPointerUp };
}

function take(event: PointerEvent<SVGSVGElement>, grip: SVGGElement | null, around: PlanAround, mark: string): Held {
  const base = { pointer: event.pointerId, from: [event.clientX, event.clientY] as const, mark, moved: false, changed: false, last: null };
  const { draft, selected, units } = around, touch = event.pointerType === "touch";
  const ground = { view: around.view };
  const thing = grip && thingsOf(draft).find(({ path, handles }) => keyOf(path) === grip.dataset["key"] || handles.some((handle) => keyOf(handle) === grip.dataset["key"]));
  if (!grip || !thing) return { ...base, drag: ground, tap: null };
  const key = keyOf(thing.path);
  if (grip.dataset["grip"] === "middle") return takeMiddle(base, thing, Number(grip.dataset["index"]), around);
  if (grip.dataset["grip"] === "point") {
    const path = thing.handles.find((handle) => keyOf(handle) === grip.dataset["key"])!;
    return { ...base, tap: key, drag: { thing, path, whole: thing.shape === "place", start: pointAt(draft, path)!, draft, field: snapField(draft, [path], units) } };
  }
  const chosen = selected === key;
  if (!movesWhole(thing) || (!chosen && (touch || thing.shape !== "place"))) return { ...base, drag: ground, tap: key };
  const path = thing.handles[0]!;
  return { ...base, tap: key, drag: { thing, path, whole: true, start: pointAt(draft, path)!, draft, field: snapField(draft, thing.handles, units) } };
}

/** A new corner half-way along an edge, which comes along with the hand at once. */
function takeMiddle(base: Omit<Held, "drag" | "tap">, thing: Thing, behind: number, { draft, units, send }: PlanAround): Held {
  const more = addPoint(draft, thing, behind), wider = thingsOf(more).find(({ path }) => keyOf(path) === keyOf(thing.path))!;
  send({ do: "change", draft: more, mark: base.mark, select: keyOf(thing.path), shifted: true });
  const path = wider.handles[behind + 1]!;
  return { ...base, changed: true, tap: keyOf(thing.path), drag: { thing: wider, path, whole: false, start: pointAt(more, path)!, draft: more, field: snapField(more, [path], units) } };
}

/** Pad and lot are what the other numbers count from: their corners move, they do not. */
function movesWhole({ kind }: Thing): boolean {
  return kind !== "pad" && kind !== "lot" && kind !== "spot-heights";
}

function place({ thing, path, whole, start, draft, field }: Extract<Held["drag"], { thing: Thing }>, [dx, dy]: readonly [number, number], { view, snap }: PlanAround, free: boolean): { draft: Draft; to: Drawn } {
  const raw: Point = [start[0] - dy / view.scale, start[1] - dx / view.scale];
  const { at, to } = snap && !free ? snapPoint(raw, field, DRAWN_WITHIN / view.scale) : { at: raw, to: null };
  return { draft: whole ? moveThing(draft, thing, [at[0] - start[0], at[1] - start[1]]) : movePoint(draft, path, at), to };
}
