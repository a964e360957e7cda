import type { Point } from "@/lib/plane";
import type { Site, SiteInput } from "@/lib/park";
import { placesOf } from "./chain";
import { soundSite, withField } from "./record";
import { note, type SurveyNote } from "./types";

/** A record in which what was measured from things that moved has moved along. */
export interface Followed {
  readonly record: SiteInput;
  readonly warnings: readonly SurveyNote[];
}

/** Places are kept in whole millimetres: one that is off by no more than that is still where its readings put it. */
const ROUNDED = 1;

/**
 * What was measured by tape, or along and across, from something that differs between the two records is set anew by its own readings, and so is what was
 * measured from that. A thing that somebody put elsewhere after it was measured stays, and so does one whose readings no longer come
 * together, which is told. Nothing follows where the record would not be sound.
 */
export function followMoved(before: SiteInput, after: SiteInput): Followed {
  const from = soundSite(before), to = soundSite(after), unchanged: Followed = { record: after, warnings: [] };
  if (!from || !to) return unchanged;
  const followers = [...placesOf(from).worked].filter(([path, worked]) => worked.ok && apart(worked.value.at, placeOf(from, path)!) <= ROUNDED).map(([path]) => path);
  let record = after, site = to;
  // Each turn moves what hangs on what the one before moved: there are no more turns than things.
  for (let turn = 0; turn < followers.length; turn++) {
    const next = moveOnce(record, site, followers), sound = next === record ? null : soundSite(next);
    if (next === record) break;
    if (!sound) return unchanged;
    [record, site] = [next, sound];
  }
  return { record, warnings: tell(to, site, followers) };
}

function moveOnce(record: SiteInput, site: Site, followers: readonly string[]): SiteInput {
  const { worked } = placesOf(site);
  return followers.reduce((next, path) => {
    const placed = worked.get(path), at = placeOf(site, path);
    return placed?.ok && at && apart(placed.value.at, at) > ROUNDED ? withField(next, path, [Math.round(placed.value.at[0]), Math.round(placed.value.at[1])]) : next;
  }, record);
}

function tell(to: Site, site: Site, followers: readonly string[]): SurveyNote[] {
  const moves = followers.flatMap((path) => {
    const was = placeOf(to, path), by = was ? apart(was, placeOf(site, path)!) : 0;
    return by > 0 ? [{ path, by }] : [];
  });
  const left = followers.filter((path) => placesOf(site).worked.get(path)?.ok === false);
  return [
    ...(moves.length > 0 ? [note("chain:moved", moves.map(({ path }) => path), Math.max(...moves.map(({ by }) => by)))] : []),
    ...(left.length > 0 ? [note("chain:left", left)] : []),
  ];
}

function placeOf(site: Site, path: string): Point | undefined {
  return placesOf(site).known.get(path)?.at;
}

function apart(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
