import { overlaps, type Nights } from "@/lib/stays";

/** Where a stay is, or is to be. */
interface Place {
  /** Null: on no site, in nobody's way. */
  readonly site: string | null;
  readonly nights: Nights;
}

/** A stay that changes its place. */
export interface Move {
  readonly id: string;
  /** Its guest is here: it is never without a site. */
  readonly arrived: boolean;
  readonly from: Place;
  readonly to: Place;
}

/** What is done before all others are put where they are to be, at once. */
export interface MoveOrder {
  /** Stays that another's new place needs out of the way. */
  readonly offFirst: readonly string[];
  /** Stays whose guests are here, one after the other, each into a place that is free by then. */
  readonly arrivedFirst: readonly string[];
}

/**
 * The order in which stays that change places can do so, as no two have a night at any moment. Null where guests who are here would have to change
 * places with each other: nobody can stand on no site meanwhile. The places they are to have do not meet.
 */
export function inMoveOrder(moves: readonly Move[]): MoveOrder | null {
  const changing = moves.filter(({ from, to }) => from.site !== to.site || from.nights.arrive !== to.nights.arrive || from.nights.depart !== to.nights.depart);
  const arrivals = bySite(changing, ({ to }) => to);
  const inTheWayOf = (move: Move) => (move.from.site === null ? [] : meeting(arrivals.get(move.from.site) ?? [], move.from.nights)).filter((other) => other !== move);
  const offFirst = changing.filter((move) => !move.arrived && inTheWayOf(move).length > 0).map(({ id }) => id);
  let waiting = changing.filter(({ arrived }) => arrived);
  const arrivedFirst: string[] = [];
  while (waiting.length > 0) {
    const barred = new Set(waiting.flatMap(inTheWayOf)), free = waiting.filter((move) => !barred.has(move));
    if (free.length === 0) return null;
    arrivedFirst.push(...free.map(({ id }) => id));
    waiting = waiting.filter((move) => barred.has(move));
  }
  return { offFirst, arrivedFirst };
}

function bySite(moves: readonly Move[], placeOf: (move: Move) => Place): Map<string, Move[]> {
  const sites = new Map<string, Move[]>();
  for (const move of [...moves].sort((a, b) => (placeOf(a).nights.arrive < placeOf(b).nights.arrive ? -1 : 1))) {
    const { site } = placeOf(move), known = site === null ? undefined : sites.get(site);
    if (known) known.push(move);
    else if (site !== null) sites.set(site, [move]);
  }
  return sites;
}

/** Those of some places, in order and never meeting, that meet some nights. Found by halving: a site's year is not gone through for each. */
function meeting(places: readonly Move[], nights: Nights): Move[] {
  let [low, high] = [0, places.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (places[middle]!.to.nights.depart <= nights.arrive) low = middle + 1;
    else high = middle;
  }
  const found: Move[] = [];
  for (let i = low; i < places.length && overlaps(places[i]!.to.nights, nights); i++) found.push(places[i]!);
  return found;
}
