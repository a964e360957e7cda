"use client";

import { useEffect, useMemo, useRef, useState, type Dispatch } from "react";
import type { Units } from "@/lib/measure";
import type { Place } from "@/lib/park/edit/place";
import type { Point } from "@/lib/plane";
import { numbersIn } from "@/lib/wording/format";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import type { ParkRecord } from "../../components/park-map/record";
import { NEARER, useLens } from "../editing/use-lens";
import { useSize } from "../editing/use-size";
import { MapFurniture, MapGround } from "./map-ground";
import type { MapAction, MapSite, MapState } from "./map-state";
import { mapLens, showing, toSheet, viewAll, viewAround, type MapSize, type MapView } from "./map-view";
import { SiteGrip, TurnGrip } from "./site-grip";
import { stopsOf, type Stop } from "./travel";
import { useMapKeys } from "./use-map-keys";
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
  const [frame, setFrame] = useState<HTMLDivElement | null>(null), size = useSize(frame, FIRST), svg = useRef<SVGSVGElement>(null);
  const [own, setOwn] = useState<MapView | null>(null), [opened] = useState(state.history.present);
  const { selected } = state, places = state.history.present, view = own ?? viewAll(sites, opened, size);
  const chosen = sites.find(({ id }) => id === selected), chosenPlace = chosen && places[chosen.id];
  useEffect(() => { onView(view.middle); }, [onView, view.middle]);
  const through = useMemo(() => mapLens(size), [size]), lens = useLens({ svg, lens: through, look: view, setLook: setOwn });
  const tell = (site: MapSite, place: Place) => say(words.spoken(site.label, place.east, place.north, place.bearing, numbersIn(units, ",")));
  const whole = () => setOwn(viewAll(sites, places, size)), zoom = (by: number | "whole", stop?: Stop) => (by === "whole" ? whole() : lens.zoom(by, stop && toSheet(view, size, stop.at)));
  const pointer = useMapPointer({ sites, places, selected, view, size, lens, units, snap, send, setView: setOwn, tell });
  const { stop, ...keys } = useMapKeys({ svg, sites, places, stops: stopsOf(sites, places), selected, units, send, tell, zoom, show: ({ at }) => setOwn(showing(view, size, at)) });
  const toChosen = () => { if (chosenPlace) setOwn(viewAround([[chosenPlace.east - 18_000, chosenPlace.north - 18_000], [chosenPlace.east + 18_000, chosenPlace.north + 18_000]], size)); };
  const around = { view, size, units };
  return (
    <div className={editor.plan}>
      <div className={editor.views} role="group" aria-label={words.view}>
        <button type="button" onClick={() => lens.zoom(NEARER)}>{words.closer}</button>
        <button type="button" onClick={() => lens.zoom(1 / NEARER)}>{words.farther}</button>
        <button type="button" onClick={whole}>{words.whole}</button>
        <button type="button" disabled={!chosenPlace} onClick={toChosen}>{words.toSite}</button>
      </div>
      <div ref={setFrame} className={editor.frame} role="application" aria-label={words.map} aria-describedby="map-keys">
        <svg ref={svg} className={`${sheet.sheet} ${styles.drawing}`} viewBox={`0 0 ${size.w} ${size.h}`} role="group" aria-label={words.map} {...pointer} {...keys} onBlur={() => send({ do: "settle" })}>
          <MapGround record={record} toSheet={(p) => toSheet(view, size, p)} scale={view.scale} />
          {[...sites.filter(({ id }) => places[id] && id !== selected), ...(chosenPlace ? [chosen] : [])].map((site) => <SiteGrip key={site.id} {...around} site={site} place={places[site.id]!} chosen={site === chosen} stop={site.id === stop} />)}
          {chosen && chosenPlace && <TurnGrip {...around} site={chosen} place={chosenPlace} />}
          <MapFurniture scale={view.scale} size={size} units={units} />
        </svg>
      </div>
      <details className={editor.keys}><summary>{words.keysSummary}</summary><p id="map-keys">{words.keys}</p></details>
    </div>
  );
}
