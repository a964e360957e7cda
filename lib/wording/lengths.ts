import type { Units } from "@/lib/measure";

/**
 * Which way a length gives way when it is rounded for reading. What a guest lacks or has to bring goes `up`, what a
 * guest has to spare goes `down`, so that no printed number promises more than is there. `nearest` is for what was
 * measured and decides nothing.
 */
export type Rounding = "up" | "down" | "nearest";

const MM_PER_HALF_INCH = 12.7;
const MM_PER_CM = 10;

/**
 * Steps of half an inch or a centimetre closer to a whole number than this are that number: 24 ft 6 in comes out of
 * arithmetic as 588.0000000001 half inches and must not print as 24 ft 6 1/2 in. 0.0005 of a step is 6 micrometres.
 */
const STEP_NOISE = 5e-4;

/** "2 ft 7 1/2 in", "9 in", "1/2 in", "0 in"; "14 cm", "2.35 m". A minus sign leads what is below zero. */
export function formatLength(mm: number, units: Units, rounding: Rounding): string {
  return units === "metric" ? metric(mm, rounding) : feetAndInches(mm, rounding, { feet: " ft", inches: " in", between: " " });
}

/** The same number as it is written beside a dimension line, as short as can be: 2′7½″. */
export function formatOnDrawing(mm: number, units: Units, rounding: Rounding): string {
  return units === "metric" ? metric(mm, rounding) : feetAndInches(mm, rounding, { feet: "′", inches: "″", between: "" }).replace(/ ?1\/2/, "½");
}

/** How many whole steps `value` makes, rounded the named way. */
export function stepsOf(value: number, step: number, rounding: Rounding): number {
  if (!Number.isFinite(value)) throw new RangeError(`a length must be a finite number of millimetres, got ${value}`);
  const exact = value / step;
  const near = Math.round(exact);
  const steps = rounding === "nearest" || Math.abs(exact - near) < STEP_NOISE ? near : rounding === "up" ? Math.ceil(exact) : Math.floor(exact);
  return steps === 0 ? 0 : steps; // no minus zero
}

function metric(mm: number, rounding: Rounding): string {
  const cm = stepsOf(mm, MM_PER_CM, rounding);
  const size = Math.abs(cm);
  const text = size < 100 ? `${size} cm` : `${(size / 100).toFixed(2)} m`;
  return cm < 0 ? `−${text}` : text;
}

interface Marks {
  readonly feet: string;
  readonly inches: string;
  readonly between: string;
}

function feetAndInches(mm: number, rounding: Rounding, marks: Marks): string {
  const halves = stepsOf(mm, MM_PER_HALF_INCH, rounding);
  const size = Math.abs(halves);
  const feet = Math.floor(size / 24);
  const inches = inchText(size % 24);
  const parts = feet === 0 ? [`${inches ?? "0"}${marks.inches}`] : [`${feet}${marks.feet}`, ...(inches ? [`${inches}${marks.inches}`] : [])];
  return `${halves < 0 ? "−" : ""}${parts.join(marks.between)}`;
}

function inchText(halves: number): string | null {
  const whole = Math.floor(halves / 2);
  if (halves % 2 === 0) return whole === 0 ? null : String(whole);
  return whole === 0 ? "1/2" : `${whole} 1/2`;
}

const KPA_PER_PSI = 6.894757;

/** Pressure beyond a limit rounds up; what a hookup was measured at rounds to the nearest. */
export function formatPressure(kPa: number, units: Units, rounding: Rounding): string {
  return units === "metric" ? `${stepsOf(kPa, 1, rounding)} kPa` : `${stepsOf(kPa, KPA_PER_PSI, rounding)} psi`;
}

/** The same text with its numbers held to their units and fractions, so that no line ends between 9 ft and 3 1/2 in. */
export function unbroken(text: string): string {
  return text.replace(/(\d) (?=(?:ft|in|cm|m|A|VA|psi|kPa|%)(?![a-z]))/g, "$1\u00a0").replace(/(\d|ft) (?=(?:\d+ )?(?:1\/2|\d+)\u00a0in\b)/g, "$1\u00a0").replace(/(\d) (?=1\/2\b)/g, "$1\u00a0");
}
