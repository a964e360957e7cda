import { edit, redo, settle, startHistory, undo, type History } from "@/lib/park/edit/history";
import { keyOf, type Draft } from "@/lib/park/edit/record";
import { thingsOf } from "@/lib/park/edit/things";
import type { UnreadFault } from "@/lib/wording/en/site-editor";

/** A text in a field that cannot be read, kept as it was typed. */
export interface Unread {
  readonly text: string;
  readonly fault: UnreadFault;
}

/** Where the editing of a site stands. Dragging, typing and the keyboard all end in {@link EditorAction}s on it. */
export interface EditorState {
  readonly history: History<Draft>;
  /** The thing, or the part of the list, that is laid hold of: its path as a text. */
  readonly selected: string | null;
  /** By the path of the field. */
  readonly unread: Readonly<Record<string, Unread>>;
  /** Counts what replaces the record as a whole, so that fields forget what is half typed. */
  readonly turns: number;
}

export type EditorAction =
  | { readonly do: "change"; readonly draft: Draft; readonly mark?: string | null; readonly select?: string | null; /** Lists have shifted: paths no longer mean what they did. */ readonly shifted?: boolean }
  | { readonly do: "read"; readonly key: string; readonly draft: Draft }
  | { readonly do: "unread"; readonly key: string; readonly unread: Unread }
  | { readonly do: "settle" | "undo" | "redo" }
  | { readonly do: "select"; readonly key: string | null }
  | { readonly do: "take up"; readonly draft: Draft };

/** Parts of the list that are nowhere on the plan. */
export const PARTS = ["site", "slopes", "rules"] as const;

export function startEditing(record: Draft): EditorState {
  return { history: startHistory(record), selected: null, unread: {}, turns: 0 };
}

export function reduceEditor(state: EditorState, action: EditorAction): EditorState {
  const { history } = state;
  switch (action.do) {
    case "change": {
      const next = edit(history, action.draft, action.mark ?? null);
      if (next === history && action.select === undefined) return state;
      return { ...state, history: next, unread: action.shifted ? {} : state.unread, turns: state.turns + (action.shifted ? 1 : 0), ...(action.select === undefined ? {} : { selected: action.select }) };
    }
    case "read": return { ...state, history: edit(history, action.draft, `field ${action.key}`), unread: without(state.unread, action.key) };
    case "unread": return { ...state, unread: { ...state.unread, [action.key]: action.unread } };
    case "settle": return settle(history) === history ? state : { ...state, history: settle(history) };
    case "undo": return turned(state, undo(history));
    case "redo": return turned(state, redo(history));
    case "select": return state.selected === action.key ? state : { ...state, selected: action.key, history: settle(history) };
    case "take up": return turned(state, edit(history, action.draft));
  }
}

/** Whether anything differs from what was opened, or a text waits to be put right. */
export function isChanged({ history, unread }: EditorState): boolean {
  return history.past.length > 0 && history.present !== history.past[0] || Object.keys(unread).length > 0;
}


function turned(state: EditorState, history: History<Draft>): EditorState {
  if (history === state.history) return state;
  const still = state.selected === null || thingsOf(history.present).some(({ path }) => keyOf(path) === state.selected) || PARTS.some((part) => part === state.selected);
  return { ...state, history, unread: {}, turns: state.turns + 1, selected: still ? state.selected : null };
}

function without(unread: EditorState["unread"], key: string): EditorState["unread"] {
  return key in unread ? Object.fromEntries(Object.entries(unread).filter(([other]) => other !== key)) : unread;
}
