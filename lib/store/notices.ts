import { randomBytes } from "node:crypto";
import postgres from "postgres";
import { databaseUrl } from "./environment";
import { log } from "./log";

/** Something of a park changed. Whoever is told asks anew for what they show: nothing of the change itself is in it. */
export interface Notice {
  /** What kind of thing: `stay`, `closure`, `loan`, `park` and so on, as the audit names it. */
  readonly subject: string;
  readonly id: string;
}

export interface Listening {
  /** Told of every change that is committed. */
  readonly onNotice: (notice: Notice) => void;
  /** Told when the connection is lost, and when it is back: what happened in between is not known, so everything is read anew. */
  readonly onLink: (linked: boolean) => void;
}

/** The channel that the database tells of every entry in the audit on. */
const channel = "padwright_change";
/** How long after a lost connection it is tried again, milliseconds. */
const patience = 500;
/** A connection that is cut without a word is noticed by a word sent to oneself: how often, and how long it may take, milliseconds. */
const heartbeat = 5_000;
const answerLimit = 3_000;

interface Hub {
  readonly listeners: Map<string, Set<Listening>>;
  linked: boolean;
}

/** Survives the reloading of modules in development: one connection a process. */
const kept = globalThis as typeof globalThis & { padwrightNotices?: Hub };

/**
 * Tells `listening` of changes of the park whose row is `parkId` until the function returned is called. One connection
 * serves all listeners of the process; it is made at the first and mended by itself.
 */
export function listen(parkId: string, listening: Listening): () => void {
  const hub = hubOf();
  const ofPark = hub.listeners.get(parkId) ?? new Set();
  hub.listeners.set(parkId, ofPark.add(listening));
  listening.onLink(hub.linked);
  return () => {
    ofPark.delete(listening);
    if (ofPark.size === 0) hub.listeners.delete(parkId);
  };
}

function hubOf(): Hub {
  if (!kept.padwrightNotices) {
    kept.padwrightNotices = { listeners: new Map(), linked: false };
    void keepListening(kept.padwrightNotices);
  }
  return kept.padwrightNotices;
}

/** Connects, listens, and does so again whenever the connection ends: as long as the process lives. */
async function keepListening(hub: Hub): Promise<never> {
  for (;;) {
    try {
      await listenOnce(hub);
    } catch (error) {
      log.warn({ err: error }, "no word of changes from the database; trying again");
    }
    setLinked(hub, false);
    await new Promise((done) => setTimeout(done, patience).unref());
  }
}

/**
 * Resolves never; throws when the database is gone. The driver renews a lost connection by itself, though not for sure, and
 * what was told meanwhile is lost: so every renewal counts as a gap, and a word sent to oneself has to come back.
 */
async function listenOnce(hub: Hub): Promise<never> {
  const sql = postgres(databaseUrl(), { max: 1, connect_timeout: 5, onnotice: () => undefined });
  const own = `padwright_beat_${randomBytes(8).toString("hex")}`;
  let heard: () => void = () => undefined;
  try {
    await sql.listen(own, () => heard());
    await sql.listen(channel, (payload) => pass(hub, payload), () => {
      setLinked(hub, false);
      setLinked(hub, true);
    });
    for (;;) {
      await new Promise((done) => setTimeout(done, heartbeat).unref());
      const back = new Promise<void>((done) => (heard = done));
      await inTime(sql.notify(own, ""));
      await inTime(back);
    }
  } finally {
    await sql.end({ timeout: 1 }).catch(() => undefined);
  }
}

async function inTime<T>(work: Promise<T>): Promise<T> {
  let clock: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, fail) => (clock = setTimeout(() => fail(new Error("the database does not answer")), answerLimit).unref()));
  return Promise.race([work, late]).finally(() => clearTimeout(clock));
}

function pass(hub: Hub, payload: string): void {
  const notice = JSON.parse(payload) as Notice & { readonly park: string };
  for (const { onNotice } of hub.listeners.get(notice.park) ?? []) onNotice({ subject: notice.subject, id: notice.id });
}

function setLinked(hub: Hub, linked: boolean): void {
  if (hub.linked === linked) return;
  hub.linked = linked;
  for (const ofPark of hub.listeners.values()) for (const { onLink } of ofPark) onLink(linked);
}
