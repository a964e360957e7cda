import type { Hookup, Obstacle, Site } from "@/lib/park";
import type { Point } from "@/lib/plane";
import { letterCorners, letterOf, type LetteredCorner } from "@/lib/survey";

/** Corners that a pad has where nothing is on record: two in front, two at the back. */
const USUAL_CORNERS = 4;
/** Empty lines after what is on record, for what is new. */
const SPARE = { corners: 2, hookups: 2, obstacles: 3 } as const;
/** So many lines at least: less would not be worth the paper. */
const LEAST = { corners: 6, hookups: 5, obstacles: 8 } as const;

/** What a sheet has of a site before anything is measured: names, never numbers, which would only be copied. */
export interface SheetSite {
  readonly id: string | null;
  readonly label: string | null;
  readonly loop: string | null;
  readonly pullThrough: boolean;
  /** As they are on record, A and B in front. Null without a record. */
  readonly corners: readonly LetteredCorner[] | null;
  /** Pad and lot: what a sketch has to have room for. Null without a record. */
  readonly extent: readonly Point[] | null;
  /** The corners to be measured, after A. */
  readonly letters: readonly string[];
  readonly hookups: readonly (Pick<Hookup, "id" | "kind"> & { readonly alone: boolean } | null)[];
  readonly obstacles: readonly ({ readonly obstacle: Obstacle; /** The only one of its kind. */ readonly alone: boolean } | null)[];
}

/** A sheet for a site of which nothing is on record. */
export const blankSheet: SheetSite = {
  id: null, label: null, loop: null, pullThrough: false, corners: null, extent: null,
  letters: lettersAfterA(USUAL_CORNERS, LEAST.corners), hookups: filled([], 0, LEAST.hookups), obstacles: filled([], 0, LEAST.obstacles + SPARE.obstacles),
};

export function sheetOf(site: Site): SheetSite {
  const corners = letterCorners(site.pad.outline);
  const alone = (all: readonly { readonly kind: string }[], kind: string) => all.filter((one) => one.kind === kind).length === 1;
  return {
    id: site.id,
    label: site.label ?? site.id,
    loop: site.loop ?? null,
    pullThrough: site.entry === "pull-through",
    corners,
    extent: [...site.pad.outline, ...(site.lot?.outline ?? [])],
    letters: lettersAfterA(corners.length + SPARE.corners, LEAST.corners),
    hookups: filled(site.hookups.map(({ id, kind }) => ({ id, kind, alone: alone(site.hookups, kind) })), SPARE.hookups, LEAST.hookups),
    obstacles: filled(site.obstacles.map((obstacle) => ({ obstacle, alone: alone(site.obstacles, obstacle.kind) })), SPARE.obstacles, LEAST.obstacles),
  };
}

function lettersAfterA(corners: number, least: number): string[] {
  return Array.from({ length: Math.max(corners, least) - 1 }, (_, i) => letterOf(i + 1));
}

function filled<T>(items: readonly T[], spare: number, least: number): (T | null)[] {
  return [...items, ...Array<null>(Math.max(spare, least - items.length)).fill(null)];
}
