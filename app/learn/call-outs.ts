import { overlap, placeLabels, SYMBOL, widthOf, type Wanted } from "../components/plan/labels";
import { boxAround } from "../components/plan/paths";
import type { PageBox, PagePoint, PlanLayout } from "../components/plan/types";

/** What a number may point at, in the order in which it is told. */
export const pointed = ["rig", "wheels", "slide", "awning", "gap", "tree", "power", "water", "sewer", "pad", "stall", "lot", "road", "scale", "north"] as const;
export type Pointed = (typeof pointed)[number];

export interface CallOut {
  readonly id: Pointed;
  readonly number: number;
  readonly at: PagePoint;
  readonly leader: readonly [PagePoint, PagePoint] | null;
}

/** Half the size of a number's disc. */
export const DISC = 8.5;

/**
 * Numbers for whatever of it this plan shows, placed where they hide neither a name nor each other: on the thing
 * itself where there is room for it, else beside it.
 */
export function callOutsOn(layout: PlanLayout): CallOut[] {
  const shown = pointed.flatMap((id) => {
    const place = placeOf(id, layout);
    return place ? [{ id, ...place }] : [];
  });
  const taken = takenOf(layout);
  const on = new Map<Pointed, PagePoint>();
  for (const { id, on: places = [] } of shown) {
    const free = places.find((at) => !taken.some((box) => overlap(box, around(at, DISC))));
    if (!free) continue;
    on.set(id, free);
    taken.push(around(free, DISC + 1));
  }
  // Two digits of room for each, so that no disc touches what it stands beside.
  const wanted = shown.filter(({ id }) => !on.has(id)).map(({ id, anchor, radius }): Wanted => ({ id, lines: ["00"], anchor, radius }));
  const page = { x: 2, y: 2, w: layout.width - 4, h: layout.height - 4 };
  const beside = placeLabels(wanted, { page, solid: solidOf(layout), taken, lines: [] });
  return shown.flatMap(({ id }, i) => {
    const label = beside.find((l) => l.id === id), at = on.get(id) ?? (label && middleOfBox(label.box));
    return at ? [{ id, number: i + 1, at, leader: label?.leader ?? null }] : [];
  });
}

interface Place {
  readonly anchor: PagePoint;
  readonly radius: number;
  /** Where on the thing itself its number may stand, best first. */
  readonly on?: readonly PagePoint[];
}

function placeOf(id: Pointed, layout: PlanLayout): Place | null {
  const { rig, gap, obstacles, hookups, stalls, lot, pad, roads, scaleBar, north } = layout;
  switch (id) {
    case "rig": {
      if (!rig) return null;
      const { x, y, w, h } = boxAround(rig.body);
      return { anchor: backOf(rig.body), radius: 2, on: [[x + w / 2, y + 13], [x + w / 2, y + h - 13]] };
    }
    case "wheels": {
      const tyre = rig?.supports.find((s) => s.kind === "tyre");
      return tyre ? { anchor: middleOf(tyre.points), radius: 4 } : null;
    }
    case "slide": return partPlace(layout, "slide");
    case "awning": return partPlace(layout, "awning");
    case "gap": return gap && { anchor: middleOf([gap.from, gap.to]), radius: 9 };
    case "tree": {
      const tree = obstacles.find((o) => o.type === "tree");
      return tree?.type === "tree" ? { anchor: tree.trunk.at, radius: tree.trunk.r + 2 } : null;
    }
    case "power": case "water": case "sewer": {
      const hookup = hookups.find((h) => h.kind === id);
      return hookup ? { anchor: hookup.symbol, radius: SYMBOL + 1 } : null;
    }
    case "pad": return { anchor: backOf(pad), radius: 1 };
    case "stall": return stalls[0] ? { anchor: lowLeftOf(stalls[0].points), radius: 1 } : null;
    case "lot": return lot && { anchor: highRightOf(lot), radius: 1 };
    case "road": return roads[0]?.at ? { anchor: roads[0].at, radius: 24 } : null;
    case "scale": return { anchor: [scaleBar.at[0] + scaleBar.length, scaleBar.at[1] + 2], radius: 3 };
    case "north": return north && { anchor: north.at, radius: 14 };
  }
}

function partPlace({ rig }: PlanLayout, kind: string): Place | null {
  const part = rig?.parts.find((p) => p.kind === kind && !p.leftIn);
  if (!rig || !part) return null;
  const { x, y, w, h } = boxAround(part.points), body = boxAround(rig.body);
  const on = w >= 2 * DISC + 2 ? [0.82, 0.5, 0.18].map((t): PagePoint => [x + w / 2, y + h * t]) : [];
  return { anchor: [x < body.x ? x : x + w, y + h * 0.82], radius: 1, on };
}

/** The middle of the edge that lies farthest up the page. */
function backOf(points: readonly PagePoint[]): PagePoint {
  const { x, y, w } = boxAround(points);
  return [x + w * 0.6, y];
}

function lowLeftOf(points: readonly PagePoint[]): PagePoint {
  const { x, y, h } = boxAround(points);
  return [x, y + h * 0.7];
}

function highRightOf(points: readonly PagePoint[]): PagePoint {
  return points.reduce((best, p) => (p[0] - p[1] > best[0] - best[1] ? p : best));
}

function middleOf(points: readonly PagePoint[]): PagePoint {
  const { x, y, w, h } = boxAround(points);
  return [x + w / 2, y + h / 2];
}

function solidOf({ rig, vehicle, obstacles }: PlanLayout): PageBox[] {
  const outlines = [...(rig ? [rig.body, ...rig.parts.map((p) => p.points), ...(rig.hitch ? [rig.hitch] : [])] : []), ...(vehicle ? [vehicle.points] : [])];
  return [...outlines.map(boxAround), ...obstacles.flatMap((o) => (o.type === "outline" ? [boxAround(o.points)] : []))];
}

/** Names, symbols, the gap and what stands in the strip below the ground. */
function takenOf({ labels, hookups, gap, rig, roads, scaleBar, north }: PlanLayout): PageBox[] {
  return [
    ...labels.map((l) => l.box),
    // Far enough from every symbol that a line has to say which one is meant: hookups stand close together.
    ...hookups.map((h) => around(h.symbol, SYMBOL + 8)),
    ...(rig?.texts ?? []).map(({ text, at, turn, size }) => (turn === 0 ? around(at, widthOf(text, size) / 2, size / 2) : around(at, size / 2, widthOf(text, size) / 2))),
    ...(gap ? [grown(boxAround([gap.from, gap.to]), 12)] : []),
    ...roads.flatMap((r) => (r.at ? [around(r.at, 22, 8)] : [])),
    { x: scaleBar.at[0] - 6, y: scaleBar.at[1] - 18, w: scaleBar.length + 26, h: 26 },
    ...(north ? [around(north.at, 24)] : []),
  ];
}

function around([x, y]: PagePoint, rx: number, ry = rx): PageBox {
  return { x: x - rx, y: y - ry, w: 2 * rx, h: 2 * ry };
}

function middleOfBox({ x, y, w, h }: PageBox): PagePoint {
  return [x + w / 2, y + h / 2];
}

function grown({ x, y, w, h }: PageBox, by: number): PageBox {
  return { x: x - by, y: y - by, w: w + 2 * by, h: h + 2 * by };
}
