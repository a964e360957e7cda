"use client";

import { useState, useTransition } from "react";
import { siteEditor } from "@/lib/wording/en/site-editor";
import { proposeChange, type Knowing } from "./actions";
import { isChanged } from "./editor-state";
import { useAround } from "./field";
import type { ToPutRight } from "./fault-list";
import styles from "../../../editing/editor.module.css";

const { save: words } = siteEditor;
const knowings = ["tape", "from-plan", "estimated"] as const satisfies readonly Knowing[], unsaid = "unsaid";

interface SavePartProps {
  readonly siteId: string;
  readonly base: number | null;
  readonly surveyed: boolean;
  /** What is edited was proposed before, or is new: it can be looked at as it is. */
  readonly proposed: boolean;
  readonly toPutRight: readonly ToPutRight[];
  readonly onRefused: () => void;
  readonly letGo: () => void;
}

/** The way to the page that shows what would change: from there it is saved. Refused as long as anything is wrong. */
export function SavePart({ siteId, base, surveyed, proposed, toPutRight, onRefused, letGo }: SavePartProps) {
  const { state } = useAround();
  const [sending, start] = useTransition();
  const [said, say] = useState<string | null>(null), [knowing, setKnowing] = useState<Knowing | typeof unsaid>(surveyed ? "from-plan" : unsaid);
  const { history } = state, changed = isChanged(state) || proposed;
  const look = () => {
    if (toPutRight.length > 0) {
      say(words.refused);
      return onRefused();
    }
    start(async () => {
      try {
        const answer = await proposeChange({ siteId, base, record: history.present, knowing: knowing === unsaid ? null : knowing });
        if (!answer.ok) return say(answer.gone ? words.gone : words.failed);
        letGo();
        // Whoever comes back finds what was proposed, not the site as it was.
        window.history.replaceState(null, "", answer.edit);
        // Not before the page has heard that it need not ask.
        setTimeout(() => window.location.assign(answer.address));
      } catch {
        say(words.failed);
      }
    });
  };
  return (
    <div className={styles.save} role="region" aria-label={words.name}>
      {base !== null && changed && (
        <label className={styles.knowing}>{words.how} <select value={knowing} title={surveyed ? words.howHint : words.howHintFirst} onChange={(event) => setKnowing(event.currentTarget.value as typeof knowing)}>{(surveyed ? knowings : [unsaid, ...knowings] as const).map((one) => <option key={one} value={one}>{words.howNames[one]}</option>)}</select></label>
      )}
      <button type="button" className={styles.look} disabled={!changed || sending} onClick={look}>{sending ? words.looking : words.look}</button>
      <p role="status">{said ?? (changed && history.past.length > 0 ? words.changed(history.past.length) : words.unchanged)}</p>
    </div>
  );
}
