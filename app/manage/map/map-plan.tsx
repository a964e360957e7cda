"use client";

import { useEffect, useMemo, useRef, useState, type Dispatch, type FocusEvent, type KeyboardEvent } from "react";
import type { Units } from "@/lib/measure";
import type { Place } from "@/lib/park/edit/place";
import type { Point } from "@/lib/plane";
import { numbersIn } from "@/lib/wording/format";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import type { ParkRecord } from "../../components/park-map/record";
import { NEARER, useLens, viewKey } from "../editing/use-lens";
import { MapFurniture, MapGround } from "./map-ground";
import { movedByKey, turnedBy } from "./map-keys";
import type { MapAction, MapSite, MapState } from "./map-state";
import { mapLens, showing, toSheet, viewAll, viewAround, type MapSize, type MapView } from "./map-view";
import { SiteGrip, TurnGrip } from "./site-grip";
import { stopsOf, travel } from "./travel";
import { useMapPointer } from "./use-map-pointer";
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

const FIRST: MapSize = { w: 358, h: 400 };

/** The park's map with every site on it, to be dragged, turned and steered with keys. */
export function MapPlan({ sites, record, state, units, snap, send, say, onView }: MapPlanProps) {
  const [frame, setFrame] = useState<HTMLDivElement | null>(null), size = useSize(frame);
  const [own, setOwn] = useState<MapView | null>(null), [opened] = useState(state.history.present), [visited, visit] = useState<string | null>(null);
  const svg = useRef<SVGSVGElement>(null), next = useRef<(() => void) | null>(null);
  const places = state.history.present, view = own ?? viewAll(sites, opened, size), stops = stopsOf(sites, places);
  const chosen = sites.find(({ id }) => id === state.selected), chosenPlace = chosen && places[chosen.id];
  // The Tab key leads to one site only, the last one that was visited or chosen; from there on keys travel.
  const stop = [visited, state.selected].find((id) => id !== null && places[id]) ?? stops[0]?.id ?? null;
  useEffect(() => { onView(view.middle); }, [onView, view.middle]);
  useEffect(() => {
    next.current?.();
    next.current = null;
  });
  const through = useMemo(() => mapLens(size), [size]), lens = useLens({ svg, lens: through, look: view, setLook: setOwn });
  const tell = (site: MapSite, place: Place) => say(words.spoken(site.label, place.east, place.north, place.bearing, numbersIn(units, ",")));
  const pointer = useMapPointer({ sites, places, selected: state.selected, view, size, lens, units, snap, send, setView: setOwn, tell });
  const onKeyDown = (event: KeyboardEvent<SVGSVGElement>) => {
    const id = (event.target as Element).closest<SVGGElement>("[data-site]")?.dataset["site"], site = sites.find((one) => one.id === id), place = site && places[site.id];
    if (!site || !place || event.ctrlKey || event.metaKey) return;
    const back = () => focusOn(svg.current, site.id), asked = viewKey(event), held = site.id === state.selected;
    const put = turnedBy(place, event) ?? (held ? movedByKey(place, event, units) : null), to = put ? null : travel(stops, site.id, event.key);
    if (event.key === "Enter" || event.key === " ") {
      send({ do: "select", id: site.id });
      // Its numbers are there once the page is drawn with it as the chosen one.
      next.current = event.key === "Enter" ? () => document.getElementById("map-east")?.focus() : back;
    } else if (event.key === "Escape" && held) {
      send({ do: "select", id: null });
      next.current = back;
    } else if (asked !== null) {
      if (asked === "whole") setOwn(viewAll(sites, places, size)); else lens.zoom(asked);
    } else if (put) {
      send({ do: "place", id: site.id, place: put, mark: `keys ${site.id}` });
      next.current = back;
      tell(site, put);
    } else if (to) focusOn(svg.current, to.id);
    else return;
    event.preventDefault();
  };
  const onFocus = (event: FocusEvent<SVGSVGElement>) => {
    const id = (event.target as Element).closest<SVGGElement>("[data-site]")?.dataset["site"], there = stops.find((one) => one.id === id);
    if (!there) return;
    visit(there.id);
    if (event.target.matches(":focus-visible")) setOwn(showing(view, size, there.at));
  };
  const toChosen = () => { if (chosenPlace) setOwn(viewAround([[chosenPlace.east - 18_000, chosenPlace.north - 18_000], [chosenPlace.east + 18_000, chosenPlace.north + 18_000]], size)); };
  const around = { view, size, units };
  return (
    <div className={editor.plan}>
      <div className={editor.views} role="group" aria-label={words.view}>
        <button type="button" onClick={() => lens.zoom(NEARER)}>{words.closer}</button>
        <button type="button" onClick={() => lens.zoom(1 / NEARER)}>{words.farther}</button>
        <button type="button" onClick={() => setOwn(viewAll(sites, places, size))}>{words.whole}</button>
        <button type="button" disabled={!chosenPlace} onClick={toChosen}>{words.toSite}</button>
      </div>
      <div ref={setFrame} className={editor.frame} role="application" aria-label={words.map} aria-describedby="map-keys">
        <svg ref={svg} className={`${sheet.sheet} ${styles.drawing}`} viewBox={`0 0 ${size.w} ${size.h}`} role="group" aria-label={words.map} {...pointer} onKeyDown={onKeyDown} onFocus={onFocus} onBlur={() => send({ do: "settle" })}>
          <MapGround record={record} toSheet={(p) => toSheet(view, size, p)} scale={view.scale} />
          {[...sites.filter(({ id }) => places[id] && id !== state.selected), ...(chosenPlace ? [chosen] : [])].map((site) => <SiteGrip key={site.id} {...around} site={site} place={places[site.id]!} chosen={site === chosen} stop={site.id === stop} />)}
          {chosen && chosenPlace && <TurnGrip {...around} site={chosen} place={chosenPlace} />}
          <MapFurniture scale={view.scale} size={size} units={units} />
        </svg>
      </div>
      <details className={editor.keys}><summary>{words.keysSummary}</summary><p id="map-keys">{words.keys}</p></details>
    </div>
  );
}

function focusOn(drawing: SVGSVGElement | null, id: string): void {
  drawing?.querySelector<SVGGElement>(`[role=button][data-site="${CSS.escape(id)}"]`)?.focus();
}

/** The size of the sheet on the glass; before it is known, and on the server, that of a phone. */
function useSize(frame: HTMLDivElement | null): MapSize {
  const [size, setSize] = useState(FIRST);
  useEffect(() => {
    if (!frame) return undefined;
    const observer = new ResizeObserver(() => setSize((before) => (before.w === frame.clientWidth && before.h === frame.clientHeight || frame.clientWidth === 0 ? before : { w: frame.clientWidth, h: frame.clientHeight })));
    observer.observe(frame);
    return () => observer.disconnect();
  }, [frame]);
  return size;
}
