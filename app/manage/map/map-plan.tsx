"use client";

import { useEffect, useRef, useState, type Dispatch, type KeyboardEvent, type PointerEvent } from "react";
import type { Units } from "@/lib/measure";
import { bearingTo, movePlace, turnPlace, type Place } from "@/lib/park/edit/place";
import { toGrid } from "@/lib/park/edit/snap";
import type { Point } from "@/lib/plane";
import { numbersIn } from "@/lib/wording/format";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import { onMap } from "../../components/park-map/frame";
import type { ParkRecord } from "../../components/park-map/record";
import { MapFurniture, MapGround } from "./map-ground";
import type { MapAction, MapSite, MapState } from "./map-state";
import { arrowEnd, toSheet, viewAll, viewAround, zoomed, type MapSize, type MapView } from "./map-view";
import editor from "../editing/editor.module.css";
import sheet from "../../components/park-map/park-map.module.css";
import styles from "./map.module.css";

interface MapPlanProps {
  readonly sites: readonly MapSite[];
  readonly record: ParkRecord;
  readonly state: MapState;
  readonly units: Units;
  readonly snap: boolean;
  readonly send: Dispatch<MapAction>;
  readonly say: (text: string) => void;
  readonly onView: (middle: Point) => void;
}

interface Held {
  readonly pointer: number;
  readonly from: readonly [number, number];
  readonly site: MapSite | null;
  readonly turning: boolean;
  readonly place: Place | null;
  readonly view: MapView;
  readonly mark: string;
  moved: boolean;
}

const FIRST: MapSize = { w: 358, h: 400 };
const GRID = { "ft-in": 304.8, metric: 500 } as const, STEP = { "ft-in": { step: 304.8, big: 3048, fine: 25.4 }, metric: { step: 500, big: 5000, fine: 50 } } as const;
const TREMBLE = 4;

/** The park's map with every site on it, to be dragged, turned and steered with keys. */
export function MapPlan({ sites, record, state, units, snap, send, say, onView }: MapPlanProps) {
  const [frame, setFrame] = useState<HTMLDivElement | null>(null), [size, setSize] = useState(FIRST);
  const [own, setOwn] = useState<MapView | null>(null), [opened] = useState(state.history.present);
  const held = useRef<Held | null>(null), count = useRef(0), svg = useRef<SVGSVGElement>(null);
  const places = state.history.present, view = own ?? viewAll(sites, opened, size);
  const chosen = sites.find(({ id }) => id === state.selected);
  useEffect(() => { onView(view.middle); }, [onView, view.middle]);
  useEffect(() => {
    if (!frame) return undefined;
    const observer = new ResizeObserver(() => setSize((before) => (before.w === frame.clientWidth && before.h === frame.clientHeight || frame.clientWidth === 0 ? before : { w: frame.clientWidth, h: frame.clientHeight })));
    observer.observe(frame);
    return () => observer.disconnect();
  }, [frame]);
  useEffect(() => {
    const drawing = svg.current;
    const hold = (event: TouchEvent) => { if ((event.target as Element).closest("[data-held]")) event.preventDefault(); };
    drawing?.addEventListener("touchstart", hold, { passive: false });
    return () => drawing?.removeEventListener("touchstart", hold);
  }, []);
  const tell = (site: MapSite, place: Place) => say(words.spoken(site.label, place.east, place.north, place.bearing, numbersIn(units, ",")));
  const onPointerDown = (event: PointerEvent<SVGSVGElement>) => {
    if (event.button !== 0 || held.current) return;
    const grip = (event.target as Element).closest<SVGGElement>("[data-site]"), site = sites.find(({ id }) => id === grip?.dataset["site"]) ?? null;
    const mayDrag = site && (event.pointerType !== "touch" || site.id === state.selected);
    held.current = { pointer: event.pointerId, from: [event.clientX, event.clientY], site, turning: grip?.dataset["turn"] !== undefined, place: mayDrag ? (places[site.id] ?? null) : null, view, mark: `drag ${++count.current}`, moved: false };
    if (mayDrag || event.pointerType !== "touch") event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<SVGSVGElement>) => {
    const now = held.current;
    if (!now || now.pointer !== event.pointerId) return;
    const dx = event.clientX - now.from[0], dy = event.clientY - now.from[1];
    if (!now.moved && Math.hypot(dx, dy) < TREMBLE) return;
    now.moved = true;
    if (now.site && now.place) send({ do: "place", id: now.site.id, place: dragged(now.site, now.place, now.turning, [dx, dy], view.scale, snap && !event.altKey ? GRID[units] : null), mark: now.mark });
    else if (event.pointerType !== "touch") setOwn({ ...now.view, middle: [now.view.middle[0] - dx / view.scale, now.view.middle[1] + dy / view.scale] });
  };
  const onPointerUp = (event: PointerEvent<SVGSVGElement>) => {
    const now = held.current;
    if (!now || now.pointer !== event.pointerId) return;
    held.current = null;
    if (!now.moved && event.type === "pointerup") send({ do: "select", id: now.site?.id ?? null });
    else if (now.site && places[now.site.id]) tell(now.site, places[now.site.id]!);
    send({ do: "settle" });
  };
  const onKeyDown = (event: KeyboardEvent<SVGSVGElement>) => {
    const grip = (event.target as Element).closest<SVGGElement>("[data-site]"), site = sites.find(({ id }) => id === grip?.dataset["site"]), place = site && places[site.id];
    if (!site || !place || event.ctrlKey || event.metaKey) return;
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      send({ do: "select", id: site.id });
      document.getElementById("map-east")?.focus();
      return;
    }
    const next = pressed(place, event, units, grip?.dataset["turn"] !== undefined);
    if (!next) return;
    event.preventDefault();
    send({ do: "place", id: site.id, place: next, mark: `keys ${site.id}` });
    tell(site, next);
  };
  return (
    <div className={editor.plan}>
      <div className={editor.views} role="group" aria-label={words.view}>
        <button type="button" onClick={() => setOwn(zoomed(view, 1.5))}>{words.closer}</button>
        <button type="button" onClick={() => setOwn(zoomed(view, 1 / 1.5))}>{words.farther}</button>
        <button type="button" onClick={() => setOwn(viewAll(sites, places, size))}>{words.whole}</button>
        <button type="button" disabled={!chosen || !places[chosen.id]} onClick={() => { const at = chosen && places[chosen.id]; if (at) setOwn(viewAround([[at.east - 18_000, at.north - 18_000], [at.east + 18_000, at.north + 18_000]], size)); }}>{words.toSite}</button>
      </div>
      <div ref={setFrame} className={editor.frame} role="application" aria-label={words.map} aria-describedby="map-keys">
        <svg ref={svg} className={`${sheet.sheet} ${styles.drawing}`} viewBox={`0 0 ${size.w} ${size.h}`} role="group" aria-label={words.map} onPointerDown={onPointerDown} onPointerMove={onPointerMove} onPointerUp={onPointerUp} onPointerCancel={onPointerUp} onKeyDown={onKeyDown} onBlur={() => send({ do: "settle" })}>
          <MapGround record={record} toSheet={(p) => toSheet(view, size, p)} scale={view.scale} />
          {sites.filter(({ id }) => places[id] && id !== state.selected).map((site) => <SiteGrip key={site.id} site={site} place={places[site.id]!} view={view} size={size} units={units} chosen={false} />)}
          {chosen && places[chosen.id] && <SiteGrip site={chosen} place={places[chosen.id]!} view={view} size={size} units={units} chosen />}
          <MapFurniture scale={view.scale} size={size} units={units} />
        </svg>
      </div>
      <details className={editor.keys}><summary>{words.keysSummary}</summary><p id="map-keys">{words.keys}</p></details>
    </div>
  );
}

function dragged(site: MapSite, place: Place, turning: boolean, [dx, dy]: readonly [number, number], scale: number, grid: number | null): Place {
  if (!turning) {
    const to: Point = [place.east + dx / scale, place.north - dy / scale];
    return movePlace(place, grid === null ? to : [toGrid(to[0], grid), toGrid(to[1], grid)]);
  }
  const tip = onMap(place, arrowEnd(site)), bearing = bearingTo([place.east, place.north], [tip[0] + dx / scale, tip[1] - dy / scale]);
  return bearing === null ? place : turnPlace(place, grid === null ? bearing : Math.round(bearing / 5) * 5);
}

/** Up is north; comma and period turn, and on the arrow so do left and right. */
function pressed(place: Place, { key, shiftKey, altKey }: KeyboardEvent, units: Units, onArrow: boolean): Place | null {
  const turn = shiftKey ? 15 : altKey ? 0.1 : 1, { step, big, fine } = STEP[units], by = Math.round(shiftKey ? big : altKey ? fine : step);
  if (key === "," || key === "<" || (onArrow && key === "ArrowLeft")) return turnPlace(place, place.bearing - turn);
  if (key === "." || key === ">" || (onArrow && key === "ArrowRight")) return turnPlace(place, place.bearing + turn);
  const way = ({ ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowRight: [1, 0], ArrowLeft: [-1, 0] } as const)[key as "ArrowUp"];
  return way ? movePlace(place, [place.east + way[0] * by, place.north + way[1] * by]) : null;
}

interface GripProps {
  readonly site: MapSite;
  readonly place: Place;
  readonly view: MapView;
  readonly size: MapSize;
  readonly units: Units;
  readonly chosen: boolean;
}

function SiteGrip({ site, place, view, size, units, chosen }: GripProps) {
  const at = (p: Point) => toSheet(view, size, onMap(place, p));
  const pad = site.pad.map(at), [ox, oy] = at([0, 0]), tip = at(arrowEnd(site));
  const x = pad.reduce((sum, p) => sum + p[0], 0) / pad.length, y = pad.reduce((sum, p) => sum + p[1], 0) / pad.length;
  const named = chosen || view.scale > 0.0032;
  return (
    <>
      <g role="button" tabIndex={0} aria-pressed={chosen} aria-label={words.spoken(site.label, place.east, place.north, place.bearing, numbersIn(units, ","))} className={`${editor.grip} ${styles.site} ${chosen ? styles.chosen : ""}`} data-site={site.id} data-held={chosen || undefined}>
        <title>{words.site(site.label)}</title>
        <circle className={editor.placeTarget} cx={r(x)} cy={r(y)} r={chosen ? 22 : 11} />
        <polygon className={styles.pad} points={pad.map(([px, py]) => `${r(px)},${r(py)}`).join(" ")} />
        <circle className={styles.origin} cx={r(ox)} cy={r(oy)} r="2" />
        {named && <text className={styles.name} x={r(x)} y={r(y)} fontSize="12" textAnchor="middle" dominantBaseline="central" aria-hidden="true">{site.label}</text>}
      </g>
      {chosen && (
        <g role="button" tabIndex={0} aria-label={words.arrow(site.label, place.bearing)} className={editor.point} data-site={site.id} data-turn="" data-held="">
          <line className={styles.arrow} x1={r(ox)} y1={r(oy)} x2={r(tip[0])} y2={r(tip[1])} />
          <circle className={editor.placeTarget} cx={r(tip[0])} cy={r(tip[1])} r="22" />
          <circle className={editor.knob} cx={r(tip[0])} cy={r(tip[1])} r="6.5" />
        </g>
      )}
    </>
  );
}

function r(value: number): number {
  return Math.round(value * 10) / 10;
}
