import type { Rig, RigPart } from "@/lib/rig";

/** What a guest can put on a wall. `steps` and `door` are both an entry, one lower than the other. */
export const partKinds = ["slide", "awning", "bed", "steps", "door", "ramp"] as const;
export type PartKind = (typeof partKinds)[number];

export function addedKind(text: string | undefined): PartKind {
  return partKinds.find((kind) => kind === text) ?? "slide";
}

export function addedSide(text: string | undefined): RigPart["side"] | null {
  return SIDES.find((side) => side === text) ?? null;
}

const WALLS = { left: "driver-side", right: "door-side", rear: "back-wall", front: "front-wall" } as const satisfies Record<RigPart["side"], string>;
const SIDES = ["left", "right", "rear", "front"] as const;

/** `driver-side-slide@42`: a slide whose middle is 42 hundredths along the wall, from the rear or from the driver's side. */
const ADDED = /^((?:driver-side|door-side|back-wall|front-wall)-(slide|awning|bed|steps|door|ramp)(?:-[2-9])?)@(\d{1,3})$/;

interface Usual {
  readonly kind: string;
  /** At most so wide, and at most so much of the wall. */
  readonly wide: number;
  readonly share: number;
  readonly depth: number;
  readonly from: number;
  readonly to: number;
  readonly need: RigPart["need"];
}

/** Typical of each kind of part; common practice, millimetres. */
const USUAL: Readonly<Record<PartKind, Usual>> = {
  slide: { kind: "slide", wide: 2700, share: 0.35, depth: 900, from: 750, to: 2850, need: "must" },
  awning: { kind: "awning", wide: 4900, share: 0.55, depth: 2440, from: 2100, to: 3000, need: "nice" },
  bed: { kind: "bed", wide: 2100, share: 0.9, depth: 1150, from: 950, to: 2300, need: "must" },
  steps: { kind: "entry", wide: 700, share: 0.5, depth: 600, from: 0, to: 900, need: "must" },
  door: { kind: "entry", wide: 760, share: 0.5, depth: 800, from: 0, to: 2000, need: "must" },
  ramp: { kind: "ramp", wide: 2200, share: 0.9, depth: 2130, from: 0, to: 2130, need: "nice" },
};

/** The part that the address asks to be added, where it is typical for the rig; null for a text that names none. */
export function addedPart(text: string, rig: Rig): RigPart | null {
  const match = ADDED.exec(text);
  if (!match) return null;
  const [, id, kind, hundredths] = match;
  const side = SIDES.find((s) => id!.startsWith(WALLS[s]))!;
  const { wide, share, kind: word, depth, from, to, need } = USUAL[kind as PartKind];
  const end = side === "rear" || side === "front";
  const wall = end ? rig.body.width : rig.body.length;
  const width = Math.min(wide, wall * share);
  const start = Math.min(Math.max((wall * Math.min(100, Number(hundredths))) / 100 - width / 2, 0), wall - width);
  const span: [number, number] = end ? [wall / 2 - start - width, wall / 2 - start] : [start, start + width];
  return { id: id!, kind: word, side, span, depth: Math.min(depth, word === "awning" ? width : depth), from: Math.min(from, rig.body.height - 200), to: Math.min(to, rig.body.height), need };
}

/** The text that adds a part to a wall of the rig; null where there are too many. Where `at` is not said, the clearest place is taken. */
export function textForAdded(kind: PartKind, side: RigPart["side"], rig: Rig, at?: number): string | null {
  const id = freeId(`${WALLS[side]}-${kind}`, new Set(rig.parts.map((p) => p.id)));
  if (id === null) return null;
  if (at !== undefined) return `${id}@${Math.round(Math.min(100, Math.max(0, at)))}`;
  const there = rig.parts.filter((p) => p.side === side && (p.kind === "awning") === (kind === "awning"));
  const crossing = (hundredths: number) => {
    const { span } = addedPart(`${id}@${hundredths}`, rig)!;
    return there.reduce((sum, { span: [a, b] }) => sum + Math.max(0, Math.min(b, span[1]) - Math.max(a, span[0])), 0);
  };
  const [best] = [60, 40, 75, 25, 90, 10].map((h) => ({ h, over: crossing(h) })).sort((a, b) => a.over - b.over);
  return `${id}@${best!.h}`;
}

function freeId(base: string, taken: ReadonlySet<string>): string | null {
  for (const id of [base, ...[2, 3, 4, 5, 6, 7, 8, 9].map((n) => `${base}-${n}`)]) if (!taken.has(id)) return id;
  return null;
}
