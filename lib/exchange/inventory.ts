import type { Json } from "./cells";
import type { StayBook } from "./stays-book";

/** What a park has, as it is handed out and as an upload is held against. */
export interface Inventory {
  /** The park's file: its name, map and origin, and its settings as they are now. */
  readonly park: Json;
  /** In the park's own order. */
  readonly sites: readonly { readonly record: Json; readonly version: number | null }[];
  readonly rigs: readonly { readonly name: string; readonly note: string | null; readonly record: Json }[];
  /** Read where an upload may hold a table of stays, see `mayHoldStays`. */
  readonly stays?: StayBook;
}

/** A rig with its name and note, as `rigs.json` has it. */
export function rigEntry({ name, note, record }: Inventory["rigs"][number]): Json {
  return { name, ...(note === null ? {} : { note }), rig: record };
}

/** Of a park's file, what is changed on pages of its own, where what a change would do is shown before it is saved. */
export const keptSettings = ["policy", "staySettings", "rates"] as const;
