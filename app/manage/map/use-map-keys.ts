"use client";

import { useEffect, useRef, useState, type Dispatch, type FocusEvent, type KeyboardEvent, type RefObject } from "react";
import type { Units } from "@/lib/measure";
import type { Place } from "@/lib/park/edit/place";
import { viewKey } from "../editing/use-lens";
import { movedByKey, turnedBy } from "./map-keys";
import type { MapAction, MapSite, Places } from "./map-state";
import { travel, type Stop } from "./travel";

interface KeysAround {
  readonly svg: RefObject<SVGSVGElement | null>;
  readonly sites: readonly MapSite[];
  readonly places: Places;
  readonly stops: readonly Stop[];
  readonly selected: string | null;
  readonly units: Units;
  readonly send: Dispatch<MapAction>;
  readonly tell: (site: MapSite, place: Place) => void;
  /** Around the site that has the focus, which stays where it is. */
  readonly zoom: (by: number | "whole", around: Stop | undefined) => void;
  /** The site that keys have led to is to be in sight. */
  readonly show: (stop: Stop) => void;
}

/** Steering the map with keys: the Tab key leads to one site only, the last one that was visited or chosen, and from there on keys travel. */
export function useMapKeys(around: KeysAround) {
  const { svg, sites, places, stops, selected, send, tell, zoom, show } = around;
  const [visited, visit] = useState<string | null>(null), next = useRef<(() => void) | null>(null);
  useEffect(() => {
    next.current?.();
    next.current = null;
  });
  const siteAt = (target: EventTarget) => (target as Element).closest<SVGGElement>("[data-site]")?.dataset["site"];
  const onKeyDown = (event: KeyboardEvent<SVGSVGElement>) => {
    const id = siteAt(event.target), site = sites.find((one) => one.id === id), place = site && places[site.id];
    if (!site || !place || event.ctrlKey || event.metaKey) return;
    const back = () => focusOn(svg.current, site.id), asked = viewKey(event), held = site.id === selected;
    const put = turnedBy(place, event) ?? (held ? movedByKey(place, event, around.units) : null), to = put ? null : travel(stops, site.id, event.key);
    if (event.key === "Enter" || event.key === " ") {
      send({ do: "select", id: site.id });
      // Its numbers are there once the page is drawn with it as the chosen one.
      next.current = event.key === "Enter" ? () => document.getElementById("map-east")?.focus() : back;
    } else if (event.key === "Escape" && held) {
      send({ do: "select", id: null });
      next.current = back;
    } else if (asked !== null) zoom(asked, stops.find((one) => one.id === site.id));
    else if (put) {
      send({ do: "place", id: site.id, place: put, mark: `keys ${site.id}` });
      next.current = back;
      tell(site, put);
    } else if (to) focusOn(svg.current, to.id);
    else return;
    event.preventDefault();
  };
  const onFocus = (event: FocusEvent<SVGSVGElement>) => {
    const there = stops.find(({ id }) => id === siteAt(event.target));
    if (!there) return;
    visit(there.id);
    if (event.target.matches(":focus-visible")) show(there);
  };
  return { stop: [visited, selected].find((id) => id !== null && places[id]) ?? stops[0]?.id ?? null, onKeyDown, onFocus };
}

function focusOn(drawing: SVGSVGElement | null, id: string): void {
  drawing?.querySelector<SVGGElement>(`[role=button][data-site="${CSS.escape(id)}"]`)?.focus();
}
