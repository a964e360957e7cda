import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { Step } from "@/lib/survey";

/** A step that is kept on the phone until it has been sent. */
export interface KeptStep {
  /** Grows by one with each: they are sent in the order in which they were taken. */
  readonly key?: number;
  readonly account: string;
  readonly site: string;
  readonly step: Step;
  /** The office could not take it: it is told, and stays until somebody drops it. */
  readonly refused?: boolean;
}

interface Shape extends DBSchema {
  steps: { key: number; value: KeptStep; indexes: { site: [string, string] } };
}

let opened: Promise<IDBPDatabase<Shape>> | null = null;

function database(): Promise<IDBPDatabase<Shape>> {
  opened ??= openDB<Shape>("padwright-survey", 1, {
    upgrade: (db) => { db.createObjectStore("steps", { keyPath: "key", autoIncrement: true }).createIndex("site", ["account", "site"]); },
    terminated: () => { opened = null; },
  });
  return opened;
}

export async function listKept(account: string, site: string): Promise<KeptStep[]> {
  return (await database()).getAllFromIndex("steps", "site", [account, site]);
}

/** Resolves once it is written down: only then is anybody told that it is kept. */
export async function keepStep(step: KeptStep): Promise<number> {
  return (await database()).add("steps", step);
}

/** After they were sent: the ones taken are forgotten, the refused ones marked. */
export async function settleKept(sent: readonly KeptStep[], refused: ReadonlySet<number>): Promise<void> {
  const tx = (await database()).transaction("steps", "readwrite");
  await Promise.all([...sent.map((kept, i) => (refused.has(i) ? tx.store.put({ ...kept, refused: true }) : tx.store.delete(kept.key!))), tx.done]);
}

export async function dropKept(key: number): Promise<void> {
  await (await database()).delete("steps", key);
}
