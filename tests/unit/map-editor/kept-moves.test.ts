import { describe, expect, it } from "vitest";
import { heldAgainst, keptMoves, movedSites, placesOf, reduceMap, startMap, type MapSite } from "@/app/manage/map/map-state";
import type { Place } from "@/lib/park/edit/place";

const at = (east: number): Place => ({ east, north: 5000, bearing: 90 });
const site = (id: string, place: Place | null, version = 1): MapSite => ({ id, label: id.toUpperCase(), loop: null, version, pad: [[0, 0], [9000, 0], [9000, 4000]], place });
const opened = [site("a1", at(1000)), site("a2", at(2000)), site("a3", at(3000)), site("a4", null), site("a5", at(5000))];

describe("moves that were not saved", () => {
  const kept = keptMoves(movedSites(opened, { ...placesOf(opened), a1: at(1111), a2: at(2222), a4: at(4444) }));

  it("are those of the sites that were moved, and of no other", () => {
    expect(kept).toEqual({ a1: { from: at(1000), to: at(1111) }, a2: { from: at(2000), to: at(2222) }, a4: { from: null, to: at(4444) } });
  });

  it("are made again where nobody else moved, and put nothing back that somebody else did", () => {
    // Somebody else moved the second and the third meanwhile, and changed something else of the first.
    const now = [site("a1", at(1000), 2), site("a2", at(2999), 2), site("a3", at(3999), 2), site("a4", null), site("a5", at(5000))];
    const { free, contested } = heldAgainst(now, kept);
    expect(free).toEqual({ a1: at(1111), a4: at(4444) });
    expect(contested).toEqual([{ ...now[1], mine: at(2222) }]);
    const taken = reduceMap(startMap({ sites: now, selected: null }), { do: "take up", places: free });
    expect(movedSites(now, taken.history.present).map(({ id, place, now: to }) => [id, place, to])).toEqual([["a1", at(1000), at(1111)], ["a4", null, at(4444)]]);
    expect(taken.history.present["a3"]).toEqual(at(3999));
  });

  it("are done where the site lies there already, for somebody to choose where it came onto the map or off it, and nothing where it is gone", () => {
    expect(heldAgainst([site("a1", at(1111)), site("a2", null), site("a4", at(4000))], kept)).toEqual({ free: {}, contested: [{ ...site("a2", null), mine: at(2222) }, { ...site("a4", at(4000)), mine: at(4444) }] });
  });
});
