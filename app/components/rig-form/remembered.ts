/** The last rig, kept by the browser on this device and sent nowhere. */
export interface RememberedRig {
  /** What it is called: "Travel trailer, 31 ft". */
  readonly name: string;
  /** Its address' own words, units included. */
  readonly query: string;
}

const KEY = "padwright-rig";
const CHANGED = "padwright-rig-changed";

let last: { readonly text: string | null; readonly rig: RememberedRig | null } = { text: null, rig: null };

/** What is kept; null where nothing is, where it cannot be read, or where the browser keeps nothing. */
export function readRememberedRig(): RememberedRig | null {
  const text = attempt(() => window.localStorage.getItem(KEY));
  // The same text gives the same object: React compares what it is given from one look to the next.
  if (text !== last.text) last = { text, rig: text === null ? null : parse(text) };
  return last.rig;
}

export function rememberRig(rig: RememberedRig): void {
  attempt(() => window.localStorage.setItem(KEY, JSON.stringify(rig)));
}

export function forgetRig(): void {
  attempt(() => window.localStorage.removeItem(KEY));
  window.dispatchEvent(new Event(CHANGED));
}

export function watchRememberedRig(changed: () => void): () => void {
  window.addEventListener("storage", changed);
  window.addEventListener(CHANGED, changed);
  return () => {
    window.removeEventListener("storage", changed);
    window.removeEventListener(CHANGED, changed);
  };
}

function parse(text: string): RememberedRig | null {
  const value: unknown = attempt(() => JSON.parse(text) as unknown);
  if (typeof value !== "object" || value === null) return null;
  const { name, query } = value as Partial<Record<keyof RememberedRig, unknown>>;
  return typeof name === "string" && typeof query === "string" ? { name, query } : null;
}

/** A browser may refuse to keep anything: then nothing is kept. */
function attempt<T>(what: () => T): T | null {
  try {
    return what();
  } catch {
    return null;
  }
}
