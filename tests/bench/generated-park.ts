import { siteSchema, type Site, type SiteInput } from "@/lib/park/schema";
import { between, chance, pick, randomFrom, type Random } from "../scenes/random";

type Outline = [number, number][];
type Obstacle = NonNullable<SiteInput["obstacles"]>[number];
type Hookup = NonNullable<SiteInput["hookups"]>[number];

/** What the sites of a loop have in common: ranges to draw from, lengths in mm. */
interface Loop {
  readonly name: string;
  /** Share of the park's sites. */
  readonly share: number;
  readonly entry: "back-in" | "pull-through";
  readonly length: readonly [number, number];
  readonly half: readonly [number, number];
  /** Steepest slope drawn, per cent. */
  readonly slope: number;
  readonly trees: readonly number[];
  readonly limbs: readonly [number, number];
  readonly receptacles: readonly (readonly (15 | 20 | 30 | 50)[])[];
  readonly sewer: number;
  /** How far hookups stand from the pad's edge. */
  readonly aside: readonly [number, number];
  readonly stall: number;
}

/** Five loops as parks have them: built in different decades, for different rigs. */
const loops: readonly Loop[] = [
  { name: "woods", share: 0.3, entry: "back-in", length: [7000, 13500], half: [1400, 2000], slope: 1.8, trees: [1, 2, 2, 3, 4], limbs: [2700, 4800], receptacles: [[20, 30], [30], [20, 30], [20, 30, 50]], sewer: 0.35, aside: [350, 900], stall: 0.1 },
  { name: "meadow", share: 0.25, entry: "pull-through", length: [17500, 27000], half: [1700, 2400], slope: 1.2, trees: [0, 0, 1, 1, 2], limbs: [2600, 4500], receptacles: [[20, 30, 50], [30, 50], [20, 30]], sewer: 0.85, aside: [450, 1100], stall: 0.1 },
  { name: "terrace", share: 0.15, entry: "back-in", length: [10000, 15500], half: [1600, 2200], slope: 4.5, trees: [0, 1, 1, 2], limbs: [3300, 5000], receptacles: [[20, 30, 50], [20, 30]], sewer: 0.7, aside: [350, 900], stall: 0.2 },
  { name: "paved", share: 0.2, entry: "back-in", length: [9000, 16500], half: [1700, 3100], slope: 1, trees: [0, 0, 1, 2], limbs: [3600, 5200], receptacles: [[20, 30, 50], [30, 50]], sewer: 1, aside: [250, 550], stall: 0.75 },
  { name: "creek", share: 0.1, entry: "back-in", length: [5000, 8500], half: [1300, 1700], slope: 2.2, trees: [0, 1, 2, 3], limbs: [2500, 4200], receptacles: [[15, 20], [20], [20, 30]], sewer: 0, aside: [250, 700], stall: 0 },
];

/** A park of so many sites, the same for the same seed. */
export function generatedPark(count: number, seed: number): Site[] {
  const r = randomFrom(seed);
  const sites: Site[] = [];
  for (let draws = 0; sites.length < count; draws++) {
    if (draws > 2 * count) throw new Error(`seed ${seed} gives only ${sites.length} readable sites of ${count} in ${draws} draws`);
    const site = siteSchema.safeParse(drawSite(r, loopOf(r), sites.length + 1));
    if (site.success) sites.push(site.data);
  }
  return sites;
}

function loopOf(r: Random): Loop {
  let left = r.next();
  return loops.find(({ share }) => (left -= share) < 0) ?? loops[0]!;
}

function drawSite(r: Random, loop: Loop, number: number): SiteInput {
  const length = tape(between(r, ...loop.length)), half = tape(between(r, ...loop.half));
  const through = loop.entry === "pull-through";
  const skew = tape(chance(r, 0.25) ? 0 : between(r, -1500, 1500));
  const lot = drawLot(r, length, half, skew);
  const slope = () => Math.round((r.next() * 2 - 1) * loop.slope * 10) / 10;
  return {
    id: `s${number}`, label: `${loop.name} ${number}`, loop: loop.name, entry: loop.entry,
    enterFrom: through && chance(r, 0.3) ? "either" : undefined,
    pad: { outline: drawPad(r, length, half, skew, through) },
    roadEdge: [[skew * 0.9, -half - 1500], [-skew * 0.9, half + 1500]],
    exitEdge: through && chance(r, 0.6) ? [[length + 600 + skew, -half - 1500], [length + 600 - skew, half + 1500]] : null,
    lot: chance(r, 0.85) ? { outline: lot } : null,
    ground: { along: slope(), across: slope() },
    obstacles: drawObstacles(r, loop, length, half),
    hookups: drawHookups(r, loop, length, half, through),
    parking: chance(r, loop.stall) ? [{ id: "stall", outline: box(tape(between(r, 1500, 4000)), half + 300, between(r, 5400, 7000), between(r, 2500, 3000)) }] : null,
    rules: {
      maxLength: chance(r, 0.4) ? tape(length + between(r, -1000, 2500)) : null, maxGuests: pick(r, [4, 6, 6, 8]), maxVehicles: pick(r, [1, 2, 2, 2]),
      pets: !chance(r, 0.03), accessible: chance(r, 0.02),
    },
  };
}

/** Measured with a tape: to 25 mm. */
function tape(value: number): number {
  return 25 * Math.round(value / 25);
}

/** Flared at the road, often chewed at a corner, seldom quite straight. */
function drawPad(r: Random, length: number, half: number, skew: number, through: boolean): Outline {
  const wobble = () => tape(between(r, -75, 75));
  const flare = between(r, 400, 1300), from = between(r, 1500, 3200);
  const right: Outline = chance(r, 0.7) ? [[skew, -half - flare], [from, -half + wobble()]] : [[0, -half]];
  const left: Outline = chance(r, 0.7) ? [[from, half + wobble()], [-skew, half + flare]] : [[0, half]];
  const end: Outline = through && chance(r, 0.6) ? [[length - 3000, -half], [length + skew, -half - flare], [length - skew, half + flare], [length - 3000, half]] : [[length + wobble(), -half], [length + wobble(), half]];
  const bite = tape(between(r, 150, 500)), at = tape(length * (0.35 + 0.3 * r.next()));
  const bitten: Outline = chance(r, 0.2) ? [[at + 1400, half], [at + 900, half - bite], [at, half - bite], [at - 400, half]] : [];
  return [...right, ...end, ...bitten, ...left];
}

/** Room beside and behind the pad; a bank or a fence cuts some lots off. */
function drawLot(r: Random, length: number, half: number, skew: number): Outline {
  const y0 = -half - tape(between(r, 1800, 4200)), y1 = half + tape(between(r, 2500, 5500)), x1 = length + tape(between(r, 600, 3200));
  const front: Outline = [[-Math.abs(skew) - 1200, y0]], rear: Outline = [[-Math.abs(skew) - 1200, y1]];
  if (!chance(r, 0.25)) return [...front, [x1, y0], [x1, y1], ...rear];
  const cut = tape(length * (0.6 + 0.3 * r.next()));
  return [...front, [x1, y0], [x1, y1 - 1200], [cut + 150, y1 - 1200], [cut, y1], ...rear];
}

function drawObstacles(r: Random, loop: Loop, length: number, half: number): Obstacle[] {
  const list: Obstacle[] = [];
  const trees = pick(r, loop.trees);
  for (let i = 0; i < trees; i++) {
    const trunkRadius = between(r, 90, 380), crownRadius = trunkRadius + between(r, 900, 3200), crownFrom = between(r, ...loop.limbs);
    const off = half + trunkRadius + between(r, 150, 3500);
    const at: [number, number] = chance(r, 0.2) ? [length + trunkRadius + between(r, 200, 1800), between(r, -half, half)] : [between(r, 2000, length), chance(r, 0.5) ? off : -off];
    list.push({ id: `tree-${i + 1}`, kind: "tree", at, trunkRadius, crownRadius, crownFrom, crownTo: crownFrom + between(r, 2500, 11000) });
  }
  const along = between(r, 2500, Math.max(3000, length - 2500));
  list.push({ id: "table", kind: "table", outline: turned(r, along, half + between(r, 1300, 2600), 1830, 1500), from: 0, to: 760, removable: true });
  list.push({ id: "fire", kind: "fire-ring", at: [between(r, 2000, length + 800), (chance(r, 0.8) ? 1 : -1) * (half + between(r, 1800, 4200))], radius: 450, from: 0, to: 300 });
  if (chance(r, 0.3)) list.push({ id: "rock", kind: "rock", at: [between(r, 500, length), -half - between(r, 300, 900)], radius: between(r, 200, 450), from: 0, to: between(r, 250, 700) });
  if (loop.entry === "back-in" && chance(r, 0.5)) list.push({ id: "stop", kind: "wheel-stop", outline: box(length - 700, -950, 150, 1900), from: 0, to: 130 });
  if (chance(r, 0.06)) list.push({ id: "feeder", kind: "wire", outline: box(between(r, 1000, length), -9000, 40, 18_000), from: between(r, 4800, 6500), to: 7000 });
  return list;
}

/** On the driver's side of a rig that came in the usual way. */
function drawHookups(r: Random, loop: Loop, length: number, half: number, through: boolean): Hookup[] {
  const side = through ? 1 : -1;
  const at = (share: number): [number, number] => [tape(length * (share + 0.1 * (r.next() - 0.5))), side * (half + tape(between(r, ...loop.aside)))];
  const middle = through ? 0.5 : 0.78;
  const list: Hookup[] = [];
  if (!chance(r, 0.03)) list.push({ id: "ped", kind: "power", at: at(middle), height: 950, receptacles: [...pick(r, loop.receptacles)], volts: 120, postRadius: between(r, 90, 160), postHeight: 1250 });
  if (!chance(r, 0.05)) list.push({ id: "tap", kind: "water", at: at(middle + 0.05), height: 700, pressure: between(r, 280, 640), postRadius: 50, postHeight: 760 });
  if (chance(r, loop.sewer)) list.push({ id: "drain", kind: "sewer", at: at(middle - 0.12), height: between(r, 20, 90), groundZ: loop.slope > 4 && chance(r, 0.4) ? -between(r, 150, 500) : null });
  return list;
}

function box(x: number, y: number, dx: number, dy: number): Outline {
  return [[x, y], [x + dx, y], [x + dx, y + dy], [x, y + dy]];
}

/** A box around a middle, turned as people leave tables. */
function turned(r: Random, cx: number, cy: number, dx: number, dy: number): Outline {
  const angle = chance(r, 0.5) ? 0 : r.next() - 0.5, c = Math.cos(angle), s = Math.sin(angle);
  return ([[-dx, -dy], [dx, -dy], [dx, dy], [-dx, dy]] as Outline).map(([x, y]) => [Math.round(cx + (c * x - s * y) / 2), Math.round(cy + (s * x + c * y) / 2)]);
}
