import { unitSystems, type Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import { typicalKinds, type RigKind } from "@/lib/rig/typical";
import { one, type Params } from "../../components/rig-form/params";

/** What the address says of the matrix: which rigs and sites, in which orders, in which units. */
export interface Choice {
  /** The rigs that the park keeps, all typical ones, or those of one kind. */
  readonly rigs: "park" | "all" | RigKind;
  readonly sites: Order;
  readonly across: Order;
  /** Null: every loop. */
  readonly loop: string | null;
  readonly units: Units;
}

export type Order = "listed" | "turned-away";
export const orders: readonly Order[] = ["listed", "turned-away"];
export const rigChoices: readonly Choice["rigs"][] = ["park", "all", ...typicalKinds];

/** More cells than this make a page that is slow to open; then one loop is shown at a time unless another choice is made. */
const MOST_CELLS = 12_000;
/** In the address for every loop, where a single one would be shown by itself. */
export const EVERY_LOOP = "*";

/** What the address does not say, or says so that it cannot be read, is as usual. */
export function readChoice(params: Params, { sites, keptRigs, parkUnits }: { readonly sites: readonly Site[]; readonly keptRigs: number; readonly parkUnits: Units }): Choice {
  const rigs = rigChoices.find((choice) => choice === one(params.rigs)) ?? (keptRigs > 0 ? "park" : "all");
  const order = (name: "sites" | "across") => orders.find((o) => o === one(params[name])) ?? "listed";
  const loops = loopsIn(sites), asked = one(params.loop);
  const usual = sites.length * (rigs === "park" ? keptRigs : rigs === "all" ? TYPICAL : TYPICAL / typicalKinds.length) > MOST_CELLS ? (loops[0] ?? null) : null;
  return {
    rigs, sites: order("sites"), across: order("across"),
    loop: asked === EVERY_LOOP ? null : (loops.find((loop) => loop === asked) ?? usual),
    units: unitSystems.find((u) => u === one(params.units)) ?? parkUnits,
  };
}

/** The address of the page (or another path of it) with that choice. */
export function addressOf({ rigs, sites, across, loop, units }: Choice, path = "/manage/fits"): string {
  const query = new URLSearchParams({ rigs, sites, across, loop: loop ?? EVERY_LOOP, units });
  return `${path}?${query.toString()}`;
}

/** Loops by their ids, in the order of the sites. */
export function loopsIn(sites: readonly Site[]): string[] {
  return [...new Set(sites.flatMap(({ loop }) => (loop ? [loop] : [])))];
}

/** Typical rigs there are, about: for telling whether a matrix is large. */
const TYPICAL = 40;
