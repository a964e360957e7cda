import type { Rig } from "@/lib/rig";
import { closedPath, openPath, type Corner } from "./outline-path";

/** A generic rig of its kind seen from its door side, rear at the left, as paths. It shows no make: only the numbers of the rig and what makes the kind. */
export interface Profile {
  /** What is drawn behind the body: hitch, ramp, the pickup under a camper. */
  readonly behind: readonly string[];
  readonly body: readonly string[];
  readonly glass: readonly Pane[];
  readonly lines: readonly string[];
  readonly wheels: readonly { readonly u: number; readonly radius: number }[];
  /** Where the roof's own line runs, below whatever stands on it. */
  readonly roof: number;
}

/** A window: what opens out where it is takes its place. */
export interface Pane {
  readonly from: number;
  readonly to: number;
  readonly path: string;
}

type Kind = Rig["kind"];

/** Air conditioner and vents stand this high on the roof: the height is told to their top. */
const ON_ROOF = 260;

export function profileOf(rig: Rig): Profile {
  const { body: { height } } = rig;
  const roof = height - (rig.kind === "folding-trailer" ? 0 : rig.kind === "van" || rig.kind === "class-b" ? 110 : ON_ROOF);
  const drawn = DRAWN[rig.kind](rig, roof);
  return { behind: [], lines: [], ...drawn, wheels: wheelsOf(rig), roof };
}

function wheelsOf({ kind, supports }: Rig): Profile["wheels"] {
  const radius = kind === "class-a" ? 480 : kind === "folding-trailer" ? 300 : 370;
  const along = new Set(supports.filter((s) => s.kind === "tyre").map((s) => s.at[0]));
  return [...along].map((u) => ({ u, radius }));
}

type Drawn = Pick<Profile, "body" | "glass"> & Partial<Profile>;

const DRAWN: Readonly<Record<Kind, (rig: Rig, roof: number) => Drawn>> = {
  van,
  "class-b": van,
  "truck-camper": truckCamper,
  "class-c": smallMotorhome,
  "class-a": largeMotorhome,
  "folding-trailer": foldingTrailer,
  "travel-trailer": travelTrailer,
  "fifth-wheel": fifthWheel,
  "toy-hauler": garageTrailer,
};

function van({ body: { length: l, height: h, floor: f } }: Rig, roof: number): Drawn {
  return {
    body: [
      closedPath([[l * 0.28, h], [l * 0.28, roof - 20], [l * 0.4, roof - 20], [l * 0.4, h]]),
      closedPath([[0, f + 120, 80], [0, roof, 260], [l * 0.74, roof, 420], [l * 0.885, 1330, 90], [l * 0.985, 1120, 180], [l, 620, 90], [l * 0.995, f + 90, 90]]),
    ],
    glass: [
      pane([[l * 0.72, roof - 330, 60], [l * 0.775, roof - 330, 60], [l * 0.862, 1370, 40], [l * 0.72, 1370, 40]]),
      box(l * 0.08, l * 0.3, 1450, roof - 420), box(l * 0.34, l * 0.47, 1450, roof - 420),
    ],
    lines: [openPath([[l * 0.7, f + 150], [l * 0.7, roof - 240]]), openPath([[l * 0.02, 980], [l * 0.49, 980]]), openPath([[l * 0.71, 980], [l * 0.98, 980]])],
  };
}

function truckCamper({ body: { length: l, height: h, floor: f } }: Rig, roof: number): Drawn {
  const cab: readonly Corner[] = [[l * 0.5, 600], [l * 0.5, 1880, 120], [l * 0.7, 1880, 260], [l * 0.78, 1260, 60], [l * 0.98, 1180, 160], [l, 800, 60], [l * 0.99, f + 130, 60], [l * 0.06, f + 130, 30], [l * 0.06, 1180, 30], [l * 0.5, 1180]];
  return {
    behind: [closedPath(cab)],
    body: [
      airConditioner(l * 0.26, h, roof),
      closedPath([[0, 760, 40], [0, roof, 160], [l * 0.8, roof, 320], [l * 0.79, 1960, 200], [l * 0.475, 1960], [l * 0.475, 1190], [l * 0.33, 1190], [l * 0.33, 760, 30]]),
    ],
    glass: [box(l * 0.06, l * 0.26, 1650, roof - 450), box(l * 0.56, l * 0.68, 2180, roof - 330), pane([[l * 0.535, 1300, 30], [l * 0.535, 1780, 60], [l * 0.675, 1780, 120], [l * 0.735, 1300, 30]])],
    lines: [openPath([[l * 0.52, f + 200], [l * 0.52, 1880]]), openPath([[0, 1190], [l * 0.33, 1190]])],
  };
}

function smallMotorhome({ body: { length: l, height: h, floor: f } }: Rig, roof: number): Drawn {
  return {
    body: [
      airConditioner(l * 0.34, h, roof),
      closedPath([[0, f + 180, 60], [0, roof, 180], [l * 0.9, roof, 480], [l * 0.915, 2080, 240], [l * 0.8, 1960, 40], [l * 0.895, 1330, 80], [l * 0.99, 1150, 160], [l, 700, 90], [l * 0.995, f + 80, 60], [l * 0.74, f + 80], [l * 0.74, f + 180]]),
    ],
    glass: [pane([[l * 0.765, 1330, 40], [l * 0.765, 1880, 40], [l * 0.805, 1880, 40], [l * 0.87, 1330, 30]]), box(l * 0.79, l * 0.87, 2350, roof - 260), box(l * 0.08, l * 0.24, 1550, roof - 520), box(l * 0.4, l * 0.54, 1550, roof - 520)],
    lines: [openPath([[l * 0.74, f + 180], [l * 0.74, 2000]]), openPath([[0, 1020], [l * 0.585, 1020]])],
  };
}

function largeMotorhome({ body: { length: l, height: h, floor: f } }: Rig, roof: number): Drawn {
  return {
    body: [
      airConditioner(l * 0.3, h, roof), airConditioner(l * 0.66, h, roof),
      closedPath([[0, f + 120, 60], [0, roof, 160], [l * 0.985, roof, 360], [l, 1500, 300], [l * 0.997, f + 80, 120]]),
    ],
    glass: [pane([[l * 0.935, 1520, 60], [l * 0.935, roof - 420, 80], [l * 0.978, roof - 420, 80], [l * 0.993, 1520, 60]]), ...[[0.06, 0.16], [0.36, 0.5], [0.56, 0.7]].map(([a, b]) => box(l * a!, l * b!, 1750, roof - 520))],
    lines: [openPath([[0, 1180], [l * 0.83, 1180]]), ...[0.36, 0.48, 0.6, 0.72].map((a) => openPath([[l * a, f + 150], [l * a, 1180]]))],
  };
}

function travelTrailer({ body: { length: l, height: h, floor: f }, hitch }: Rig, roof: number): Drawn {
  return {
    behind: tongue(l, f, hitch?.length ?? 0),
    body: [airConditioner(l * 0.42, h, roof), closedPath([[0, f + 60, 60], [0, roof, 140], [l * 0.95, roof, 520], [l, 1500, 420], [l * 0.965, f + 60, 120]])],
    glass: [box(l * 0.08, l * 0.24, 1550, roof - 480), box(l * 0.3, l * 0.44, 1550, roof - 480), box(l * 0.8, l * 0.92, 1650, roof - 620)],
    lines: [openPath([[0, 1000], [l * 0.64, 1000]]), openPath([[l * 0.75, 1000], [l * 0.975, 1000]])],
  };
}

function fifthWheel({ body: { length: l, height: h, floor: f } }: Rig, roof: number): Drawn {
  const under = 1560;
  return {
    behind: [closedPath([[l * 0.87, under + 40], [l * 0.93, under + 40], [l * 0.955, 1180], [l * 0.92, 1180]]), openPath([[l * 0.745, f + 100], [l * 0.745, 0]])],
    body: [airConditioner(l * 0.35, h, roof), closedPath([[0, f + 60, 60], [0, roof, 140], [l * 0.94, roof - 60, 520], [l, roof - 1150, 420], [l * 0.965, under, 180], [l * 0.8, under, 120], [l * 0.765, f + 60, 120]])],
    glass: [box(l * 0.1, l * 0.24, 1650, roof - 520), box(l * 0.36, l * 0.5, 1650, roof - 520), box(l * 0.82, l * 0.92, 2300, roof - 480)],
    lines: [openPath([[0, 1080], [l * 0.58, 1080]]), openPath([[l * 0.69, 1080], [l * 0.77, 1080]])],
  };
}

function garageTrailer({ body: { length: l, height: h, floor: f }, hitch }: Rig, roof: number): Drawn {
  return {
    // The ramp half let down: what the kind is known by.
    behind: [...tongue(l, f, hitch?.length ?? 0), closedPath([[0, f + 40], [0, f + 160], [-1500, 1500], [-1560, 1400]]), openPath([[0, 2250], [-1500, 1500]])],
    body: [airConditioner(l * 0.3, h, roof), airConditioner(l * 0.62, h, roof), closedPath([[0, f + 60, 40], [0, roof, 100], [l * 0.93, roof, 420], [l, 1750, 360], [l * 0.975, f + 60, 120]])],
    glass: [box(l * 0.32, l * 0.42, 1700, roof - 520), box(l * 0.47, l * 0.57, 1700, roof - 520), box(l * 0.82, l * 0.91, 1750, roof - 600)],
    lines: [openPath([[l * 0.27, f + 60], [l * 0.27, roof]]), openPath([[l * 0.27, 1080], [l * 0.62, 1080]]), ...[0.06, 0.12, 0.18].map((a) => openPath([[l * a, 1300], [l * (a + 0.05), 1300]]))],
  };
}

function foldingTrailer({ body: { length: l, height: h, floor: f }, hitch }: Rig): Drawn {
  const box0 = 1120, bed = 1080, out = 1150;
  return {
    behind: [...tongue(l, f, hitch?.length ?? 0), openPath([[-out * 0.8, bed], [-out * 0.1, f + 250]]), openPath([[l + out * 0.8, bed], [l + out * 0.1, f + 250]])],
    body: [
      // Canvas first: the roof and the box lie over its edges.
      closedPath([[-out, bed], [-out * 0.92, bed + 620, 160], [l * 0.06, h - 110], [l * 0.94, h - 110], [l + out * 0.92, bed + 620, 160], [l + out, bed]]),
      closedPath([[-out, bed, 20], [-out, bed + 70, 20], [l + out, bed + 70, 20], [l + out, bed, 20]]),
      closedPath([[0, f, 60], [0, box0, 30], [l, box0, 30], [l, f, 60]]),
      closedPath([[0.02 * l, h - 150, 30], [0.03 * l, h, 60], [0.97 * l, h, 60], [0.98 * l, h - 150, 30]]),
    ],
    glass: [box(l * 0.12, l * 0.4, 1330, h - 420), box(l * 0.66, l * 0.9, 1330, h - 420)],
    lines: [openPath([[l * 0.06, h - 150], [l * 0.01, box0]]), openPath([[l * 0.94, h - 150], [l * 0.99, box0]]), openPath([[0, 760], [l, 760]])],
  };
}

/** The frame from the front wall to the coupler, with its jack and gas bottles' cover. */
function tongue(l: number, floor: number, hitch: number): string[] {
  if (hitch <= 0) return [];
  const w = floor + 90;
  return [
    closedPath([[l - 200, w - 60], [l - 200, w + 60], [l + hitch - 60, w + 60], [l + hitch, w + 20, 20], [l + hitch, w - 40, 20], [l + hitch - 120, w - 60]]),
    closedPath([[l + hitch * 0.12, w + 60], [l + hitch * 0.12, w + 520, 120], [l + hitch * 0.46, w + 520, 120], [l + hitch * 0.46, w + 60]]),
    openPath([[l + hitch * 0.66, w + 360], [l + hitch * 0.66, 0]]),
  ];
}

function airConditioner(u: number, top: number, roof: number): string {
  return closedPath([[u - 380, roof - 20], [u - 320, top, 90], [u + 320, top, 90], [u + 420, roof - 20]]);
}

function pane(corners: readonly Corner[]): Pane {
  const along = corners.map(([u]) => u);
  return { from: Math.min(...along), to: Math.max(...along), path: closedPath(corners) };
}

function box(u0: number, u1: number, w0: number, w1: number): Pane {
  return pane([[u0, w0, 70], [u0, w1, 70], [u1, w1, 70], [u1, w0, 70]]);
}
