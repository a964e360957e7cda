"use client";

import { useSyncExternalStore } from "react";
import { forgetRig, readRememberedRig, watchRememberedRig } from "./remembered";
import styles from "./last-rig.module.css";

interface Words {
  readonly again: string;
  readonly againLine: string;
  readonly forget: string;
}

/** Offers the rig that this device was last told about. Without script, or with nothing kept, there is no offer. */
export function LastRig({ words }: { readonly words: Words }) {
  const kept = useSyncExternalStore(watchRememberedRig, readRememberedRig, () => null);
  if (!kept) return null;
  return (
    <section className={styles.last} aria-label={words.again}>
      <a href={`/sites?${kept.query}`}><span>{words.again}:</span> <b>{kept.name}</b></a>
      <p>{words.againLine} <button type="button" onClick={forgetRig}>{words.forget}</button></p>
    </section>
  );
}
