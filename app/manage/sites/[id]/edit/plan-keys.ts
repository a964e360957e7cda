import type { Units } from "@/lib/measure";
import type { Point } from "@/lib/plane";
import { addPoint, movePoint, moveThing, removePoint, removeThing } from "@/lib/park/edit/change";
import { keyOf, pointAt, type Draft } from "@/lib/park/edit/record";
import { STEPS, stepOn } from "@/lib/park/edit/snap";
import { thingsOf, type Thing } from "@/lib/park/edit/things";

/** What a key does on the plan: a new record, what is chosen then, and what has the focus. */
export interface KeyOutcome {
  readonly draft: Draft;
  /** undefined: as before. */
  readonly select?: string | null;
  /** The grip to focus. */
  readonly focus?: string;
  readonly moved?: { readonly thing: Thing; readonly index: number | null };
  readonly removed?: Thing;
  /** Lists have shifted. */
  readonly shifted?: boolean;
}

export interface Pressed {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly altKey: boolean;
}

/** What a key does to the grip that has the focus, `thing` as a whole or its point `index`; null where it does nothing. */
export function pressOn(draft: Draft, thing: Thing, index: number | null, pressed: Pressed, { units, snap }: { readonly units: Units; readonly snap: boolean }): KeyOutcome | null {
  const key = keyOf(thing.path), way = WAYS[pressed.key];
  if (way) return { draft: step(draft, thing, index, way, pressed, units, snap), moved: { thing, index } };
  switch (pressed.key) {
    case "Enter": case " ": return index === null ? { draft, select: key, focus: keyOf(thing.handles[0]!) } : null;
    case "Escape": return { draft, select: null, focus: key };
    case "Insert": case "i": case "I": return insert(draft, thing, index ?? thing.handles.length - 1);
    case "Delete": case "Backspace": return take(draft, thing, index);
    default: return null;
  }
}

/** Up the page is into the site, left on it is left. */
const WAYS: Readonly<Record<string, readonly [axis: 0 | 1, direction: 1 | -1]>> = { ArrowUp: [0, 1], ArrowDown: [0, -1], ArrowLeft: [1, 1], ArrowRight: [1, -1] };

function step(draft: Draft, thing: Thing, index: number | null, [axis, direction]: readonly [0 | 1, 1 | -1], { shiftKey, altKey }: Pressed, units: Units, snap: boolean): Draft {
  const path = thing.handles[index ?? 0]!, from = pointAt(draft, path);
  if (!from) return draft;
  const { step: one, big, fine } = STEPS[units], by = shiftKey ? big : altKey ? fine : one;
  const to = snap && !altKey ? stepOn(from[axis], direction, by) : from[axis] + direction * Math.round(by);
  const at: Point = axis === 0 ? [to, from[1]] : [from[0], to];
  return index === null ? moveThing(draft, thing, [at[0] - from[0], at[1] - from[1]]) : movePoint(draft, path, at);
}

function insert(draft: Draft, thing: Thing, behind: number): KeyOutcome | null {
  const more = addPoint(draft, thing, behind);
  return more === draft ? null : { draft: more, select: keyOf(thing.path), focus: keyOf([...thing.handles[behind]!.slice(0, -1), behind + 1]), shifted: true };
}

function take(draft: Draft, thing: Thing, index: number | null): KeyOutcome | null {
  if (index !== null && thing.shape !== "place") {
    const less = removePoint(draft, thing, index);
    return less === draft ? null : { draft: less, focus: keyOf([...thing.handles[index]!.slice(0, -1), Math.max(0, index - 1)]), shifted: true };
  }
  const without = removeThing(draft, thing);
  if (without === draft) return null;
  const things = thingsOf(draft), at = things.findIndex(({ path }) => keyOf(path) === keyOf(thing.path));
  const beside = thingsOf(without)[Math.max(0, at - 1)];
  return { draft: without, select: null, shifted: true, removed: thing, ...(beside ? { focus: keyOf(beside.path) } : {}) };
}
