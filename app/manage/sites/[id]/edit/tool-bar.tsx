"use client";

import { useState, type RefObject } from "react";
import { unitSystems, type Units } from "@/lib/measure";
import { addable, addThing, canAdd, type Addable } from "@/lib/park/edit/change";
import { mirrorSite } from "@/lib/park/edit/mirror";
import { keyOf } from "@/lib/park/edit/record";
import { toGrid, GRID } from "@/lib/park/edit/snap";
import { thingAt } from "@/lib/park/edit/things";
import { siteEditor } from "@/lib/wording/en/site-editor";
import { useAround } from "./field";
import { nameOf } from "../../../editing/names";
import styles from "../../../editing/editor.module.css";

const { bar: words, addable: names } = siteEditor;

interface ToolBarProps {
  readonly snap: boolean;
  readonly setSnap: (snap: boolean) => void;
  readonly setUnits: (units: Units) => void;
  readonly middle: RefObject<readonly [number, number]>;
  readonly say: (text: string) => void;
  /** A thing was put in: its entry of the list is to be read next. */
  readonly onAdded: (key: string) => void;
}

/** What can be done to the record as a whole. */
export function ToolBar({ snap, setSnap, setUnits, middle, say, onAdded }: ToolBarProps) {
  const { state: { history }, units, send } = useAround();
  const turn = (way: "undo" | "redo") => {
    send({ do: way });
    say(way === "undo" ? words.undone : words.redone);
  };
  return (
    <div className={styles.tools} role="toolbar" aria-label={words.name}>
      <button type="button" disabled={history.past.length === 0} aria-keyshortcuts="Control+Z" onClick={() => turn("undo")}>{words.undo}</button>
      <button type="button" disabled={history.future.length === 0} aria-keyshortcuts="Control+Shift+Z" onClick={() => turn("redo")}>{words.redo}</button>
      <button type="button" onClick={() => { send({ do: "change", draft: mirrorSite(history.present) }); say(words.mirrored); }}>{words.mirror}</button>
      <label className={styles.snap} title={words.snapHint(units)}><input type="checkbox" checked={snap} onChange={(event) => setSnap(event.currentTarget.checked)} /> {words.snap}<span className="visually-hidden"> {words.snapHint(units)}</span></label>
      <AddThing middle={middle} say={say} onAdded={onAdded} />
      <div className={styles.units} role="group" aria-label={words.units}>
        {unitSystems.map((system) => <button key={system} type="button" aria-pressed={units === system} onClick={() => setUnits(system)}>{words.unitNames[system]}</button>)}
      </div>
    </div>
  );
}

function AddThing({ middle, say, onAdded }: Pick<ToolBarProps, "middle" | "say" | "onAdded">) {
  const { state: { history }, units, send } = useAround();
  const draft = history.present, possible = addable.filter((one) => canAdd(draft, one));
  const [picked, pick] = useState<Addable>("tree"), what = possible.includes(picked) ? picked : possible[0]!;
  const put = () => {
    const [x, y] = middle.current;
    const added = addThing(draft, what, [toGrid(x, GRID[units]), toGrid(y, GRID[units])]), key = keyOf(added.path);
    send({ do: "change", draft: added.draft, select: key, shifted: true });
    say(words.added(nameOf(added.draft, thingAt(added.draft, added.path)!)));
    onAdded(key);
  };
  return (
    <div className={styles.add}>
      <label><span className="visually-hidden">{words.addLabel}</span><select value={what} onChange={(event) => pick(event.currentTarget.value as Addable)}>{possible.map((one) => <option key={one} value={one}>{names[one]}</option>)}</select></label>
      <button type="button" onClick={put}>{words.add}</button>
    </div>
  );
}
