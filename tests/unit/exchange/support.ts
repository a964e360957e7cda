import { readFileSync } from "node:fs";
import { pageLimits, planImport, writeInventory, type ExchangeFile, type Format, type ImportPlan, type Inventory, type Json, type Missing } from "@/lib/exchange";

/** The demo park as it is handed out, with its map placed on the earth and turned. */
export function demoInventory(): Inventory {
  const read = (name: string) => JSON.parse(readFileSync(`seed/quillback-meadow/${name}.json`, "utf8")) as Record<string, Json>;
  const rigs = read("rigs")["rigs"] as unknown as { name: string; note?: string; rig: Json }[];
  return {
    park: { ...read("park"), origin: { latitude: 43.6, longitude: -74.8, bearing: 12.5 } },
    sites: (read("sites")["sites"] as readonly Json[]).map((record) => ({ record, version: 1 })),
    rigs: rigs.map(({ name, note, rig }) => ({ name, note: note ?? null, record: rig })),
  };
}

export function fileOf(name: string, text: string | Uint8Array): ExchangeFile {
  return { name, bytes: typeof text === "string" ? new TextEncoder().encode(text) : text };
}

export function exported(inventory: Inventory, format: Format): ExchangeFile[] {
  return writeInventory(inventory, format)!.map(({ name, text }) => fileOf(name, text));
}

export function planOf(inventory: Inventory, files: Readonly<Record<string, string | Uint8Array>>, missing: Missing = "keep"): ImportPlan {
  return planImport(Object.entries(files).map(([name, text]) => fileOf(name, text)), inventory, missing, pageLimits);
}

/** One site of 12 m with a tree and a pedestal. */
export function smallInventory(): Inventory {
  const record = {
    id: "a1", label: "A-1", loop: "A", entry: "back-in", pad: { outline: [[0, -1800], [12000, -1800], [12000, 1800], [0, 1800]], surface: "gravel" }, place: { east: 10_000, north: 20_000, bearing: 30 },
    ground: { along: 1, across: 0 }, obstacles: [{ id: "oak", kind: "tree", at: [9000, -3300], trunkRadius: 280, crownRadius: 2600, crownFrom: 3900, crownTo: 11000 }],
    hookups: [{ id: "ped", kind: "power", at: [8000, -2200], height: 900, receptacles: [30, 50] }], rules: { maxLength: 10000 }, note: "kept as it came",
  };
  return { park: { slug: "two-pines", name: "Two Pines", origin: { latitude: 50, longitude: 10 } }, sites: [{ record, version: 3 }], rigs: [] };
}
