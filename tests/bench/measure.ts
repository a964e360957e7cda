/** CPU time of the whole process (its garbage collector and compiler threads included) and time on the wall, ms. */
export interface Cost {
  readonly cpu: number;
  readonly wall: number;
}

export interface Spread {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

/** One of several that are timed by turns, so that a busy moment of the machine falls on all of them alike. */
export interface Contestant {
  readonly name: string;
  /** What is timed. */
  readonly run: () => void;
  /** Times `run` is repeated within one round; its cost is given for one. For what is too short for the clock. */
  readonly repeat?: number;
  /** Takes part only in so many of the rounds. For what is too long to repeat often. */
  readonly rounds?: number;
}

/** The costs of a run of `work`. */
export function costOf(work: () => void): Cost {
  const cpu = process.cpuUsage(), wall = performance.now();
  work();
  const spent = process.cpuUsage(cpu);
  return { cpu: (spent.user + spent.system) / 1000, wall: performance.now() - wall };
}

/** Several rounds; in each, every contestant once, beginning with another one each time. */
export function race(rounds: number, contestants: readonly Contestant[]): Map<string, Cost[]> {
  const costs = new Map(contestants.map(({ name }) => [name, [] as Cost[]]));
  for (let round = 0; round < rounds; round++) {
    for (let k = 0; k < contestants.length; k++) {
      const { name, run, repeat = 1, rounds: most = rounds } = contestants[(round + k) % contestants.length]!;
      if (round >= most) continue;
      const { cpu, wall } = costOf(() => { for (let i = 0; i < repeat; i++) run(); });
      costs.get(name)!.push({ cpu: cpu / repeat, wall: wall / repeat });
    }
  }
  return costs;
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const median = sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
  return { median, least: sorted[0]!, most: sorted.at(-1)! };
}

/** How many times as dear `a` was as `b` in each round that both took part in, in CPU time. */
export function ratios(a: readonly Cost[], b: readonly Cost[]): number[] {
  return a.slice(0, b.length).map(({ cpu }, round) => cpu / b[round]!.cpu);
}

/** "12.3 (11.8 … 14.0)": the median, the least and the most. */
export function told({ median, least, most }: Spread, unit = ""): string {
  return `${digits(median)}${unit} (${digits(least)} … ${digits(most)})`;
}

/** Three digits that mean something, thousands set apart. */
export function digits(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  const places = Math.max(0, 2 - Math.floor(Math.log10(Math.max(1e-9, Math.abs(value)))));
  return value.toLocaleString("en-US", { minimumFractionDigits: Math.min(places, 3), maximumFractionDigits: Math.min(places, 3) });
}
