import { typicalColumns } from "@/lib/insight";
import type { Units } from "@/lib/measure";
import type { Rig } from "@/lib/rig";
import type { KeptRig } from "@/lib/store/rigs";
import { catalogueOf, formatLength } from "@/lib/wording";
import type { Choice } from "./choice";

/** A rig as a column: what it is called, how the guest's page is asked for it, and where its own page is. */
export interface Column {
  readonly rig: Rig;
  readonly name: string;
  /** Such as `rig=demo-tt-31` or `kind=travel-trailer&length=31+ft`. */
  readonly query: string;
  readonly href: string;
}

export function columnsFor({ rigs, units }: Pick<Choice, "rigs" | "units">, kept: readonly KeptRig[]): Column[] {
  if (rigs === "park") return kept.map((rig) => keptColumn(rig, units));
  return typicalColumns(rigs === "all" ? undefined : [rigs]).map(({ kind, length, rig }) => {
    const query = new URLSearchParams({ kind, length: `${Math.round(length / FOOT)} ft` }).toString();
    const name = `${catalogueOf().things.rigKinds[kind]}, ${units === "metric" ? formatLength(length, units, "nearest") : `${Math.round(length / FOOT)} ft`}`;
    return { rig, name, query, href: `/sites?${query}&units=${units}` };
  });
}

export function keptColumn({ id, name, rig }: KeptRig, units: Units): Column {
  return { rig, name, query: new URLSearchParams({ rig: id }).toString(), href: `/manage/fits/${encodeURIComponent(id)}?units=${units}` };
}

const FOOT = 304.8;
