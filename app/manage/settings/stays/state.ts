import type { ChangeLine } from "../policy-words";
import type { DraftFaults, StaysDraft } from "./draft";

/** What became of the form: what stands in it, what is wrong with it, what it would change. Goes to the browser and back. */
export interface StaysState {
  /** Counts the answers: fields are made anew with each. */
  readonly round: number;
  readonly draft: StaysDraft;
  readonly faults: DraftFaults;
  /** How many fields need another look, in words; null where none does. */
  readonly faulty: string | null;
  /** The settings that were filled in, as JSON: what is changed is what differs from them. */
  readonly base: string;
  readonly version: number;
  readonly preview: StaysPreview | null;
  /** Where somebody else saved first: who, when, and what they changed. */
  readonly stale: StaysStale | null;
  /** Why nothing was done. */
  readonly note: string | null;
}

export interface StaysPreview {
  readonly lines: readonly ChangeLine[];
  readonly follows: readonly string[];
  /** Which settings these are: saved is what was looked at, and nothing else. */
  readonly agreed: string;
}

export interface StaysStale {
  readonly saves: readonly { readonly title: string; readonly reason: string | null; readonly lines: readonly ChangeLine[] }[];
  readonly both: string | null;
}
