"use client";

import { useState } from "react";
import { nights as words } from "@/lib/wording/en/nights";
import type { Nights } from "@/lib/stays/nights";
import { moveOnBoard, type Move, type Moved } from "./actions";
import { nightsAt, type Bar, type BoardData } from "./board-data";
import type { Hand } from "./use-hand";

/** What a person has to say before the move is made. */
export interface Asked {
  readonly move: Move;
  readonly name: string;
  readonly where: string;
  readonly bar: Bar | null;
  readonly answer: Extract<Moved, { outcome: "confirm" }>;
}

interface PutDownParts {
  readonly data: BoardData;
  readonly fresh: () => Promise<void>;
  readonly letGo: (bar: Bar) => void;
}

interface Before {
  readonly stay: string;
  readonly name: string;
  readonly site: string | null;
  readonly nights: Nights;
}

/** Puts down what is in hand: asks the server, asks the person where their word is needed, and says what became of it. */
export function usePutDown({ data, fresh, letGo }: PutDownParts) {
  const [said, say] = useState("");
  const [asked, ask] = useState<Asked | null>(null);
  const [last, setLast] = useState<{ before: Before; version: number } | null>(null);
  const siteAt = (row: number) => { const entry = data.rows[row]; return entry?.kind === "site" ? entry : null; };

  const make = async (move: Move, name: string, where: string, bar: Bar | null) => {
    const before = bar && beforeOf({ bar });
    const answer = await moveOnBoard(move).catch((): Moved => ({ outcome: "refused", sentences: [words.notNow] }));
    if (answer.outcome === "confirm") return ask({ move, name, where, bar, answer });
    ask(null);
    if (answer.outcome === "moved") {
      setLast(before && { before, version: answer.version });
      await fresh();
    }
    if (bar) letGo(bar);
    say(answer.outcome === "moved" ? (before ? words.putDown(name, where) : words.undone) : answer.sentences.join(" "));
  };

  const beforeOf = (hand: Pick<Hand, "bar">): Before => ({ stay: hand.bar.id, name: hand.bar.text, site: siteAt(hand.bar.row)?.id ?? null, nights: nightsAt(data, hand.bar.from, hand.bar.to) });

  return {
    said,
    say,
    asked,
    last,
    putDown: async (hand: Hand) => {
      const site = siteAt(hand.row);
      if (hand.row === hand.bar.row && hand.from === hand.bar.from) {
        letGo(hand.bar);
        return say(words.back(hand.bar.text));
      }
      const nights = nightsAt(data, hand.from, hand.from + hand.bar.to - hand.bar.from);
      await make({ stay: hand.bar.id, version: hand.bar.version, site: site?.id ?? null, nights, reason: null, accepts: null }, hand.bar.text, site?.label ?? words.noSite, hand.bar);
    },
    answer: async (reason: string) => {
      if (!asked) return;
      await make({ ...asked.move, reason: reason || null, accepts: asked.answer.accepts }, asked.name, asked.where, asked.bar);
    },
    dismiss: () => ask(null),
    /** Back to the site and nights it had. One that had no site stays where it is: it cannot be put on none. */
    undo: async () => {
      if (!last) return;
      setLast(null);
      await make({ stay: last.before.stay, version: last.version, site: last.before.site, nights: last.before.nights, reason: words.undo, accepts: 0 }, last.before.name, "", null);
    },
  };
}
