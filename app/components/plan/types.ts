import type { Involved } from "@/lib/fit";
import type { Service } from "@/lib/fit/types";
import type { Hookup } from "@/lib/park";

/** A place on the drawing: units of the viewBox, x to the right, y down. */
export type PagePoint = readonly [number, number];

export interface PageBox {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export interface Disc {
  readonly at: PagePoint;
  readonly r: number;
}

export type ObstacleShape =
  | { readonly type: "tree"; readonly id: string; readonly trunk: Disc; readonly crown: Disc }
  | { readonly type: "disc"; readonly id: string; readonly kind: string; readonly disc: Disc }
  | { readonly type: "outline"; readonly id: string; readonly kind: string; readonly points: readonly PagePoint[] };

export interface HookupShape {
  readonly id: string;
  readonly kind: Hookup["kind"];
  /** Where it really is. */
  readonly at: PagePoint;
  /** Where its symbol is drawn: moved aside from its neighbours' where they would lie on each other. */
  readonly symbol: PagePoint;
  /** Radius of the post, to scale; 0 where there is none. */
  readonly post: number;
}

export interface PartShape {
  readonly id: string;
  readonly kind: string;
  readonly points: readonly PagePoint[];
  readonly leftIn: boolean;
}

export interface RigShape {
  readonly body: readonly PagePoint[];
  readonly hitch: readonly PagePoint[] | null;
  readonly supports: readonly { readonly kind: "tyre" | "jack"; readonly points: readonly PagePoint[] }[];
  readonly parts: readonly PartShape[];
  readonly inlets: readonly { readonly kind: Service; readonly at: PagePoint }[];
  /** An arrowhead inside the front wall, pointing forward. */
  readonly front: readonly PagePoint[];
  readonly texts: readonly TurnedText[];
}

/** Text at a fixed place inside a shape, turned by so many degrees about its middle. */
export interface TurnedText {
  readonly text: string;
  readonly at: PagePoint;
  readonly turn: 0 | -90 | 90;
  readonly size: number;
  readonly strong: boolean;
}

/** A text beside the mark it names, with the line that leads to it. */
export interface Label {
  readonly id: string;
  readonly lines: readonly string[];
  readonly box: PageBox;
  readonly leader: readonly [PagePoint, PagePoint] | null;
  readonly accent: boolean;
  /** Names something that a refusal is not about. */
  readonly faint: boolean;
  /** The number that stands for the text in the key below the drawing, where the text itself found no room. */
  readonly number: number | null;
}

export interface PlanLayout {
  readonly width: number;
  readonly height: number;
  /** Units of the viewBox per millimetre of ground: one number for the whole drawing. */
  readonly scale: number;
  /** The part of the drawing that shows ground; what reaches beyond is cut off here. */
  readonly ground: PageBox;
  readonly roads: readonly { readonly area: readonly PagePoint[]; readonly edge: readonly [PagePoint, PagePoint]; readonly text: string; readonly at: PagePoint | null }[];
  readonly pad: readonly PagePoint[];
  readonly lot: readonly PagePoint[] | null;
  readonly stalls: readonly { readonly id: string; readonly points: readonly PagePoint[] }[];
  readonly obstacles: readonly ObstacleShape[];
  readonly hookups: readonly HookupShape[];
  readonly rig: RigShape | null;
  readonly vehicle: { readonly points: readonly PagePoint[]; readonly text: TurnedText | null } | null;
  readonly lines: readonly { readonly service: Service; readonly points: readonly PagePoint[] }[];
  readonly gap: { readonly from: PagePoint; readonly to: PagePoint } | null;
  /** A refusal: the rig, if drawn, stands at the nearest try, and what the conflict is not about is drawn faintly. Null elsewhere. */
  readonly refused: { readonly about: Involved; readonly stamp: string | null } | null;
  readonly labels: readonly Label[];
  /** What the numbers on the drawing stand for. */
  readonly key: readonly { readonly number: number; readonly text: string }[];
  readonly scaleBar: { readonly at: PagePoint; readonly length: number; readonly steps: number; readonly text: string };
  /** Degrees to turn an arrow that points up the page so that it points north; null where the bearing is not known. */
  readonly north: { readonly at: PagePoint; readonly turn: number } | null;
}
