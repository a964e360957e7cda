import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import type { SiteInput } from "@/lib/park";
import { takeStep, type Step } from "@/lib/survey";
import { outcomeOf } from "./outcome";
import { dropKept, keepStep, listKept, settleKept, type KeptStep } from "./kept-steps";

/** How the phone stands with the office. */
export type Sending = "idle" | "sending" | "waiting" | "signed-out" | "gone" | "no-store";

export interface Steps {
  /** The record with everything that is kept here on top. */
  readonly record: SiteInput;
  /** Not sent yet. */
  readonly waiting: number;
  readonly refused: readonly KeptStep[];
  readonly sending: Sending;
  /** The survey's id in the office, once something was sent. */
  readonly draft: string | null;
  /** How many times the office took something: as often there is something else on the page. */
  readonly sent: number;
  readonly take: (step: Step) => Promise<void>;
  readonly drop: (key: number) => Promise<void>;
  readonly send: () => void;
}

/** What could not be sent is tried again after this, ms; and at once when the browser says that it is back on the network. */
const AGAIN = 20_000;
/** As many go at once: an answer is soon there, and what it says is about few. */
const MOST = 100;

/** Steps of a survey: kept in the browser's own database as they are taken, sent in their order, forgotten once the office has them. */
export function useSteps({ account, site, record, draft: begun }: { readonly account: string; readonly site: string; readonly record: SiteInput; readonly draft: string | null }): Steps {
  const [office, setOffice] = useState({ record, draft: begun, sent: 0 });
  const [kept, setKept] = useState<readonly KeptStep[]>([]);
  const [sending, setSending] = useState<Sending>("idle");
  const busy = useRef(false);
  const refresh = useCallback(() => listKept(account, site).then(setKept), [account, site]);

  const send = useCallback(async () => {
    if (busy.current) return;
    busy.current = true;
    let most = MOST;
    try {
      for (;;) {
        const open = (await listKept(account, site)).filter(({ refused }) => refused !== true).slice(0, most);
        if (open.length === 0) return setSending("idle");
        setSending("sending");
        const answer = await post(site, open.map(({ step }) => step));
        if (answer === "fewer") { most = Math.ceil(open.length / 2); continue; }
        if (typeof answer === "string") return setSending(answer);
        const refused = new Set(answer.refused);
        await settleKept(open, refused);
        setOffice(({ record: before, draft, sent }) => ({ draft: answer.draft || draft, sent: sent + 1, record: open.reduce((at, { step }, i) => (refused.has(i) ? at : onTop(at, step)), before) }));
        await refresh();
      }
    } catch {
      setSending("no-store");
    } finally {
      busy.current = false;
    }
  }, [account, site, refresh]);

  useEffect(() => {
    const go = () => void send();
    refresh().then(go, () => setSending("no-store"));
    const timer = setInterval(go, AGAIN);
    window.addEventListener("online", go);
    return () => { clearInterval(timer); window.removeEventListener("online", go); };
  }, [refresh, send]);

  const waiting = kept.filter(({ refused }) => refused !== true);
  const shown = useMemo(() => waiting.reduce((at, { step }) => onTop(at, step), office.record), [office.record, kept]); // eslint-disable-line react-hooks/exhaustive-deps -- waiting is made of kept
  return {
    record: shown, waiting: waiting.length, refused: kept.filter(({ refused }) => refused === true), sending, draft: office.draft, sent: office.sent,
    take: async (step) => { await keepStep({ account, site, step }); await refresh(); void send(); },
    drop: async (key) => { await dropKept(key); await refresh(); },
    send: () => void send(),
  };
}

function onTop(record: SiteInput, step: Step): SiteInput {
  const done = takeStep(record, step);
  return done.ok ? done.record : record;
}

interface Answer {
  readonly draft: string;
  readonly refused: readonly number[];
}

async function post(site: string, steps: readonly Step[]): Promise<Answer | "fewer" | "waiting" | "signed-out" | "gone"> {
  const answer = await fetch(`/manage/survey/${encodeURIComponent(site)}/send`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ steps }) }).catch(() => null);
  const outcome = outcomeOf(answer?.status ?? 0, steps.length);
  if (outcome === "refused") return { draft: "", refused: [0] };
  if (outcome !== "taken") return outcome;
  // A network that asks to be signed in to answers in the office's place.
  const told = (await answer!.json().catch(() => null)) as Partial<Answer> | null;
  return typeof told?.draft === "string" && Array.isArray(told.refused) ? { draft: told.draft, refused: told.refused } : "waiting";
}
