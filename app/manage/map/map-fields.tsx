"use client";

import { useState, type Dispatch } from "react";
import type { Units } from "@/lib/measure";
import { movePlace, turnPlace, type Place } from "@/lib/park/edit/place";
import type { Point } from "@/lib/plane";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import { lengthFault } from "@/lib/wording/en/verdicts";
import type { MapAction, MapSite, MapState } from "./map-state";
import { printCoordinate, readBearing, readCoordinate } from "./typed-place";
import fields from "../editing/fields.module.css";

interface MapFieldsProps {
  readonly sites: readonly MapSite[];
  readonly state: MapState;
  readonly units: Units;
  readonly send: Dispatch<MapAction>;
  /** The middle of what the map shows, for a site that is not on it yet. */
  readonly middle: () => Point;
}

/** Any site by its post, and its three numbers. */
export function MapFields({ sites, state, units, send, middle }: MapFieldsProps) {
  const places = state.history.present, site = sites.find(({ id }) => id === state.selected), place = site && places[site.id];
  const off = sites.filter(({ id }) => !places[id]);
  return (
    <div className={fields.panel}>
      <div className={fields.field}>
        <label htmlFor="map-site">{words.choose}</label>
        <select id="map-site" value={site?.id ?? ""} onChange={(event) => send({ do: "select", id: event.currentTarget.value || null })}>
          <option value="">{words.chooseNone}</option>
          {sites.map(({ id, label }) => <option key={id} value={id}>{label}</option>)}
        </select>
      </div>
      {site && place && <PlaceFields key={`${site.id} ${units}`} site={site} place={place} units={units} send={send} />}
      {site && !place && <button type="button" className={fields.quiet} onClick={() => send({ do: "place", id: site.id, place: movePlace({ east: 0, north: 0, bearing: 0 }, middle()) })}>{words.put(site.label)}</button>}
      {site && <a href={`/manage/sites/${encodeURIComponent(site.id)}/edit`}>{words.edit}</a>}
      {off.length > 0 && <p className={fields.none}>{words.unplaced(off.map(({ label }) => label))}</p>}
    </div>
  );
}

function PlaceFields({ site: { id }, place, units, send }: { readonly site: MapSite; readonly place: Place; readonly units: Units; readonly send: Dispatch<MapAction> }) {
  const put = (next: Place, field: string) => send({ do: "place", id, place: next, mark: `field ${id} ${field}` });
  const done = () => send({ do: "settle" });
  const wrong = (text: string) => lengthFault(text.trim() === "" ? "empty" : "unreadable", text, units);
  return (
    <>
      <p className={fields.none}>{words.howToType(units)}</p>
      <div className={fields.fields}>
        <Typed id="map-east" label={words.east} shown={printCoordinate(place.east, units)} read={(text) => readCoordinate(text, units)} wrong={wrong} onRead={(east) => put(movePlace(place, [east, place.north]), "east")} onDone={done} />
        <Typed id="map-north" label={words.north} shown={printCoordinate(place.north, units)} read={(text) => readCoordinate(text, units)} wrong={wrong} onRead={(north) => put(movePlace(place, [place.east, north]), "north")} onDone={done} />
        <Typed id="map-bearing" label={words.bearing} shown={`${place.bearing}°`} read={readBearing} wrong={words.degrees} onRead={(bearing) => put(turnPlace(place, bearing), "bearing")} onDone={done} />
      </div>
    </>
  );
}

interface TypedProps {
  readonly id: string;
  readonly label: string;
  readonly shown: string;
  readonly read: (text: string) => number | null;
  readonly wrong: (text: string) => string;
  readonly onRead: (value: number) => void;
  readonly onDone: () => void;
}

/** What cannot be read stays as it was typed, with what is wrong below it; the site stays where it was. */
function Typed({ id, label, shown, read, wrong, onRead, onDone }: TypedProps) {
  const [typing, setTyping] = useState<string | null>(null);
  const fault = typing !== null && read(typing) === null ? wrong(typing) : null;
  return (
    <div className={fault ? fields.faulty : fields.field}>
      <label htmlFor={id}>{label}</label>
      <input id={id} value={typing ?? shown} autoComplete="off" aria-invalid={fault ? true : undefined} aria-describedby={fault ? `${id}-fault` : undefined} onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => { const text = event.currentTarget.value, value = read(text); setTyping(text); if (value !== null) onRead(value); }} onBlur={() => { if (!fault) setTyping(null); onDone(); }} />
      {fault && <p id={`${id}-fault`} className={fields.fault}>{fault}</p>}
    </div>
  );
}
