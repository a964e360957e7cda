import { dot, multiply, transpose, type Matrix } from "./linear";
import type { Measured } from "./types";

/** Steps for a derivative: this share of the number's error, and never so small that rounding shows. */
const SHARE = 1e-2, RELATIVE = 1e-7;

/**
 * The covariance of what is worked out from numbers with this covariance, to first order (the law of propagation of
 * errors). `work` has to be smooth over the errors: far from where a root or an angle runs out.
 */
export function carriedCovariance(work: (values: readonly number[]) => readonly number[], values: readonly number[], covariance: Matrix): number[][] {
  const slopes = transpose(values.map((value, i) => {
    const step = Math.max(SHARE * Math.sqrt(covariance[i]![i]!), RELATIVE * Math.abs(value), RELATIVE);
    const moved = (by: number) => work(values.map((other, k) => (k === i ? value + by : other)));
    const up = moved(step), down = moved(-step);
    return up.map((high, k) => (high - down[k]!) / (2 * step));
  }));
  return multiply(multiply(slopes, covariance), transpose(slopes));
}

/** A number worked out from others that do not depend on each other, with the error that theirs give it. */
export function workedOut(work: (values: readonly number[]) => number, from: readonly Measured[]): Measured {
  const values = from.map(({ value }) => value);
  const covariance = from.map(({ error }, i) => from.map((_, k) => (i === k ? error * error : 0)));
  return { value: work(values), error: Math.sqrt(carriedCovariance((v) => [work(v)], values, covariance)[0]![0]!) };
}

/** The error of a sum of numbers that do not depend on each other. */
export function errorOfSum(errors: readonly number[]): number {
  return Math.sqrt(dot(errors, errors));
}
