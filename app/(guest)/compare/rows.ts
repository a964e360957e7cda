import type { FitResult, Service } from "@/lib/fit/types";
import { factNames, factOf, ROOM_SETTLED, type FactContext, type FactName } from "../sites/facts";
import type { Entry } from "../sites/filters";

export interface CompareRow {
  readonly name: FactName;
  /** A cell a site, in the order asked: its lines. */
  readonly cells: readonly (readonly string[])[];
  readonly differs: boolean;
  /** Which cell is the best of its row, where one alone is; null where two are as good, or nothing makes one better. */
  readonly best: number | null;
}

/** Closer than this two lengths are the same to a guest: about half an inch, mm. */
const SAME = 13;

/** What is told of two or three sites side by side: pure data. */
export function compareRows(entries: readonly Entry[], context: FactContext): CompareRow[] {
  return factNames.map((name) => {
    const cells = entries.map((entry) => factOf(name, entry, context));
    return { name, cells, differs: new Set(cells.map((lines) => lines.join("\n"))).size > 1, best: bestOf(entries.map(({ result }) => costOf(name, result, context))) };
  });
}

/** Less is better; null where there is nothing to weigh. */
function costOf(name: FactName, result: FitResult, { policy: { comfort } }: FactContext): number | null {
  if (!result.pose) return null;
  switch (name) {
    // Beyond the comfort aimed for, nobody looked for more: such rooms are as good as each other.
    case "room": return result.room === null ? null : -(result.room >= comfort - ROOM_SETTLED ? comfort : result.room);
    case "power": case "water": case "sewer": return routeOf(name, result);
    case "leveling": return result.level.side + result.level.along;
    case "bring": return result.bring.length * 2 * SAME;
    default: return null;
  }
}

function routeOf(service: Service, { needs }: FitResult): number | null {
  const need = needs.find((it) => it.service === service);
  return need && need.ok !== "no" ? need.route : null;
}

/** The one that is clearly less than each other, of at least two that can be weighed. */
function bestOf(costs: readonly (number | null)[]): number | null {
  const weighed = costs.flatMap((cost, i) => (cost === null ? [] : [{ cost, i }])).sort((a, b) => a.cost - b.cost);
  const [first, second] = weighed;
  return first && second && second.cost - first.cost > SAME ? first.i : null;
}
