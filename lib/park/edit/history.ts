/**
 * What has been done to a record since it was opened, so that it can be undone and done again. Every state is kept: records are small and share what
 * did not change.
 */
export interface History<T> {
  readonly past: readonly T[];
  readonly present: T;
  /** What was undone, the next to do again first. */
  readonly future: readonly T[];
  /** Changes in one go, such as the letters of a number or the way of a drag, are one step: as long as they bear the same mark. */
  readonly mark: string | null;
}

export function startHistory<T>(present: T): History<T> {
  return { past: [], present, future: [], mark: null };
}

/** One change more. What was undone cannot be done again afterwards. Nothing changed is no step. */
export function edit<T>(history: History<T>, present: T, mark: string | null = null): History<T> {
  if (present === history.present) return history;
  const goesOn = mark !== null && mark === history.mark && history.past.length > 0;
  return { past: goesOn ? history.past : [...history.past, history.present], present, future: [], mark };
}

/** The next change is a step of its own, whatever its mark. */
export function settle<T>(history: History<T>): History<T> {
  return history.mark === null ? history : { ...history, mark: null };
}

export function undo<T>(history: History<T>): History<T> {
  const before = history.past.at(-1);
  if (before === undefined) return history;
  return { past: history.past.slice(0, -1), present: before, future: [history.present, ...history.future], mark: null };
}

export function redo<T>(history: History<T>): History<T> {
  const [next, ...future] = history.future;
  if (next === undefined) return history;
  return { past: [...history.past, history.present], present: next, future, mark: null };
}
