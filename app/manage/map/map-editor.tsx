"use client";

import { useCallback, useEffect, useReducer, useRef, useState, useTransition } from "react";
import { unitSystems, type Units } from "@/lib/measure";
import { movedBy } from "@/lib/park/edit/place";
import type { Point } from "@/lib/plane";
import { numbersIn } from "@/lib/wording/format";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import { siteEditor } from "@/lib/wording/en/site-editor";
import type { ParkRecord } from "../../components/park-map/record";
import { savePlaces } from "./actions";
import { MapFields } from "./map-fields";
import { MapPlan } from "./map-plan";
import { heldAgainst, keptMoves, movedSites, reduceMap, startMap, type MapSite } from "./map-state";
import { UnsavedOffer } from "./unsaved-offer";
import { useUnsavedPlaces } from "./use-unsaved-places";
import editor from "../editing/editor.module.css";
import fields from "../editing/fields.module.css";
import styles from "./map.module.css";

interface MapEditorProps {
  readonly sites: readonly MapSite[];
  readonly record: ParkRecord;
  readonly units: Units;
  readonly selected: string | null;
  readonly keptAs: string;
}

/** The park's map and the numbers of each site's place: two ways to change the same, saved for many sites at once. */
export function MapEditor({ sites: opened, record, units: first, selected, keptAs }: MapEditorProps) {
  const [sites, setSites] = useState(opened);
  const [state, send] = useReducer(reduceMap, { sites: opened, selected }, startMap);
  const [units, setUnits] = useState(first), [snap, setSnap] = useState(true), [said, say] = useState("");
  const middle = useRef<Point>([0, 0]);
  const onView = useCallback((at: Point) => { middle.current = at; }, []);
  const { history } = state, moved = movedSites(sites, history.present);
  const { offered, decide } = useUnsavedPlaces(keptAs, keptMoves(moved)), held = offered && heldAgainst(sites, offered);
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "z") return;
      event.preventDefault();
      send({ do: event.shiftKey ? "redo" : "undo" });
      say(event.shiftKey ? words.redone : words.undone);
    };
    document.addEventListener("keydown", press);
    return () => document.removeEventListener("keydown", press);
  }, []);
  const turn = (way: "undo" | "redo") => { send({ do: way }); say(way === "undo" ? words.undone : words.redone); };
  const saved = (versions: Readonly<Record<string, number>>) => {
    setSites(sites.map((site) => (site.id in versions ? { ...site, version: versions[site.id]!, place: history.present[site.id] ?? site.place } : site)));
  };
  return (
    <div className={editor.editor}>
      {held && <UnsavedOffer {...held} units={units} onTake={(places) => { send({ do: "take up", places }); decide(); }} onDrop={decide} />}
      <div className={editor.tools} role="toolbar" aria-label={words.bar}>
        <button type="button" disabled={history.past.length === 0} onClick={() => turn("undo")}>{words.undo}</button>
        <button type="button" disabled={history.future.length === 0} onClick={() => turn("redo")}>{words.redo}</button>
        <label className={editor.snap} title={words.snapHint(units)}><input type="checkbox" checked={snap} onChange={(event) => setSnap(event.currentTarget.checked)} /> {words.snap}<span className="visually-hidden"> {words.snapHint(units)}</span></label>
        <div className={editor.units} role="group" aria-label={siteEditor.bar.units}>{unitSystems.map((system) => <button key={system} type="button" aria-pressed={units === system} onClick={() => setUnits(system)}>{siteEditor.bar.unitNames[system]}</button>)}</div>
      </div>
      <div className={editor.columns}>
        <MapPlan sites={sites} record={record} state={state} units={units} snap={snap} send={send} say={say} onView={onView} />
        <div className={editor.side}><MapFields sites={sites} state={state} units={units} send={send} middle={() => middle.current} /></div>
      </div>
      <SavePlaces sites={moved} units={units} onSaved={saved} />
      <p className="visually-hidden" role="status" aria-live="polite" data-said="">{said}</p>
    </div>
  );
}

interface SavePlacesProps {
  readonly sites: ReturnType<typeof movedSites>;
  readonly units: Units;
  readonly onSaved: (versions: Readonly<Record<string, number>>) => void;
}

/** First the list of what moved, then the button that saves all of it or nothing. */
function SavePlaces({ sites, units, onSaved }: SavePlacesProps) {
  const [looking, look] = useState(false), [why, setWhy] = useState(""), [said, say] = useState<string | null>(null), [saving, start] = useTransition();
  const shown = looking && sites.length > 0;
  const list = useRef<HTMLHeadingElement>(null);
  useEffect(() => { if (shown) list.current?.focus(); }, [shown]);
  const save = () => start(async () => {
    try {
      const answer = await savePlaces({ moves: sites.map(({ id, version, now }) => ({ siteId: id, base: version, place: now })), why });
      if (!answer.ok) return say(answer.gone ? words.gone : answer.stale.length > 0 ? words.stale(answer.stale) : words.failed);
      say(words.saved(sites.length));
      look(false);
      onSaved(answer.versions);
    } catch {
      say(words.failed);
    }
  });
  return (
    <>
      {shown && (
        <section className={editor.offer} aria-labelledby="what-moved">
          <h2 id="what-moved" ref={list} tabIndex={-1}>{words.moved}</h2>
          <ul className={styles.moved}>{sites.map((site) => <li key={site.id}><b>{site.label}</b>: {lineOf(site, units)}</li>)}</ul>
          <p>{words.noFit}</p>
          <div className={fields.field}><label htmlFor="map-why">{words.why}</label><p id="map-why-hint" className={editor.hint}>{words.whyHint}</p><input id="map-why" value={why} maxLength={300} autoComplete="off" aria-describedby="map-why-hint" onChange={(event) => setWhy(event.currentTarget.value)} /></div>
        </section>
      )}
      <div className={editor.save}>
        {shown ? <button type="button" className={editor.look} disabled={saving} onClick={save}>{saving ? words.saving : words.save(sites.length)}</button> : <button type="button" className={editor.look} disabled={sites.length === 0} onClick={() => { look(true); say(null); }}>{words.look}</button>}
        {shown && <button type="button" className={fields.quiet} onClick={() => look(false)}>{words.close}</button>}
        <p role="status">{said ?? (sites.length === 0 ? words.unchanged : words.changed(sites.length))}</p>
      </div>
    </>
  );
}

function lineOf({ place, now }: SavePlacesProps["sites"][number], units: Units): string {
  if (!place) return words.placed;
  const { far, turned } = movedBy(place, now);
  return words.movedLine(far >= 1 ? numbersIn(units, ",").measured(far) : null, turned);
}

