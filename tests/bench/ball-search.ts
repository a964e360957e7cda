import type { Domain, Found, SearchResult } from "@/lib/search";

export interface Looked {
  /** What is maximised. */
  readonly value: number;
  /** The least margin of what has to hold. */
  readonly spare: number;
  /** The value that counts where all holds, if it is not `value` itself. */
  readonly reached?: () => number;
}

export interface Options {
  /** Ends once no point can beat the best by more than this, mm. */
  readonly gap: number;
  /** By how much the value changes at most as the pose moves. */
  readonly steepness: number;
  readonly cap: number;
  readonly resolution: number;
  readonly touch: number;
  readonly target?: number;
  readonly first?: Found;
  readonly budget: number;
}

interface Square {
  readonly x: number;
  readonly y: number;
  readonly half: number;
  readonly upper: number;
}

/**
 * The obvious branch and bound: square cells quartered, best first, and one ball per cell for everything. What is
 * maximised changes by at most `steepness` times, and no margin by more than, the way the pose moves: the value at the
 * centre plus so much of the half diagonal bounds it over the cell.
 */
export function ballSearch(domain: Domain, look: (x: number, y: number) => Looked, { gap, steepness, cap, resolution, touch, target = Infinity, first, budget }: Options): SearchResult {
  const open: Square[] = [];
  let best: Found | null = first ?? null, loose: Found | null = null;
  let cells = 0, passedOver = -Infinity;
  const mark = () => (best === null ? -Infinity : best.value + gap);
  const survey = (x: number, y: number, half: number, above: number) => {
    cells++;
    const { value, spare, reached } = look(x, y), radius = half * Math.SQRT2;
    if (spare >= -touch) {
      const found = { x, y, value: reached?.() ?? value };
      if (spare >= 0 && (best === null || found.value > best.value)) best = found;
      if (spare < 0 && (loose === null || found.value > loose.value)) loose = found;
    }
    if (spare + radius < 0) return;
    const upper = Math.min(value + steepness * radius, cap, above);
    if (upper > mark()) push(open, { x, y, half, upper });
    else passedOver = Math.max(passedOver, upper);
  };
  for (const { x, y, half } of squaresOver(domain)) survey(x, y, half, Infinity);
  const answer = (ended: SearchResult["ended"]): SearchResult => ({ ended, best, loose, bound: Math.max(passedOver, open[0]?.upper ?? -Infinity, best?.value ?? -Infinity), cells });
  for (;;) {
    if (best !== null && (best as Found).value >= target) return answer("target");
    const top = open[0];
    if (top === undefined || top.upper <= mark()) return answer("closed");
    if (cells >= budget) return answer("budget");
    pop(open);
    if (top.half * Math.SQRT2 <= resolution) {
      passedOver = Math.max(passedOver, top.upper);
      continue;
    }
    const half = top.half / 2;
    for (const [sx, sy] of QUARTERS) survey(top.x + sx * half, top.y + sy * half, half, top.upper);
  }
}

const QUARTERS = [[-1, -1], [1, -1], [-1, 1], [1, 1]] as const;

/** The domain laid with squares as large as its shorter side. */
function* squaresOver({ minX, maxX, minY, maxY }: Domain): Generator<{ x: number; y: number; half: number }> {
  const half = Math.min(maxX - minX, maxY - minY) / 2;
  for (let x = minX + half; x - half < maxX; x += 2 * half) {
    for (let y = minY + half; y - half < maxY; y += 2 * half) yield { x, y, half };
  }
}

/** A binary heap, greatest bound first. */
function push(heap: Square[], square: Square): void {
  let i = heap.length;
  heap.push(square);
  for (let up = (i - 1) >> 1; i > 0 && heap[up]!.upper < square.upper; up = (i - 1) >> 1) {
    heap[i] = heap[up]!;
    i = up;
  }
  heap[i] = square;
}

function pop(heap: Square[]): void {
  const last = heap.pop()!;
  if (heap.length === 0) return;
  let i = 0;
  for (let child = 1; child < heap.length; child = 2 * i + 1) {
    if (child + 1 < heap.length && heap[child + 1]!.upper > heap[child]!.upper) child++;
    if (heap[child]!.upper <= last.upper) break;
    heap[i] = heap[child]!;
    i = child;
  }
  heap[i] = last;
}
