import { byMostTurnedAway, tallyRigs, tallySites, type FitCell, type FitMatrix, type Tally } from "@/lib/insight";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import { bringSentence, catalogueOf, sentence, unbroken } from "@/lib/wording";
import type { Units } from "@/lib/measure";
import type { Choice } from "./choice";
import type { Column } from "./columns";
import type { GridCell, GridColumn, GridProps, GridRow } from "./fits-grid";

/** The matrix as the table shows it: in the order asked for, with the words of every cell. */
export function makeGrid(matrix: FitMatrix, columns: readonly Column[], choice: Choice): Omit<GridProps, "gridKey"> {
  const { insight } = catalogueOf();
  const ofSites = tallySites(matrix), ofRigs = tallyRigs(matrix);
  const rows = choice.sites === "turned-away" ? byMostTurnedAway(ofSites) : ofSites.map((_, i) => i);
  const across = choice.across === "turned-away" ? byMostTurnedAway(ofRigs) : ofRigs.map((_, i) => i);
  const texts = new TextList();
  return {
    columns: across.map((r): GridColumn => ({ name: unbroken(columns[r]!.name), query: columns[r]!.query, href: columns[r]!.href, ...totalOf(ofRigs[r]!, insight.grid.rigTakes) })),
    rows: rows.map((s): GridRow => ({
      id: matrix.sites[s]!.id,
      label: matrix.sites[s]!.label ?? matrix.sites[s]!.id,
      ...totalOf(ofSites[s]!, insight.grid.siteTakes),
      cells: across.map((r) => gridCell(matrix.cells[s]![r]!, matrix.sites[s]!, matrix.rigs[r]!, choice.units, texts)),
    })),
    texts: texts.all,
    units: choice.units,
    words: { ...pick(insight.grid), caption: insight.grid.caption(rows.length, across.length), verdicts: insight.words, tight: insight.tightWord },
  };
}

function pick({ site, takes, hint, region, help }: ReturnType<typeof catalogueOf>["insight"]["grid"]) {
  return { site, takes, hint, region, help };
}

function totalOf({ verdicts, all }: Tally, inFull: (taken: number, all: number) => string): { taken: number; ofAll: string; totalInFull: string } {
  const taken = verdicts.fits + verdicts.gear;
  return { taken, ofAll: catalogueOf().insight.grid.ofAll(all), totalInFull: inFull(taken, all) };
}

function gridCell(cell: FitCell, site: Site, rig: Rig, units: Units, texts: TextList): GridCell {
  return [cell.verdict, cell.tight && cell.verdict === "fits", texts.indexOf(unbroken(cellText(cell, site, rig, units)))];
}

/** Why the cell says what it says, in a sentence. */
export function cellText(cell: FitCell, site: Site, rig: Rig, units: Units): string {
  const { grid } = catalogueOf().insight;
  if (cell.verdict === "fits" && (cell.tight || !cell.reason)) return cell.reason && cell.tight ? sentence(cell.reason, site, rig, units, cell) : grid.fitsWithRoom;
  if (cell.verdict === "gear" && cell.bring.length > 0 && !cell.reason) return cell.bring.map((code) => bringSentence({ code, amount: null, what: null }, rig, units)).join(" ");
  return cell.reason ? sentence(cell.reason, site, rig, units, cell) : catalogueOf().verdicts[cell.verdict].line;
}

/** Many cells say the same: each text is sent once. */
class TextList {
  readonly all: string[] = [];
  private readonly known = new Map<string, number>();

  indexOf(text: string): number {
    const known = this.known.get(text);
    if (known !== undefined) return known;
    this.known.set(text, this.all.length);
    return this.all.push(text) - 1;
  }
}
