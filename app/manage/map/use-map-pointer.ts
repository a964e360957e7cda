"use client";

import { useRef, type Dispatch, type PointerEvent } from "react";
import type { Units } from "@/lib/measure";
import { bearingTo, movePlace, turnPlace, type Place } from "@/lib/park/edit/place";
import { toGrid } from "@/lib/park/edit/snap";
import type { Point } from "@/lib/plane";
import { onMap } from "../../components/park-map/frame";
import type { LensInHand } from "../editing/use-lens";
import type { MapAction, MapSite, Places } from "./map-state";
import { GRID } from "./map-steps";
import { arrowEnd, toSheet, type MapSize, type MapView } from "./map-view";
import { stopsOf } from "./travel";

interface MapAround {
  readonly sites: readonly MapSite[];
  readonly places: Places;
  readonly selected: string | null;
  readonly view: MapView;
  readonly size: MapSize;
  readonly lens: LensInHand;
  readonly units: Units;
  readonly snap: boolean;
  readonly send: Dispatch<MapAction>;
  readonly setView: (view: MapView) => void;
  readonly tell: (site: MapSite, place: Place) => void;
}

interface Held {
  readonly pointer: number;
  readonly from: readonly [number, number];
  readonly site: MapSite | null;
  /** What a tap, without moving, takes hold of. */
  readonly tap: string | null;
  readonly turning: boolean;
  /** Where the site lay; null: it is not dragged, what is shown is. */
  readonly place: Place | null;
  readonly view: MapView;
  readonly mark: string;
  moved: boolean;
}

/** A hand trembles by less than this, px. */
const TREMBLE = 4;
/** Half of what a thumb needs, px. */
const THUMB = 22;

/** Dragging on the map. A mouse drags any site, a thumb the chosen one; either, elsewhere, moves what is shown. A second finger puts back what the first has moved. */
export function useMapPointer(around: MapAround) {
  const held = useRef<Held | null>(null), count = useRef(0);
  const { sites, places, selected, view, lens, units, snap, send, setView, tell } = around;
  const onPointerDown = (event: PointerEvent<SVGSVGElement>) => {
    if (lens.fingerDown(event)) {
      if (held.current?.moved && held.current.place) send({ do: "undo" });
      held.current = null;
      return;
    }
    if (event.button !== 0 || held.current) return;
    const touch = event.pointerType === "touch", grip = (event.target as Element).closest<SVGGElement>("[data-site]"), turning = grip?.dataset["turn"] !== undefined;
    const site = sites.find(({ id }) => id === grip?.dataset["site"]) ?? null, drags = site && (!touch || site.id === selected);
    const tap = (touch && !turning ? nearTo(event, around) : null) ?? site?.id ?? null;
    held.current = { pointer: event.pointerId, from: [event.clientX, event.clientY], site, tap, turning, place: drags ? (places[site.id] ?? null) : null, view, mark: `drag ${++count.current}`, moved: false };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<SVGSVGElement>) => {
    const now = held.current;
    if (lens.fingerMove(event) || !now || now.pointer !== event.pointerId) return;
    const dx = event.clientX - now.from[0], dy = event.clientY - now.from[1];
    if (!now.moved && Math.hypot(dx, dy) < TREMBLE) return;
    now.moved = true;
    if (now.site && now.place) send({ do: "place", id: now.site.id, place: dragged(now.site, now.place, now.turning, [dx, dy], view.scale, snap && !event.altKey ? GRID[units] : null), mark: now.mark });
    else setView({ ...now.view, middle: [now.view.middle[0] - dx / view.scale, now.view.middle[1] + dy / view.scale] });
  };
  const onPointerUp = (event: PointerEvent<SVGSVGElement>) => {
    const now = held.current;
    if (lens.fingerUp(event) || !now || now.pointer !== event.pointerId) return;
    held.current = null;
    if (!now.moved && event.type === "pointerup") send({ do: "select", id: now.tap });
    else if (now.site && now.place && places[now.site.id]) tell(now.site, places[now.site.id]!);
    send({ do: "settle" });
  };
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel: onPointerUp };
}

/** The site that a thumb means: on a whole park several lie under it. */
function nearTo(event: PointerEvent<SVGSVGElement>, { sites, places, view, size }: MapAround): string | null {
  const { left, top } = event.currentTarget.getBoundingClientRect();
  const far = stopsOf(sites, places).map(({ id, at }) => {
    const [x, y] = toSheet(view, size, at);
    return { id, by: Math.hypot(event.clientX - left - x, event.clientY - top - y) };
  });
  return far.filter(({ by }) => by <= THUMB).sort((a, b) => a.by - b.by)[0]?.id ?? null;
}

function dragged(site: MapSite, place: Place, turning: boolean, [dx, dy]: readonly [number, number], scale: number, grid: number | null): Place {
  if (!turning) {
    const to: Point = [place.east + dx / scale, place.north - dy / scale];
    return movePlace(place, grid === null ? to : [toGrid(to[0], grid), toGrid(to[1], grid)]);
  }
  const tip = onMap(place, arrowEnd(site)), bearing = bearingTo([place.east, place.north], [tip[0] + dx / scale, tip[1] - dy / scale]);
  return bearing === null ? place : turnPlace(place, grid === null ? bearing : Math.round(bearing / 5) * 5);
}
