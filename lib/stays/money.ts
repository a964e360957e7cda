/** Money is a whole number of the currency's smallest unit (cents of a dollar), never a fraction. */

/** A whole number of minor units. */
export type Minor = number;
/** Hundredths of a per cent: 825 is 8.25 %. */
export type BasisPoints = number;

/** No single price is larger: a million of most currencies. */
export const mostMinor = 100_000_000;
export const wholeInBasisPoints = 10_000;

/**
 * `amount` x `rate`, to the nearest minor unit, half away from zero: 0.5 to 1 and -0.5 to -1. So a line and the same
 * line given back cancel out, and the result is the one a person with a pocket calculator gets.
 */
export function share(amount: Minor, rate: BasisPoints): Minor {
  // A large sum times a rate goes beyond what a number holds exactly.
  const product = BigInt(amount) * BigInt(rate);
  const whole = BigInt(wholeInBasisPoints);
  const size = ((product < 0n ? -product : product) * 2n + whole) / (2n * whole);
  return Number(product < 0n ? -size : size);
}

export function sum(amounts: readonly Minor[]): Minor {
  return amounts.reduce((total, amount) => total + amount, 0);
}
