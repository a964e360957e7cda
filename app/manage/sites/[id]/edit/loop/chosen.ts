import { applyTo, copyable, type Copyable } from "@/lib/park/edit/copy";
import { faultsOf } from "@/lib/park/edit/faults";
import type { Draft } from "@/lib/park/edit/record";
import type { SiteAt } from "@/lib/store/site-changes";
import type { Params } from "../../../../../components/rig-form/params";

/** What the address asks for: which things, to which sites, and whether they are to be looked at. */
export interface Chosen {
  readonly parts: readonly Copyable[];
  readonly to: readonly string[];
  readonly looked: boolean;
}

/** One site with what it would get. */
export interface Given {
  readonly siteId: string;
  readonly label: string;
  readonly version: number;
  readonly before: Draft;
  readonly after: Draft;
  /** Of what is given, what differs there. */
  readonly changes: readonly Copyable[];
  readonly faults: number;
}

/** Reads the address; names of nothing are passed over. */
export function readChosen(params: Params, siteIds: ReadonlySet<string>): Chosen {
  const all = (name: string) => [params[name] ?? []].flat();
  const parts = new Set(all("part"));
  return { parts: copyable.filter((part) => parts.has(part)), to: [...new Set(all("to"))].filter((id) => siteIds.has(id)), looked: params.look !== undefined };
}

/** Every chosen site as it would be. */
export function giveTo(source: Draft, sites: ReadonlyMap<string, SiteAt>, { parts, to }: Pick<Chosen, "parts" | "to">): Given[] {
  return to.flatMap((siteId) => {
    const site = sites.get(siteId);
    if (!site) return [];
    const after = applyTo(site.record, source, parts);
    const changes = parts.filter((part) => differs(site.record, applyTo(site.record, source, [part])));
    return [{ siteId, label: site.record.label ?? siteId, version: site.version, before: site.record, after, changes, faults: faultsOf(after).length }];
  });
}

/** Records are plain data, and what is not given keeps its place: the same if they read the same, in whatever order their fields come. */
function differs(a: Draft, b: Draft): boolean {
  return sorted(a) !== sorted(b);
}

function sorted(value: unknown): string {
  return JSON.stringify(value, (_, held: unknown) =>
    typeof held === "object" && held !== null && !Array.isArray(held) ? Object.fromEntries(Object.entries(held).filter(([, one]) => one !== null).sort(([p], [q]) => (p < q ? -1 : 1))) : held);
}
