import { findAccess, type Access, type Barred, type Way } from "@/lib/access";
import { elsewhere, type Elsewhere } from "./answer";
import { applyChange, type Case } from "./refusal/changes";
import { enoughUnder } from "./refusal/remedies";
import type { AccessResult, Change, FitResult, Pose, Reason, Remedy } from "./types";

/** Poses beside the roomiest that are tried where no way leads to it, mm along and across: further out, further in, to either side. */
const SHIFTS: readonly (readonly [along: number, across: number])[] = [[-600, 0], [-1200, 0], [-2400, 0], [600, 0], [0, 300], [0, -300], [-1200, 300], [-1200, -300]];
/** So many of them at most: each costs as much as the first. */
const MOST_POSES = 6;
/** A way that is short of more room than this out at the mouth is not mended by standing a step further on, mm. */
const NEARLY = 300;
/** How much of a score a way that is tight and on the blind side takes off. */
const WAY_SHARE = 0.1, ROOM_OF_IT = 0.7;

/**
 * The answer with the way in. Where none leads to the roomiest pose, other poses with the same verdict and parts out are tried, and the answer
 * then stands at the one that is reached: better stood than roomy. Where none is found the verdict stays, as that proves nothing, and
 * staff is to look; where none can lead to any place on the pad the verdict is `no`. Unchanged where nobody has measured the way in.
 */
export function withAccess(it: Case, result: FitResult, { remedies = false }: { readonly remedies?: boolean } = {}): FitResult {
  const { site, rig, policy } = it, { pose, verdict } = result;
  if (pose === null || !site.approach) return result;
  const first = findAccess(site, rig, [pose], policy)!;
  if (first.way) return reached(result, first, first.way, it, 0);
  if (first.barred?.scope === "pad") return barred(it, result, first.barred, remedies);
  const other = verdict === "ask" ? null : throughAnother(it, result, pose, isMendable(first.nearest, it));
  return other ?? { ...result, access: NOT_FOUND, score: result.score * (1 - WAY_SHARE), reasons: [{ code: "access:not-found", parts: [], short: null }, ...result.reasons] };
}

const NOT_FOUND: AccessResult = { state: "not-found", from: null, sight: null, room: null };

/** Whether standing elsewhere nearby may help: little is missing, or it is missing where the rig comes to stand. */
function isMendable(nearest: Way | null, { rig }: Case): boolean {
  if (!nearest) return false;
  const { room, tightest: { leg, along }, legs } = nearest;
  return room >= -NEARLY || along > legs[leg]!.drive.reached - rig.body.length;
}

/** The roomiest pose that a way leads to: of the other heading's, and where it was nearly found of those near by. */
function throughAnother(it: Case, result: FitResult, pose: Pose, nearly: boolean): FitResult | null {
  const { at, roomiest } = elsewhere(it, result), least = Math.min(it.policy.tight, result.room ?? 0);
  const poses = nearby(roomiest, pose, at, least, nearly ? SHIFTS : []);
  const access = poses.length === 0 ? null : findAccess(it.site, it.rig, poses, it.policy);
  if (!access?.way) return null;
  const there = at(access.way.pose, least);
  return there && reached(there, access, access.way, it, Math.hypot(access.way.pose.x - pose.x, access.way.pose.y - pose.y));
}

function nearby(roomiest: readonly Pose[], tried: Pose, at: Elsewhere, least: number, shifts: typeof SHIFTS): Pose[] {
  const poses: Pose[] = roomiest.filter((pose) => pose !== tried && at(pose, least));
  for (const [along, across] of shifts) for (const { x, y, heading } of roomiest) {
    const pose = { x: x + along, y: y + across, heading };
    if (poses.length < MOST_POSES && at(pose, least)) poses.push(pose);
  }
  return poses;
}

function reached(result: FitResult, { leave, unmeasured }: Access, { from, sight, room, tightest, pose }: Way, { policy }: Case, moved: number): FitResult {
  const wide = policy.comfort > 0 ? Math.min(1, Math.max(0, room / policy.comfort)) : 1;
  const share = ROOM_OF_IT * wide + (1 - ROOM_OF_IT) * Number(sight === "sight");
  const reasons: Reason[] = [
    ...(room < policy.tight ? [{ code: "access:tight", parts: [tightest.part, tightest.other], short: null, have: Math.max(0, room) }] : []),
    ...(sight === "blind" ? [{ code: "access:blind", parts: [from], short: null }] : []),
    ...(moved > 0 ? [{ code: "access:moved", parts: [pose.heading], short: null, have: moved }] : []),
    ...(leave === "not-found" ? [{ code: "access:leave", parts: [], short: null }] : []),
    ...unmeasured.map((id) => ({ code: "access:unmeasured", parts: [id], short: null })),
  ];
  return { ...result, access: { state: "found", from, sight, room }, score: result.score * (1 - WAY_SHARE * (1 - share)), reasons: [...result.reasons, ...reasons] };
}

/** Nothing gets there, whatever is driven: the way in stands against the rig by itself. */
function barred(it: Case, result: FitResult, { code, things }: Barred, remedies: boolean): FitResult {
  const refused: FitResult = {
    ...result, verdict: "no", tight: false, pose: null, room: null, limit: null, vehicle: null, leftIn: [], bring: [], asks: [],
    access: { state: "no", from: null, sight: null, room: null },
    conflicts: [{ heading: null, constraints: ["access"], shown: null }],
    reasons: [{ code: `access:${code}`, parts: things, short: null }],
  };
  return { ...refused, remedies: remedies ? openings(it, result, things) : [] };
}

/** What of the things that bar the way may be carried off or cut, each looked at anew. */
function openings(it: Case, result: FitResult, things: readonly string[]): Remedy[] {
  const changes = it.site.obstacles.filter(({ id }) => things.includes(id)).flatMap((obstacle): Change[] => [
    ...(obstacle.removable ? [{ code: "remove" as const, what: obstacle.id }] : []),
    ...(obstacle.kind === "tree" && (obstacle.crownFrom ?? 0) < enoughUnder(it) ? [{ code: "trim" as const, what: obstacle.id, amount: enoughUnder(it) }] : []),
  ]);
  const opens = (change: Change) => findAccess(applyChange(change, it).site, it.rig, [result.pose!], it.policy)?.state === "found";
  return changes.filter(opens).map((change) => ({ changes: [change], verdict: result.verdict === "gear" ? "gear" : "fits", bring: result.bring }));
}
