import type { ReactNode } from "react";
import type { Reel } from "./reel";

/** One way as the server hands it out: what moves as numbers, what stands still drawn already. */
export interface PlayedWay {
  readonly from: "left" | "right";
  readonly title: string;
  /** The page that shows this way first, for where no script runs; nothing where there is none. */
  readonly href?: string;
  readonly width: number;
  readonly height: number;
  readonly reel: Reel;
  readonly patterns: ReactNode;
  readonly ground: ReactNode;
  readonly overhead: ReactNode;
  readonly texts: ReactNode;
  readonly legend: ReactNode;
  readonly stills: ReactNode;
  readonly told?: ReactNode;
}
