"use client";

import { useCallback, useEffect, useMemo, useRef, type PointerEvent, type RefObject } from "react";
import { drawn, grasp, zoomAt, type Grasp, type Lens, type Look, type Spot } from "./lens";

interface LensAround<L extends Look> {
  readonly svg: RefObject<SVGSVGElement | null>;
  readonly lens: Lens;
  readonly look: L;
  readonly setLook: (look: Look) => void;
}

/** What two fingers, the wheel and keys do to the part of the ground that is shown. */
export interface LensInHand {
  /** To be asked first of every pointer that comes down: yes, where it is a second finger. What the first has in the hand is to be let go. */
  readonly fingerDown: (event: PointerEvent<SVGSVGElement>) => boolean;
  /** Yes, where it moved what is shown, and nothing else is to be done. */
  readonly fingerMove: (event: PointerEvent<SVGSVGElement>) => boolean;
  readonly fingerUp: (event: PointerEvent<SVGSVGElement>) => boolean;
  /** Nearer or farther around a spot, or the middle. */
  readonly zoom: (by: number, spot?: Spot) => void;
}

/** How much one press of a button or a key comes nearer. */
export const NEARER = 1.4;

/**
 * Two fingers move the ground and come nearer to it; when one is lifted the other goes on moving it, so that nothing is dragged by the finger that is left.
 * The wheel with Ctrl, which is also what two fingers on a pad send, comes nearer to what is under the pointer; the wheel alone scrolls the page.
 */
export function useLens<L extends Look>({ svg, lens, look, setLook }: LensAround<L>): LensInHand {
  const fingers = useRef(new Map<number, Spot>()), held = useRef<Grasp | null>(null);
  // Events come faster than the page is drawn: each goes on from what the last one made of it.
  const latest = useRef<Look>(look), through = useRef(lens);
  useEffect(() => {
    latest.current = look;
    through.current = lens;
  }, [look, lens]);
  const show = useCallback((next: Look) => {
    latest.current = next;
    setLook(next);
  }, [setLook]);
  useEffect(() => {
    const drawing = svg.current;
    const turn = (event: WheelEvent) => {
      if (!event.ctrlKey || !drawing) return;
      event.preventDefault();
      show(zoomAt(through.current, latest.current, Math.exp(-event.deltaY / 300), spotOf(event, drawing)));
    };
    drawing?.addEventListener("wheel", turn, { passive: false });
    return () => drawing?.removeEventListener("wheel", turn);
  }, [svg, show]);
  return useMemo((): LensInHand => {
    const take = () => { held.current = fingers.current.size > 0 ? grasp(through.current, latest.current, [...fingers.current.values()]) : null; };
    return {
      fingerDown: (event) => {
        if (event.pointerType !== "touch") return false;
        // The first finger of a touch: whatever is still remembered was lifted where nobody told.
        if (event.isPrimary) { fingers.current.clear(); held.current = null; }
        fingers.current.set(event.pointerId, spotOf(event, event.currentTarget));
        event.currentTarget.setPointerCapture(event.pointerId);
        if (fingers.current.size < 2) return false;
        take();
        return true;
      },
      fingerMove: (event) => {
        if (!fingers.current.has(event.pointerId)) return false;
        fingers.current.set(event.pointerId, spotOf(event, event.currentTarget));
        if (!held.current) return false;
        show(drawn(through.current, held.current, [...fingers.current.values()]));
        return true;
      },
      fingerUp: (event) => {
        if (!fingers.current.delete(event.pointerId) || !held.current) return false;
        take();
        return true;
      },
      zoom: (by, spot) => show(zoomAt(through.current, latest.current, by, spot)),
    };
  }, [show]);
}

/** What a key asks of the view: how much nearer, the whole again, or nothing. */
export function viewKey({ key, ctrlKey, metaKey, altKey }: { readonly key: string; readonly ctrlKey: boolean; readonly metaKey: boolean; readonly altKey: boolean }): number | "whole" | null {
  if (ctrlKey || metaKey || altKey) return null;
  if (key === "+" || key === "=") return NEARER;
  if (key === "-" || key === "−" || key === "_") return 1 / NEARER;
  return key === "0" ? "whole" : null;
}

function spotOf({ clientX, clientY }: { readonly clientX: number; readonly clientY: number }, drawing: SVGSVGElement): Spot {
  const { left, top } = drawing.getBoundingClientRect();
  return [clientX - left, clientY - top];
}
