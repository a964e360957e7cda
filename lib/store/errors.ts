import type { Nights, StayFault } from "@/lib/stays";

/**
 * What can go wrong in the database, in our own words. Prisma's shapes for a refused query and those of its driver
 * adapter are not public and change; this is the one place that reads them, and a test holds it against a real server.
 */

export type StoreErrorKind =
  /** Something of that name or number is already there. */
  | "taken"
  /** It would overlap something that is already there. */
  | "overlap"
  /** What it belongs to, or what was asked for, is not there. */
  | "missing"
  /** A value that the database does not allow there. */
  | "refused"
  /** Somebody changed it since it was read. */
  | "stale"
  /** Two changes met, or every connection is in use: the same again may work. */
  | "busy"
  | "unreachable"
  | "disk-full"
  | "unknown";

export class StoreError extends Error {
  override readonly name = "StoreError";
  constructor(
    readonly kind: StoreErrorKind,
    message: string,
    /** The constraint that refused it, where one did. */
    readonly constraint: string | null,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}

/** Somebody else has the site on one of the nights. Says what is still free. */
export class NightsTaken extends StoreError {
  constructor(
    readonly site: string,
    readonly nights: Nights,
    /** The sites of the park that are free for these nights, in the park's own order. */
    readonly free: readonly string[],
    /** As many nights on the same site, as near as they can be had. */
    readonly nearest: Nights | null,
    options?: ErrorOptions,
  ) {
    super("overlap", `${site} is taken from ${nights.arrive} to ${nights.depart}; ${free.length} other site(s) are free`, oneANight, options);
  }
}

/** The stay, or the change of it, is not allowed. Every reason at once. */
export class StayRefused extends StoreError {
  constructor(readonly faults: readonly StayFault[]) {
    super("refused", `not allowed: ${faults.map(({ code }) => code).join(", ")}`, null);
  }
}

/** The constraint that keeps two occupants from having one site on one night. */
export const oneANight = "occupancy_one_a_night";

/** Runs `work` and turns whatever the database refuses into a {@link StoreError}. */
export async function inStore<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw toStoreError(error);
  }
}

/** The {@link StoreError} for anything thrown by Prisma, its adapter or a driver. */
export function toStoreError(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const facts = collect(error);
  const kind = kindOf(facts);
  return new StoreError(kind, `${says[kind]}: ${facts.message}`, facts.constraint, { cause: error });
}

const says: Record<StoreErrorKind, string> = {
  taken: "already there",
  overlap: "overlaps what is already there",
  missing: "not there",
  refused: "not allowed by the database",
  stale: "changed since it was read",
  busy: "the database is busy",
  unreachable: "the database cannot be reached",
  "disk-full": "the database's disk is full",
  unknown: "the database refused",
};

const kindOfState: Record<string, StoreErrorKind> = {
  "23505": "taken",
  "23P01": "overlap",
  "23503": "missing",
  "23001": "refused",
  "23502": "refused",
  "23514": "refused",
  "22001": "refused",
  "22003": "refused",
  "22P02": "refused",
  "40001": "busy",
  "40P01": "busy",
  "53300": "busy",
  "55P03": "busy",
  "53100": "disk-full",
  "57P01": "unreachable",
  "57P03": "unreachable",
  "3D000": "unreachable",
  "28000": "unreachable",
  "28P01": "unreachable",
};

const kindOfPrisma: Record<string, StoreErrorKind> = {
  P2002: "taken",
  P2003: "missing",
  P2025: "missing",
  P2034: "busy",
  P2024: "busy",
  P2028: "busy",
  P1001: "unreachable",
  P1017: "unreachable",
};

const networkCodes = /^(ECONNREFUSED|ECONNRESET|ENOTFOUND|EHOSTUNREACH|ETIMEDOUT|EPIPE|EAI_AGAIN|CONNECT_TIMEOUT|CONNECTION_CLOSED|CONNECTION_ENDED)$/;

interface Facts {
  message: string;
  constraint: string | null;
  codes: string[];
}

function kindOf({ codes, message }: Facts): StoreErrorKind {
  for (const code of codes) {
    const kind = kindOfState[code] ?? (networkCodes.test(code) ? "unreachable" : undefined);
    if (kind) return kind;
  }
  for (const code of codes) if (kindOfPrisma[code]) return kindOfPrisma[code];
  if (/connect|Connection terminated|server closed/i.test(message)) return "unreachable";
  return "unknown";
}

/** Walks an error and what it says caused it, for the codes, the constraint and the database's own sentence. */
function collect(error: unknown): Facts {
  const facts: Facts = { message: "", constraint: null, codes: [] };
  const seen = new Set<unknown>();
  let next: unknown[] = [error];
  while (next.length > 0 && seen.size < 20) {
    const item = next.shift();
    if (typeof item !== "object" || item === null || seen.has(item)) continue;
    seen.add(item);
    const record = item as Record<string, unknown>;
    note(record, facts);
    next = [...next, record["meta"], record["driverAdapterError"], record["cause"], ...(Array.isArray(record["errors"]) ? record["errors"] : [])];
  }
  return facts;
}

function note(record: Record<string, unknown>, facts: Facts): void {
  for (const key of ["originalCode", "code", "errorCode"]) {
    const code = record[key];
    if (typeof code === "string") facts.codes.push(code);
  }
  const constraint = record["constraint"] ?? record["constraint_name"];
  if (typeof constraint === "string") facts.constraint ??= constraint;
  else if (typeof constraint === "object" && constraint !== null && "index" in constraint) facts.constraint ??= String(constraint.index);
  const sentence = record["originalMessage"] ?? record["message"];
  // The innermost sentence is the database's own; the outer ones repeat it with the query around it.
  if (typeof sentence === "string" && sentence.trim()) facts.message = sentence.trim().split("\n").at(-1)?.trim() ?? facts.message;
  facts.constraint ??= /constraint "([^"]+)"/.exec(typeof sentence === "string" ? sentence : "")?.[1] ?? null;
}
