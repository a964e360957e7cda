import type { IsoDate, Nights, StaySettings, StayState } from "@/lib/stays";

/** A stay as it is handed out: texts as they are written into the table. */
export interface StayLine {
  readonly reference: string;
  readonly state: string;
  readonly arrive: string;
  readonly depart: string;
  /** The site's own id; empty for any that fits. */
  readonly site: string;
  readonly guest: string;
  readonly email: string;
  readonly phone: string;
  readonly plate: string;
  readonly rigKind: string;
  /** Body and hitch, mm; null where the record of the rig cannot be read. */
  readonly rigLength: number | null;
  /** Who comes along, as the rig's record has it; null where it cannot be read. */
  readonly adults: number | null;
  readonly children: number | null;
  readonly pets: number | null;
  readonly note: string;
}

/** A stay of the park, as it is handed out, with what a change of it is judged by. */
export interface HeldStay extends StayLine {
  readonly id: string;
  readonly state: StayState;
  readonly arrive: IsoDate;
  readonly depart: IsoDate;
  readonly version: number;
  /** Of the park's list, where the rig came from there. */
  readonly rigId: string;
  /** The guest chose the site and keeps it. */
  readonly siteChosen: boolean;
  readonly erased: boolean;
  /** It has a price that was agreed to, so that nights beyond it have one too. */
  readonly priced: boolean;
}

/** Who has a site: a stay by its reference, a guest who is filling in the form just now, a closure by its reason, or another row of the same table. */
export type Occupant =
  | { readonly kind: "stay"; readonly reference: string }
  | { readonly kind: "hold" }
  | { readonly kind: "closure"; readonly reason: string }
  | { readonly kind: "row"; readonly row: number };

/** Nights of a site that nobody else can have. */
export interface TakenNights {
  readonly site: string;
  readonly nights: Nights;
  /** The id of the stay that has them; null for a closure. */
  readonly stay: string | null;
  readonly by: Occupant;
}

/** What a table of stays is held against. */
export interface StayBook {
  /** The date it is in the park. */
  readonly today: IsoDate;
  readonly settings: StaySettings;
  /** Every stay but those that are only held while a form is filled in. */
  readonly stays: readonly HeldStay[];
  /** From the night before today on. */
  readonly taken: readonly TakenNights[];
}
