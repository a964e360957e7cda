/**
 * Dormand & Prince's Runge-Kutta pair of order 5(4) with its continuous extension (J. Comput. Appl. Math. 6, 1980; the
 * extension as in Hairer, Norsett & Wanner, Solving Ordinary Differential Equations I, 2nd ed., II.6). The step follows
 * the error that the pair estimates.
 */
export interface Stepping {
  /** Estimated error allowed for each unit of length, so that over the whole it adds up to a stated one. */
  readonly errorPerLength: number;
  readonly longestStep: number;
  /** Tries, refused steps included, before giving up. */
  readonly budget: number;
  /** Whether the rest of the way can be taken as standing still at this state. */
  readonly isStill: (state: Float64Array, rates: Float64Array, rest: number) => boolean;
}

/** From `from` on over `length`: the state there, and between by five coefficients for each component. */
export interface Step {
  readonly from: number;
  readonly length: number;
  readonly coefficients: Float64Array;
  /** Nothing changes over it. */
  readonly still: boolean;
}

export interface Integrated {
  readonly steps: Step[];
  readonly end: Float64Array;
  /** Short of the end asked for where the budget ran out. */
  readonly reached: number;
  readonly tries: number;
}

export type Rates = (along: number, state: Float64Array, out: Float64Array) => void;

export function integrate(rates: Rates, from: number, to: number, start: Float64Array, stepping: Stepping): Integrated {
  const n = start.length, stages = Array.from({ length: 7 }, () => new Float64Array(n));
  let state: Float64Array = Float64Array.from(start), at = from, step = Math.min(stepping.longestStep, to - from), tries = 0;
  const steps: Step[] = [];
  rates(at, state, stages[0]!);
  while (at < to && tries < stepping.budget) {
    const rest = to - at;
    if (stepping.isStill(state, stages[0]!, rest)) {
      steps.push({ from: at, length: rest, coefficients: stillAt(state), still: true });
      return { steps, end: state, reached: to, tries };
    }
    tries++;
    const length = step >= rest * (1 - ROUNDING) ? rest : step;
    const { end, error } = tryStep(rates, at, state, length, stages);
    const allowed = Math.max(stepping.errorPerLength * length, ROUNDING);
    if (error <= allowed) {
      steps.push({ from: at, length, coefficients: denseOf(state, end, length, stages), still: false });
      at = length === rest ? to : at + length;
      state = end;
      stages[0]!.set(stages[6]!);
    }
    // The error falls with the fifth power of the step, the allowance with the first.
    step = Math.min(stepping.longestStep, length * Math.min(LARGEST_GROWTH, Math.max(LEAST_GROWTH, SAFETY * (allowed / Math.max(error, Number.MIN_VALUE)) ** 0.25)));
  }
  return { steps, end: state, reached: at, tries };
}

/** The state within a step, `share` 0 at its start and 1 at its end; written to `out`. */
export function stateWithin({ coefficients: c }: Step, share: number, out: Float64Array): void {
  const n = out.length, rest = 1 - share;
  for (let i = 0; i < n; i++) {
    out[i] = c[i]! + share * (c[n + i]! + rest * (c[2 * n + i]! + share * (c[3 * n + i]! + rest * c[4 * n + i]!)));
  }
}

/** Angles of a few radians carry about this much rounding: no step can be held to less. */
const ROUNDING = 1e-15;
const SAFETY = 0.9, LEAST_GROWTH = 0.2, LARGEST_GROWTH = 5;

const NODE = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1] as const;
const STAGE = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
] as const;
/** Fifth order less fourth. */
const ERROR = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40] as const;
const DENSE = [-12715105075 / 11282082432, 0, 87487479700 / 32700410799, -10690763975 / 1880347072, 701980252875 / 199316789632, -1453857185 / 822651844, 69997945 / 29380423] as const;

/** One step from `state`, whose rates are in the first stage already; the last stage then holds those at its end. */
function tryStep(rates: Rates, at: number, state: Float64Array, length: number, stages: readonly Float64Array[]): { end: Float64Array; error: number } {
  const n = state.length, end = new Float64Array(n);
  for (let k = 1; k < 7; k++) {
    const weights = STAGE[k]!;
    for (let i = 0; i < n; i++) {
      let sum = 0;
      for (let j = 0; j < k; j++) sum += weights[j]! * stages[j]![i]!;
      end[i] = state[i]! + length * sum;
    }
    rates(at + NODE[k]! * length, end, stages[k]!);
  }
  let error = 0;
  for (let i = 0; i < n; i++) error = Math.max(error, Math.abs(length * weighted(ERROR, stages, i)));
  return { end, error };
}

function denseOf(start: Float64Array, end: Float64Array, length: number, stages: readonly Float64Array[]): Float64Array {
  const n = start.length, out = new Float64Array(5 * n);
  for (let i = 0; i < n; i++) {
    const difference = end[i]! - start[i]!, bow = length * stages[0]![i]! - difference;
    out[i] = start[i]!;
    out[n + i] = difference;
    out[2 * n + i] = bow;
    out[3 * n + i] = difference - length * stages[6]![i]! - bow;
    out[4 * n + i] = length * weighted(DENSE, stages, i);
  }
  return out;
}

function weighted(weights: readonly number[], stages: readonly Float64Array[], i: number): number {
  let sum = 0;
  for (let j = 0; j < 7; j++) sum += weights[j]! * stages[j]![i]!;
  return sum;
}

function stillAt(state: Float64Array): Float64Array {
  const out = new Float64Array(5 * state.length);
  out.set(state);
  return out;
}
