import { one, type Params } from "../../components/rig-form/params";
import { unitsOf } from "../../components/rig-form/read";
import { staffContext, type StaffContext } from "../../manage/context";
import { compareValues } from "../../manage/site-rows";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { factIds, type Answers } from "./facts";
import { readCall, shortWords, type CalledKind, type ReadCall } from "./read-call";

/** What the address says of a caller. */
export interface Asked extends Pick<StaffContext, "park" | "loops"> {
  readonly units: Units;
  /** As typed; empty before anything is. */
  readonly text: string;
  readonly read: ReadCall | null;
  readonly answers: Answers;
  readonly loop: string | null;
  readonly loopIds: readonly string[];
  /** The sites asked about: those of the loop, or all. */
  readonly sites: readonly Site[];
}

/** Null where no park is loaded. */
export async function askedOf(params: Params): Promise<Asked | null> {
  const context = await staffContext();
  if (!context) return null;
  const { park, loops, surveyed } = context;
  const units = unitsOf(params, park.units);
  const text = textOf(params);
  const all = surveyed.map(({ site }) => site);
  const loopIds = [...new Set(all.flatMap(({ loop }) => loop ?? []))].sort(compareValues);
  const loop = loopIds.find((id) => id === one(params.loop)) ?? null;
  return { park, loops, units, text, read: text === "" ? null : readCall(text, units), answers: answersOf(params, text), loop, loopIds, sites: loop === null ? all : all.filter((site) => site.loop === loop) };
}

/** The address that asks the same, with other answers. */
export function queryOf({ text, answers, loop, units, park }: Asked, change: Answers & { readonly [id: string]: boolean | undefined } = {}): string {
  const query = new URLSearchParams({ call: text });
  if (loop !== null) query.set("loop", loop);
  const now: Answers = { ...answers, ...change };
  for (const id of factIds) if (now[id] !== undefined) query.set(id, now[id] ? "yes" : "no");
  if (units !== park.units) query.set("units", units);
  return query.toString();
}

/** One line, or a kind chosen from the list and a length beside it. */
function textOf(params: Params): string {
  const line = one(params.call)?.trim() ?? "";
  if (line !== "") return line;
  const kind = (Object.keys(shortWords) as CalledKind[]).find((id) => id === one(params.kind));
  return [kind && shortWords[kind], one(params.length)?.trim()].filter(Boolean).join(" ");
}

/** Answers belong to one caller: where the form was sent with another line than they were given for, they are gone. */
function answersOf(params: Params, text: string): Answers {
  const was = one(params.was);
  if (was !== undefined && was !== text) return {};
  return Object.fromEntries(factIds.flatMap((id) => {
    const answer = one(params[id]);
    return answer === "yes" || answer === "no" ? [[id, answer === "yes"] as const] : [];
  }));
}
