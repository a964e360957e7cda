"use client";

import { useEffect, useRef, useState } from "react";
import type { Units } from "@/lib/measure";
import type { Place } from "@/lib/park/edit/place";
import { numbersIn } from "@/lib/wording/format";
import { mapEditor as words } from "@/lib/wording/en/map-editor";
import { siteEditor } from "@/lib/wording/en/site-editor";
import type { ContestedMove, Places } from "./map-state";
import editor from "../editing/editor.module.css";
import styles from "./map.module.css";

interface UnsavedOfferProps {
  readonly free: Places;
  readonly contested: readonly ContestedMove[];
  readonly units: Units;
  readonly onTake: (places: Places) => void;
  readonly onDrop: () => void;
}

/** Moves from before, to be taken up again. Of a site that somebody else moved meanwhile both places are told, and theirs stays unless mine is chosen. */
export function UnsavedOffer({ free, contested, units, onTake, onDrop }: UnsavedOfferProps) {
  const { kept } = siteEditor, [mine, setMine] = useState<readonly string[]>([]);
  const offer = useRef<HTMLElement>(null);
  // A page that is loaded again is where it was scrolled to.
  useEffect(() => { offer.current?.scrollIntoView({ block: "nearest" }); }, []);
  if (Object.keys(free).length + contested.length === 0) return null;
  const choose = (id: string, isMine: boolean) => setMine([...mine.filter((one) => one !== id), ...(isMine ? [id] : [])]);
  const told = (place: Place | null) => (place ? words.place(place.east, place.north, place.bearing, numbersIn(units, ",")) : words.off);
  const take = () => onTake({ ...free, ...Object.fromEntries(contested.filter(({ id }) => mine.includes(id)).map((one) => [one.id, one.mine])) });
  return (
    <section ref={offer} className={editor.offer} aria-labelledby="unsaved">
      <h2 id="unsaved">{kept.title}</h2>
      {contested.map(({ id, label, place, mine: my }) => (
        <fieldset key={id} className={styles.contested}>
          <legend>{words.contested(label)}</legend>
          <label><input type="radio" name={`keep-${id}`} checked={!mine.includes(id)} onChange={() => choose(id, false)} /> {words.theirs(told(place))}</label>
          <label><input type="radio" name={`keep-${id}`} checked={mine.includes(id)} onChange={() => choose(id, true)} /> {words.mine(told(my))}</label>
        </fieldset>
      ))}
      <p className={editor.offerButtons}><button type="button" onClick={take}>{kept.take}</button> <button type="button" onClick={onDrop}>{kept.drop}</button></p>
    </section>
  );
}
