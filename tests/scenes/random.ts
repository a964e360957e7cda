/** A small seeded source of randomness: the same seed gives the same scene on every machine. */
export interface Random {
  /** At least 0, below 1. */
  next(): number;
}

/** mulberry32: 32 bits of state, good enough to scatter trees. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  return {
    next() {
      state = (state + 0x6d2b79f5) >>> 0;
      let t = state;
      t = Math.imul(t ^ (t >>> 15), t | 1);
      t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
      return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
    },
  };
}

/** A whole number from `low` to `high`, both included. */
export function between(r: Random, low: number, high: number): number {
  return Math.floor(low + r.next() * (high - low + 1));
}

export function chance(r: Random, probability: number): boolean {
  return r.next() < probability;
}

export function pick<T>(r: Random, list: readonly T[]): T {
  return list[Math.floor(r.next() * list.length)]!;
}

export function some<T>(r: Random, list: readonly T[], probability: number): T[] {
  return list.filter(() => chance(r, probability));
}

/** A margin that decides something: often within a hand of zero, at times exactly zero, mostly enough. */
export function margin(r: Random): number {
  const kind = r.next();
  if (kind < 0.04) return 0;
  if (kind < 0.17) return between(r, -30, 60);
  if (kind < 0.23) return between(r, -200, 0);
  if (kind < 0.65) return between(r, 20, 900);
  return between(r, 300, 3500);
}
