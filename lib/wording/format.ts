import type { Units } from "@/lib/measure";
import { formatLength, formatOnDrawing, formatPressure } from "./lengths";

/** Numbers as a sentence wants them, in the reader's units. Named by what they are, so that none is rounded the wrong way. */
export interface Numbers {
  readonly units: Units;
  /** What is lacking or has to be brought: rounded up. */
  readonly lacking: (mm: number) => string;
  /** The same, with the other system in brackets: for whoever talks it over with somebody who measures the other way. */
  readonly lackingInBoth: (mm: number) => string;
  /** What there is to spare: rounded down. */
  readonly spare: (mm: number) => string;
  /** What was measured and decides nothing here: to the nearest. */
  readonly measured: (mm: number) => string;
  /** How high something reaches, beside its mark: rounded up. */
  readonly tallOnDrawing: (mm: number) => string;
  readonly spareOnDrawing: (mm: number) => string;
  readonly pressureOver: (kPa: number) => string;
  readonly pressure: (kPa: number) => string;
  /** Volt-amperes beyond the supply: rounded up to ten. */
  readonly powerOver: (va: number) => string;
}

export function numbersIn(units: Units, thousands: string): Numbers {
  const grouped = (value: number) => String(value).replace(/\B(?=(\d{3})+$)/g, thousands);
  return {
    units,
    lacking: (mm) => formatLength(mm, units, "up"),
    lackingInBoth: (mm) => `${formatLength(mm, units, "up")} (${formatLength(mm, units === "metric" ? "ft-in" : "metric", "up")})`,
    spare: (mm) => formatLength(mm, units, "down"),
    measured: (mm) => formatLength(mm, units, "nearest"),
    tallOnDrawing: (mm) => formatOnDrawing(mm, units, "up"),
    spareOnDrawing: (mm) => formatOnDrawing(mm, units, "down"),
    pressureOver: (kPa) => formatPressure(kPa, units, "up"),
    pressure: (kPa) => formatPressure(kPa, units, "nearest"),
    powerOver: (va) => `${grouped(Math.ceil(va / 10) * 10)} VA`,
  };
}
