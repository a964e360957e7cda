/** Small dense symmetric systems, by Cholesky: as many unknowns as a pad has corners, twice over. Rows are arrays. */
export type Matrix = readonly (readonly number[])[];

/** Less than this share of what a pivot began as is left by rounding alone. */
const RANK = 1e-12;

/** The lower triangle L with L Lᵀ = m, or null where m is not positive definite. */
export function cholesky(m: Matrix): number[][] | null {
  const n = m.length, lower: number[][] = [];
  for (let i = 0; i < n; i++) {
    const row: number[] = new Array<number>(n).fill(0);
    for (let j = 0; j <= i; j++) {
      let sum = m[i]![j]!;
      const other = j === i ? row : lower[j]!;
      for (let k = 0; k < j; k++) sum -= row[k]! * other[k]!;
      if (j < i) row[j] = sum / other[j]!;
      else if (!(sum > RANK * m[i]![i]!)) return null;
      else row[i] = Math.sqrt(sum);
    }
    lower.push(row);
  }
  return lower;
}

/** The solution of L y = b. */
export function forward(lower: Matrix, b: readonly number[]): number[] {
  const y: number[] = [];
  lower.forEach((row, i) => {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= row[k]! * y[k]!;
    y.push(sum / row[i]!);
  });
  return y;
}

/** The solution of L Lᵀ x = b. */
export function solveWith(lower: Matrix, b: readonly number[]): number[] {
  const x = forward(lower, b);
  for (let i = lower.length - 1; i >= 0; i--) {
    let sum = x[i]!;
    for (let k = i + 1; k < lower.length; k++) sum -= lower[k]![i]! * x[k]!;
    x[i] = sum / lower[i]![i]!;
  }
  return x;
}

export function inverseOf(lower: Matrix): number[][] {
  return lower.map((_, i) => solveWith(lower, lower.map((__, k) => (k === i ? 1 : 0))));
}

export function transpose(m: Matrix): number[][] {
  return (m[0] ?? []).map((_, j) => m.map((row) => row[j]!));
}

export function multiply(a: Matrix, b: Matrix): number[][] {
  const columns = transpose(b);
  return a.map((row) => columns.map((column) => dot(row, column)));
}

export function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
