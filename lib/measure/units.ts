/** A length in millimetres. Feet and inches exist only where a person types or reads. */
export type Mm = number & { readonly __unit: "mm" };
/** An angle in radians. Data carries degrees. */
export type Radians = number & { readonly __unit: "rad" };

const MM_PER_INCH = 25.4; // exact since 1959 (international inch)

export function mm(value: number): Mm {
  if (!Number.isFinite(value)) throw new RangeError(`a length must be a finite number of millimetres, got ${value}`);
  return value as Mm;
}

export function mmFromInches(inches: number): Mm {
  return mm(inches * MM_PER_INCH);
}

export function inchesFromMm(length: number): number {
  return length / MM_PER_INCH;
}

export function radiansFromDegrees(degrees: number): Radians {
  if (!Number.isFinite(degrees)) throw new RangeError(`an angle must be a finite number of degrees, got ${degrees}`);
  return ((degrees * Math.PI) / 180) as Radians;
}

export function degreesFromRadians(angle: number): number {
  return (angle * 180) / Math.PI;
}

/** Rise over run, from the per cent that data carries (100 x rise / run). */
export function gradientFromPercent(percent: number): number {
  return percent / 100;
}

/** The per cent slope of an incline of so many degrees from level. */
export function percentFromDegrees(degrees: number): number {
  return 100 * Math.tan(radiansFromDegrees(degrees));
}
