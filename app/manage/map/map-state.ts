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
    case "take up": return { ...state, history: edit(history, action.places) };
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
    return now && (!site.place || now.east !== site.place.east || now.north !== site.place.north || now.bearing !== site.place.bearing) ? [{ ...site, now }] : [];
  });
}
