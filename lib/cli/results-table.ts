import type { Policy } from "@/lib/fit";
import type { Units } from "@/lib/measure";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { catalogueOf, placeInWords, type Answer, type WordedResult } from "@/lib/wording";

export interface TableInput {
  readonly answer: Answer;
  readonly sites: readonly Site[];
  readonly rig: Rig;
  readonly policy: Policy;
  readonly units: Units;
}

/** The ranked sites as a table for a person, then what to bring (+), the reasons (-), what to
 * measure (?) and what would turn a refusal (>), site by site. */
export function resultsTable({ answer, sites, rig, policy, units }: TableInput): string {
  if (answer.results.length === 0) return "No sites were given.";
  const byId = new Map(sites.map((site) => [site.id, site]));
  const { verdicts } = catalogueOf();
  const rows = answer.results.map((result, i) => {
    const site = byId.get(result.site)!;
    return { result, cells: [String(i + 1), site.label ?? site.id, verdicts[result.verdict].label, placeInWords(site, rig, result, policy.comfort, units)] };
  });
  const table = columns([["", "Site", "Verdict", "Why it stands here"], ...rows.map(({ cells }) => cells)]);
  const details = rows.map(({ result, cells }) => detailsOf(result, cells[1]!)).filter((text) => text !== "");
  return [table, ...details].join("\n\n");
}

function detailsOf(result: WordedResult, label: string): string {
  const lines = [...result.bring.map(({ text }) => `  + ${text}`), ...result.reasons.map(({ text }) => `  - ${text}`), ...result.asks.map(({ text }) => `  ? ${text}`), ...result.remedies.map(({ text }) => `  > ${text}`)];
  return lines.length === 0 ? "" : [label, ...lines].join("\n");
}

function columns(rows: readonly (readonly string[])[]): string {
  const widths = rows[0]!.map((_, c) => Math.max(...rows.map((row) => row[c]!.length)));
  return rows.map((row) => row.map((cell, c) => (c === 0 ? cell.padStart(widths[c]!) : c === row.length - 1 ? cell : cell.padEnd(widths[c]!))).join("  ").trimEnd()).join("\n");
}
