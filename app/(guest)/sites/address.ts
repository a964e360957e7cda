import type { Units } from "@/lib/measure";
import type { Nights } from "@/lib/stays";
import { withoutNights } from "../../components/rig-form/query";
import type { Filters } from "./filters";

/** What every address of the answer carries: the rig, the units, what is filtered, what is ticked to compare. */
export interface Standpoint {
  /** The rig as the address has it, and the dates asked about. */
  readonly query: string;
  readonly units: Units;
  readonly filters: Filters;
  readonly picked: readonly string[];
  /** Numbers the guest cannot measure now, by their field: they are not asked for again. */
  readonly skipped: readonly string[];
}

export const noFilters: Filters = { only: [], loop: null };

export function pairsOf({ query, units, filters: { only, loop }, picked, skipped }: Standpoint): [string, string][] {
  return [
    ...new URLSearchParams(query).entries(),
    ["units", units],
    ...only.map((name): [string, string] => ["only", name]),
    ...(loop === null ? [] : [["loop", loop] as [string, string]]),
    ...picked.map((id): [string, string] => ["site", id]),
    ...skipped.map((input): [string, string] => ["skip", input]),
  ];
}

export function addressOf(path: string, standpoint: Standpoint): string {
  return `${path}?${new URLSearchParams(pairsOf(standpoint)).toString()}`;
}

/** The same without the units, for the links that change them. */
export function queryWithoutUnits(standpoint: Standpoint): string {
  return new URLSearchParams(pairsOf(standpoint).filter(([name]) => name !== "units")).toString();
}

/** The same for other nights. */
export function withNights(standpoint: Standpoint, { arrive, depart }: Nights): Standpoint {
  const query = new URLSearchParams(withoutNights(standpoint.query));
  query.set("arrive", arrive);
  query.set("depart", depart);
  return { ...standpoint, query: query.toString() };
}

/** The same without dates. */
export function withoutWhen(standpoint: Standpoint): Standpoint {
  return { ...standpoint, query: withoutNights(standpoint.query) };
}

export function siteAddress(id: string, standpoint: Standpoint): string {
  return addressOf(`/sites/${encodeURIComponent(id)}`, standpoint);
}
