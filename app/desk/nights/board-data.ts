import { addDays, countNights, dayNumber, layInLanes, type IsoDate, type Nights, type StayState } from "@/lib/stays";
import type { Board, BoardStay } from "@/lib/store/stays-board";

/** One row of the ledger: a loop's heading, a lane of stays without a site, or a site. */
export type Row =
  | { readonly kind: "loop"; readonly id: string; readonly name: string | null }
  | { readonly kind: "lane" }
  | { readonly kind: "site"; readonly id: string; readonly label: string; /** Hookups in short: "50 W S". */ readonly hookups: string };

/** A stay or closure as the ledger draws it; columns are nights from the first shown, and may lie outside. */
export interface Bar {
  readonly id: string;
  readonly kind: "stay" | "closure";
  readonly row: number;
  readonly from: number;
  readonly to: number;
  readonly state: StayState | "closed";
  readonly text: string;
  readonly rig: string;
  readonly reference: string;
  readonly chosen: boolean;
  readonly overridden: boolean;
  readonly together: boolean;
  readonly version: number;
  /** When a hold runs out, milliseconds. */
  readonly until: number | null;
}

export interface BoardData {
  readonly first: IsoDate;
  readonly nights: number;
  /** Which column is today; outside the columns where today is not shown. */
  readonly today: number;
  readonly rows: readonly Row[];
  readonly bars: readonly Bar[];
  /** The database's clock when it was read. */
  readonly at: number;
}

interface SiteLine {
  readonly id: string;
  readonly label: string;
  readonly loop: string | undefined;
  readonly hookups: string;
}

/** Lays a board out in rows: lanes for what has no site, then the sites by loop. Text in a person's words is handed in. */
export function layOut(board: Board, sites: readonly SiteLine[], loopNames: ReadonlyMap<string, string>, today: IsoDate, words: { readonly nameless: string; readonly rig: (stay: BoardStay) => string }): BoardData {
  const first = board.window.arrive;
  const column = (date: string) => dayNumber(date as IsoDate) - dayNumber(first);
  const homeless = board.stays.filter(({ site }) => site === null);
  const lanes = layInLanes(homeless.map(({ nights }) => nights));
  const rows: Row[] = Array.from({ length: Math.max(0, ...lanes.map((lane) => lane + 1)) }, () => ({ kind: "lane" }));
  const rowOf = new Map<string, number>();
  let loop: string | undefined | null = null;
  for (const site of sites) {
    if (site.loop !== loop && site.loop !== undefined) rows.push({ kind: "loop", id: site.loop, name: loopNames.get(site.loop) ?? null });
    loop = site.loop;
    rowOf.set(site.id, rows.length);
    rows.push({ kind: "site", id: site.id, label: site.label, hookups: site.hookups });
  }
  const laneOf = new Map(homeless.map(({ id }, i) => [id, lanes[i]!]));
  const stays = board.stays.flatMap((stay): Bar[] => {
    const row = stay.site === null ? laneOf.get(stay.id) : rowOf.get(stay.site);
    if (row === undefined) return [];
    return [{
      id: stay.id, kind: "stay", row, from: column(stay.nights.arrive), to: column(stay.freedFrom ?? stay.nights.depart), state: stay.state, text: stay.guest ?? words.nameless, rig: words.rig(stay),
      reference: stay.reference, chosen: stay.siteChosen, overridden: stay.overridden, together: stay.together !== null, version: stay.version, until: stay.until,
    }];
  });
  const closures = board.closures.flatMap(({ id, site, nights, reason }): Bar[] => {
    const row = rowOf.get(site);
    return row === undefined ? [] : [{ id, kind: "closure", row, from: column(nights.arrive), to: column(nights.depart), state: "closed", text: reason, rig: "", reference: "", chosen: false, overridden: false, together: false, version: 0, until: null }];
  });
  return { first, nights: countNights(board.window), today: column(today), rows, bars: [...stays, ...closures], at: board.at };
}

/** Who stands in the way on `row` from column `from` up to `to`; what has run out by `now` does not. */
export function inTheWay(bars: readonly Bar[], row: number, from: number, to: number, own: string, now: number): Bar | null {
  return bars.find((bar) => bar.row === row && bar.id !== own && bar.from < to && from < bar.to && (bar.until === null || bar.until > now)) ?? null;
}

export function dateAt(data: Pick<BoardData, "first">, column: number): IsoDate {
  return addDays(data.first, column);
}

export function nightsAt(data: Pick<BoardData, "first">, from: number, to: number): Nights {
  return { arrive: dateAt(data, from), depart: dateAt(data, to) };
}
