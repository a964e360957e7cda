import type { Verdict } from "@/lib/fit/types";

/** A place on the sheet: units of the viewBox, x to the right, y down. */
export type SheetPoint = readonly [number, number];

export interface SheetBox {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** How a site shows on the map. `verdict` null: no rig has been asked about. */
export interface SiteStanding {
  readonly verdict: Verdict | null;
  /** Passed by the filters; the others are drawn without a mark. */
  readonly shown: boolean;
  /** It would do, and somebody has it on the nights asked about. */
  readonly taken?: boolean;
}

export interface SiteOnMap {
  readonly id: string;
  readonly label: string;
  readonly pad: readonly SheetPoint[];
  /** Middle of the pad. */
  readonly middle: SheetPoint;
  /** Where its mark is drawn: moved aside where two would lie on each other. */
  readonly mark: SheetPoint;
  readonly standing: SiteStanding;
  readonly selected: boolean;
}

export type LabelKind = "site" | "loop" | "building" | "road" | "water" | "area";

export interface MapLabel {
  readonly id: string;
  readonly kind: LabelKind;
  readonly lines: readonly string[];
  readonly size: number;
  readonly box: SheetBox;
  /** The line that leads from a label to what it names; null where it stands right beside it. */
  readonly leader: readonly [SheetPoint, SheetPoint] | null;
}

export interface Ribbon {
  readonly points: readonly SheetPoint[];
  /** Units of the viewBox, to scale but never too thin to see. */
  readonly width: number;
  /** Loose: gravel and the like. */
  readonly loose: boolean;
}

export interface Ground {
  readonly kind: string;
  readonly points: readonly SheetPoint[];
}

export interface MapLayout {
  readonly width: number;
  readonly height: number;
  /** Units of the viewBox per millimetre of ground: one number for the whole sheet. */
  readonly scale: number;
  /** Half the size of a site's mark. */
  readonly markSize: number;
  readonly areas: readonly Ground[];
  readonly buildings: readonly Ground[];
  readonly creek: readonly Ribbon[];
  readonly roads: readonly Ribbon[];
  readonly paths: readonly Ribbon[];
  /** Pads of sites that this sheet is not about. */
  readonly neighbours: readonly (readonly SheetPoint[])[];
  readonly sites: readonly SiteOnMap[];
  readonly labels: readonly MapLabel[];
  readonly scaleBar: { readonly at: SheetPoint; readonly length: number; readonly text: string };
  /** Degrees to turn an arrow that points up the sheet so that it points north. */
  readonly north: { readonly at: SheetPoint; readonly turn: number };
}
