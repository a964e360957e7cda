"use client";

import { useEffect, useMemo, useReducer, useRef, useState } from "react";
import type { Units } from "@/lib/measure";
import { faultsOf } from "@/lib/park/edit/faults";
import type { Draft } from "@/lib/park/edit/record";
import { siteEditor as words } from "@/lib/wording/en/site-editor";
import { EditPlan } from "./edit-plan";
import { reduceEditor, startEditing } from "./editor-state";
import { FaultList, useToPutRight, whereTold, type ToPutRight } from "./fault-list";
import { Around, type FieldsAround } from "./field";
import { SavePart } from "./save-part";
import { entryId, ThingList } from "./thing-list";
import { ToolBar } from "./tool-bar";
import { useUnsaved } from "./use-unsaved";
import styles from "../../../editing/editor.module.css";

interface SiteEditorProps {
  readonly siteId: string;
  readonly label: string;
  /** The record to begin with: the site's, or a draft of it. */
  readonly record: Draft;
  /** The version that it began from; null: a new site. */
  readonly base: number | null;
  readonly units: Units;
  /** What is opened is not the site as it is, but a proposal. */
  readonly proposed: boolean;
  /** Names this park's and this site's unsaved work among others in the tab. */
  readonly keptAs: string;
}

/** A site's plan and its numbers side by side: two ways to change one record. */
export function SiteEditor({ siteId, label, record, base: opened, units: first, proposed, keptAs }: SiteEditorProps) {
  const [state, send] = useReducer(reduceEditor, record, startEditing);
  const [units, setUnits] = useState(first), [snap, setSnap] = useState(true), [said, say] = useState(""), [base, setBase] = useState(opened);
  const draft = state.history.present, faults = useMemo(() => faultsOf(draft), [draft]);
  const middle = useRef<readonly [number, number]>([4000, 0]), goTo = useRef<string | null>(null);
  const changed = draft !== record || Object.keys(state.unread).length > 0;
  const { offered, decide, letGo } = useUnsaved(keptAs, siteId, record, draft, base, changed);
  const around = useMemo((): FieldsAround => ({ state, faults, units, send }), [state, faults, units]);
  useEffect(() => {
    const key = goTo.current;
    if (key === null) return;
    const target = whereTold(key) ?? document.getElementById(entryId(key));
    if (!target) return;
    goTo.current = null;
    target.focus();
    target.scrollIntoView({ block: "nearest" });
  });
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const way = wayOf(event);
      if (!way) return;
      event.preventDefault();
      send({ do: way });
      say(way === "undo" ? words.bar.undone : words.bar.redone);
    };
    document.addEventListener("keydown", press);
    return () => document.removeEventListener("keydown", press);
  }, []);
  const go = (one: ToPutRight) => {
    goTo.current = one.key;
    send({ do: "select", key: one.entry });
    // Where the entry is open already nothing is drawn anew.
    const told = whereTold(one.key);
    if (told) { goTo.current = null; told.focus(); }
  };
  return (
    <Around value={around}>
      <div className={styles.editor}>
        {offered && <Offer older={offered.base !== opened} onTake={() => { send({ do: "take up", draft: offered.draft }); setBase(offered.base); decide(); say(words.kept.taken); }} onDrop={() => { decide(); say(words.kept.dropped); }} />}
        <ToolBar snap={snap} setSnap={setSnap} setUnits={setUnits} middle={middle} say={say} onAdded={(key) => { goTo.current = key; }} />
        <div className={styles.columns}>
          <EditPlan label={label} draft={draft} selected={state.selected} faults={faults} units={units} snap={snap} send={send} say={say} middleRef={middle} />
          <div className={styles.side}>
            <p className={styles.typing}>{words.howToType(units)}</p>
            <ThingList onRemoved={(name) => say(words.bar.removed(name))} />
          </div>
        </div>
        <Ending siteId={siteId} base={base} proposed={proposed} surveyed={(draft.survey?.measurements?.length ?? 0) > 0} go={go} letGo={letGo} />
        <p className="visually-hidden" role="status" aria-live="polite" data-said="">{said}</p>
      </div>
    </Around>
  );
}

/** Ctrl+Z and Ctrl+Shift+Z, or Ctrl+Y, wherever the focus is: in a field too, where half a number is a step like any other. */
function wayOf(event: KeyboardEvent): "undo" | "redo" | null {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return null;
  const key = event.key.toLowerCase();
  return key === "z" ? (event.shiftKey ? "redo" : "undo") : key === "y" ? "redo" : null;
}

function Ending({ siteId, base, proposed, surveyed, go, letGo }: { readonly siteId: string; readonly base: number | null; readonly proposed: boolean; readonly surveyed: boolean; readonly go: (one: ToPutRight) => void; readonly letGo: () => void }) {
  const toPutRight = useToPutRight();
  return (
    <>
      <FaultList toPutRight={toPutRight} onGo={go} />
      <SavePart siteId={siteId} base={base} proposed={proposed} surveyed={surveyed} toPutRight={toPutRight} onRefused={() => go(toPutRight[0]!)} letGo={letGo} />
    </>
  );
}

function Offer({ older, onTake, onDrop }: { readonly older: boolean; readonly onTake: () => void; readonly onDrop: () => void }) {
  return (
    <section className={styles.offer} aria-labelledby="unsaved">
      <h2 id="unsaved">{words.kept.title}</h2>
      <p>{words.kept.text}{older && ` ${words.kept.older}`}</p>
      <p className={styles.offerButtons}><button type="button" onClick={onTake}>{words.kept.take}</button> <button type="button" onClick={onDrop}>{words.kept.drop}</button></p>
    </section>
  );
}
