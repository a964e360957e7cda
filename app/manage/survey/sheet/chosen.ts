import type { Units } from "@/lib/measure";
import { one, type Params } from "../../../components/rig-form/params";
import { unitsOf } from "../../../components/rig-form/read";
import type { StaffContext } from "../../context";
import { blankSheet, sheetOf, type SheetSite } from "./sheet-site";

export const papers = ["letter", "a4"] as const;
export type Paper = (typeof papers)[number];

export interface Chosen {
  /** As the address has it: nothing, `loop:<id>` or `site:<id>`. */
  readonly of: string;
  /** Asked for, and not there. */
  readonly unknown: boolean;
  readonly sheets: readonly SheetSite[];
  readonly paper: Paper;
  readonly units: Units;
}

export const ofLoop = (id: string): string => `loop:${id}`;
export const ofSite = (id: string): string => `site:${id}`;

/** What the address asks to have printed; a blank sheet where it asks for nothing that is there. */
export function readChosen(params: Params, { park, surveyed }: StaffContext): Chosen {
  const of = one(params["of"]) ?? "", units = unitsOf(params, park.units);
  const paper = papers.find((name) => name === one(params["paper"])) ?? (units === "metric" ? "a4" : "letter");
  const chosen = surveyed.filter(({ site }) => of === ofSite(site.id) || of === ofLoop(site.loop ?? "")).map(({ site }) => sheetOf(site));
  const unknown = of !== "" && chosen.length === 0;
  return { of: unknown ? "" : of, unknown, sheets: chosen.length > 0 ? chosen : [blankSheet], paper, units };
}
