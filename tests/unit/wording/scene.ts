import { readFileSync } from "node:fs";
import path from "node:path";
import { siteSchema, type Site } from "@/lib/park";
import { rigSchema, type Rig } from "@/lib/rig";

const folder = path.join(import.meta.dirname, "../../../seed/quillback-meadow");
const read = (file: string): unknown => JSON.parse(readFileSync(path.join(folder, file), "utf8"));

export const demoSites: Site[] = (read("sites.json") as { sites: unknown[] }).sites.map((s) => siteSchema.parse(s));
export const demoRigs: Rig[] = (read("rigs.json") as { rigs: { rig: unknown }[] }).rigs.map(({ rig }) => rigSchema.parse(rig));

export function demoRig(id: string): Rig {
  const rig = demoRigs.find((r) => r.id === id);
  if (!rig) throw new Error(`no demo rig ${id}`);
  return rig;
}

/** A site with one of everything, for sentences. */
export const site: Site = siteSchema.parse({
  id: "c07", label: "C-07", entry: "back-in",
  pad: { outline: [[0, -1800], [13700, -1800], [13700, 1800], [0, 1800]], surface: "gravel" },
  lot: { outline: [[0, -6000], [16000, -6000], [16000, 6000], [0, 6000]] },
  place: { east: 0, north: 0, bearing: 118 },
  ground: { along: 1.5, across: -0.8 },
  obstacles: [
    { id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom: 3900, crownTo: 11000 },
    { id: "fire", kind: "fire-ring", at: [10500, 4600], radius: 500, from: 0, to: 300 },
    { id: "tree-3", kind: "tree", at: [15500, 5000], trunkRadius: 200, crownRadius: 1900, crownFrom: 3000, crownTo: 9000 },
    { id: "r7", kind: "rock", at: [2500, -2600], radius: 400, from: 0, to: 500 },
  ],
  hookups: [
    { id: "ped", kind: "power", at: [11000, -2400], height: 900, receptacles: [20, 30], postRadius: 150, postHeight: 1300 },
    { id: "tap", kind: "water", at: [11400, -2400], height: 750, pressure: 620, postRadius: 60, postHeight: 800 },
    { id: "drain", kind: "sewer", at: [12200, -2300], height: 60 },
  ],
  parking: [{ id: "stall", outline: [[1000, 2500], [7000, 2500], [7000, 5200], [1000, 5200]] }],
  rules: { maxLength: 9000, maxGuests: 6, maxVehicles: 1, tents: 1, pets: false },
});

export const rig: Rig = rigSchema.parse({
  id: "tt", kind: "travel-trailer",
  body: { length: 9400, width: 2440, height: 3400, floor: 400 },
  hitch: { length: 1100, width: 600, from: 300, to: 900 },
  supports: [{ kind: "tyre", at: [3900, 1000] }, { kind: "tyre", at: [3900, -1000] }, { kind: "jack", at: [10100, 0] }],
  parts: [
    { id: "lounge", kind: "slide", side: "left", span: [4200, 7700], depth: 1000, from: 800, to: 2900, need: "must" },
    { id: "awning", kind: "awning", side: "right", span: [2500, 6500], depth: 2400, from: 2000, to: 3100, need: "nice" },
    { id: "door", kind: "entry", side: "right", span: [6900, 7700], depth: 900, from: 0, to: 2000, need: "must" },
  ],
  inlets: [{ kind: "power", side: "left", u: 1500, height: 700 }, { kind: "water", side: "left", u: 2600, height: 700 }, { kind: "sewer", side: "left", u: 3000, height: 450 }],
  wants: ["power", "water", "sewer"],
  gear: { powerCord: 9100, waterHose: 0, sewerHose: 4600, liftSide: 90 },
  electric: { plug: 50, loads: [{ id: "air-1", va: 1560, need: "must" }, { id: "air-2", va: 1560, need: "nice" }] },
  tow: { length: 5900, width: 2030, height: 1950, stays: "on-site" },
  party: { adults: 4, children: 4, pets: 1, tents: 2 },
});
