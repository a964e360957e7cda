import { edit, redo, settle, startHistory, undo, type History } from "@/lib/park/edit/history";
import type { Place } from "@/lib/park/edit/place";
import type { Point } from "@/lib/plane";

/** A site as the map's editor starts with it. */
export interface MapSite {
  readonly id: string;
  readonly label: string;
  readonly loop: string | null;
  readonly version: number;
  readonly pad: readonly Point[];
  readonly place: Place | null;
}

/** Every site's place by its id; one that is on the map nowhere is left out. */
export type Places = Readonly<Record<string, Place>>;

export interface MapState {
  readonly history: History<Places>;
  readonly selected: string | null;
}

export type MapAction =
  | { readonly do: "place"; readonly id: string; readonly place: Place; readonly mark?: string }
  | { readonly do: "take up"; readonly places: Places }
  | { readonly do: "select"; readonly id: string | null }
  | { readonly do: "undo" | "redo" | "settle" };

export function startMap({ sites, selected }: { readonly sites: readonly MapSite[]; readonly selected: string | null }): MapState {
  return { history: startHistory(placesOf(sites)), selected };
}

export function reduceMap(state: MapState, action: MapAction): MapState {
  const { history } = state;
  switch (action.do) {
    case "place": return { history: edit(history, { ...history.present, [action.id]: action.place }, action.mark ?? null), selected: action.id };
    case "take up": return { ...state, history: edit(history, { ...history.present, ...action.places }) };
    case "select": return { history: settle(history), selected: action.id };
    case "undo": return { ...state, history: undo(history) };
    case "redo": return { ...state, history: redo(history) };
    case "settle": return { ...state, history: settle(history) };
  }
}

export function placesOf(sites: readonly MapSite[]): Places {
  return Object.fromEntries(sites.flatMap(({ id, place }) => (place ? [[id, place]] : [])));
}

/** The sites whose place is another than it was. */
export function movedSites(sites: readonly MapSite[], places: Places): (MapSite & { readonly now: Place })[] {
  return sites.flatMap((site) => {
    const now = places[site.id];
    return now && !samePlace(site.place, now) ? [{ ...site, now }] : [];
  });
}

/** A move that is not saved: from the place that the site had when it was made, null where it was on the map nowhere. */
export interface KeptMove {
  readonly from: Place | null;
  readonly to: Place;
}

export type KeptMoves = Readonly<Record<string, KeptMove>>;

/** Only what was moved: of all other sites nothing is kept that could be laid over what others make of them. */
export function keptMoves(moved: ReturnType<typeof movedSites>): KeptMoves {
  return Object.fromEntries(moved.map(({ id, place, now }) => [id, { from: place, to: now }]));
}

/** A site that was moved here, and by somebody else meanwhile: its place is theirs. */
export type ContestedMove = MapSite & { readonly mine: Place };

/**
 * Kept moves held against the sites as they are now. One whose site still lies where it was moved from can be made again; of one whose site lies
 * elsewhere by now it is for a person to choose. One that says where the site lies already is done, and one of a site that is gone says nothing.
 */
export function heldAgainst(sites: readonly MapSite[], kept: KeptMoves): { readonly free: Places; readonly contested: readonly ContestedMove[] } {
  const open = sites.flatMap((site) => { const move = kept[site.id]; return move && !samePlace(site.place, move.to) ? [{ ...site, ...move }] : []; });
  const isFree = ({ place, from }: (typeof open)[number]) => (place === null ? from === null : samePlace(from, place));
  return {
    free: Object.fromEntries(open.filter(isFree).map(({ id, to }) => [id, to])),
    contested: open.filter((one) => !isFree(one)).map(({ from: _from, to, ...site }) => ({ ...site, mine: to })),
  };
}

function samePlace(a: Place | null, b: Place): boolean {
  return a !== null && a.east === b.east && a.north === b.north && a.bearing === b.bearing;
}
