import { placeSpotters, trainOf, wayGroundOf, type Access, type Leg, type Way } from "@/lib/access";
import { parkedOn } from "@/lib/access/train";
import type { Policy } from "@/lib/fit";
import type { Site } from "@/lib/park";
import type { Rig } from "@/lib/rig";
import type { WayScene } from "../scenes/way-scenes";
import { groundDepth, type Vector } from "./access-ground";
import { replay, replayTrain, roomOf, type Frame, type ReplayTrain } from "./access-replay";
import { faultsOfPost } from "./access-sight";

/** Moves of the string, mm, and every how many of them rooms are measured. */
const MOVE = 10, EVERY = 25;
/** How far this reading of room may lie from the engine's, mm: points of outlines and rims, moves of the string. */
const READING = 25;
const degrees = (radians: number) => (radians * 180) / Math.PI;

/** All that is wrong with an answer by what it claims of itself: each fault in words with its numbers. */
export function faultsOfAccess({ site, rig, poses }: WayScene, access: Access, policy: Policy): string[] {
  const faults: string[] = [], { state, way, other, nearest, barred, leave } = access;
  if ((state === "found") !== (way !== null) || (state === "no") !== (barred !== null)) faults.push(`${state} with${way ? "" : "out"} a way, with${barred ? "" : "out"} what bars it`);
  if (way && other && way.from === other.from) faults.push("both ways come from the same side");
  if (way && other && other.bound > way.bound + 51 && way.bound < policy.comfort - 51) faults.push(`the other way has more room: ${other.bound} against ${way.bound}`);
  if ((leave === null) !== (way === null || site.approach!.exitRoad === undefined)) faults.push(`leave is ${leave}`);
  if (nearest && state === "found") faults.push("a nearest try beside a way");
  if (barred) {
    const known = new Set([...site.obstacles.map(({ id }) => id), ...site.hookups.map(({ id }) => id), ...site.approach!.heightLimits.map(({ id }) => id)]);
    if ((barred.things.length === 0) !== (barred.code === "no-ground") || barred.things.some((id) => !known.has(id))) faults.push(`barred by ${barred.code} ${barred.things.join(", ")}`);
  }
  for (const each of [way, other]) if (each) faults.push(...faultsOfWay(site, rig, each, policy).map((f) => `from the ${each.from}: ${f}`));
  if (way && !poses.includes(way.pose)) faults.push("to a pose that was not asked about");
  return faults;
}

function faultsOfWay(site: Site, rig: Rig, way: Way, policy: Policy): string[] {
  const faults: string[] = [], train = replayTrain(rig), { road, exitRoad } = site.approach!;
  if (way.bound < -policy.touch || way.room < way.bound) faults.push(`room ${way.room}, bound ${way.bound}`);
  if (way.sight !== (way.from === (rig.drive?.driver ?? "left") ? "sight" : "blind")) faults.push(`from the ${way.from} is ${way.sight}`);
  const spotting = placeSpotters(wayGroundOf(site)!, trainOf(rig), way, policy);
  way.legs.forEach((leg, i) => {
    const moments = replayed(train, leg), rooms = moments.map(({ frames }) => roomOf(train, frames, site, policy, 100)), least = Math.min(...rooms);
    if (least < leg.bound - READING) faults.push(`${leg.kind}: ${Math.round(least)} mm of room in another reading, ${Math.round(leg.bound)} proven`);
    if (leg.kind === "in") faults.push(...askewOnPose(rig, way, moments.at(-1)!.frames));
    faults.push(...faultsOfLine(rig, way, leg), ...faultsOfEnd(leg, (leg.kind === "out") === (way.pose.heading === "nose-in") && exitRoad && leg.kind !== "back" ? exitRoad : leg.kind === "in" && way.pose.heading === "tail-in" ? exitRoad! : road).map((f) => `${leg.kind}: ${f}`));
    for (const post of spotting.posts.filter((p) => p.leg === i)) faults.push(...faultsOfPost(site, rig, train, leg, post, moments).map((f) => `${leg.kind}, post at ${post.at.map(Math.round).join(", ")}: ${f}`));
  });
  return [...faults, ...faultsOfTightest(site, way, policy)];
}

/** In the order in which they are driven: moments `MOVE * EVERY` apart, pulled along by a string. */
export function replayed(train: ReplayTrain, { drive, kind }: Leg): { along: number; frames: Frame[] }[] {
  const n = Math.ceil(drive.reached / MOVE), front = Array.from({ length: n + 1 }, (_, i) => drive.path.pointAt((drive.reached * i) / n).at);
  const all = replay(train, front, drive.at(0).poses.map(({ heading }) => heading)), kept = all.flatMap((frames, i) => (i % EVERY === 0 || i === n ? [{ along: (drive.reached * i) / n, frames }] : []));
  return kind === "back" ? kept.reverse().map(({ along, frames }) => ({ along: drive.reached - along, frames })) : kept;
}

/** A rig that was driven in stands on its pose, no more askew than 3 degrees; what it tows thrice that. */
function askewOnPose(rig: Rig, { pose }: Way, frames: readonly Frame[]): string[] {
  const { rigBody } = trainOf(rig), facing = pose.heading === "nose-in" ? 1 : -1, turns = frames.map(({ head }) => degrees(Math.abs(Math.atan2(head[1] * facing, head[0] * facing)))), most = rigBody === 0 ? turns[0]! : Math.max(...turns);
  return most > 3.2 + (rigBody === 1 ? 3 : 0) ? [`stands ${most.toFixed(1)} degrees askew on its pose`] : [];
}

/** Where the front axle goes: from or to its pose, nowhere tighter than the vehicle can, no hitch beyond its limit. */
function faultsOfLine(rig: Rig, { pose }: Way, { kind, drive }: Leg): string[] {
  const { sharpest, maxBend, combination } = trainOf(rig), faults: string[] = [], onPose = drive.at(kind === "in" ? drive.reached : 0), parked = parkedOn(trainOf(rig), pose, kind === "back" ? onPose.hitches[0] : 0);
  if (Math.hypot(onPose.front[0] - parked.at[0], onPose.front[1] - parked.at[1]) > 1) faults.push(`${kind}: not at its pose`);
  let steer = 0, bend = 0;
  for (let i = 0; i <= 300; i++) {
    const c = drive.at((drive.reached * i) / 300);
    steer = Math.max(steer, Math.abs(Math.sin(c.steer)) / combination.vehicle.wheelbase);
    bend = Math.max(bend, ...c.hitches.map(Math.abs));
  }
  if (steer > sharpest * 1.01) faults.push(`${kind}: wheels turned for ${Math.round(1 / steer)} mm, ${Math.round(1 / sharpest)} can be`);
  if (maxBend !== null && bend > maxBend + 0.002) faults.push(`${kind}: bent ${degrees(bend).toFixed(1)} degrees`);
  return faults;
}

/** Its end on the road: along it, in line, and the way that traffic goes. */
function faultsOfEnd({ kind, drive }: Leg, { centreline, width, traffic }: NonNullable<Site["approach"]>["road"]): string[] {
  const end = drive.at(kind === "in" ? 0 : drive.reached), faults: string[] = [];
  if (kind !== "in") end.hitches.forEach((bend, i) => degrees(Math.abs(bend)) > 5.01 + mostSettled(drive, i) && faults.push(`ends bent by ${degrees(bend).toFixed(1)} degrees`));
  const line: Vector[] = centreline, gaps = line.slice(1).map((b, i) => ({ a: line[i]!, b, off: offLine(end.front, line[i]!, b, i === 0, i === line.length - 2) })), near = gaps.reduce((best, g) => (g.off < best.off ? g : best));
  if (near.off > width / 2) faults.push(`ends ${Math.round(near.off)} mm off the middle of a road of ${width}`);
  const heading = Math.atan2(near.b[1] - near.a[1], near.b[0] - near.a[0]), path = drive.path.pointAt(kind === "in" ? 0 : drive.reached).heading, askew = Math.abs(Math.sin(path - heading));
  if (askew > 0.35) faults.push(`ends ${degrees(Math.asin(askew)).toFixed(0)} degrees across the road`);
  // A way out is driven backwards by who comes in: `back` comes along the road the other way.
  const along = Math.cos(path - heading) > 0 ? 1 : -1, [first, last] = [line[0]!, line.at(-1)!], onto: Vector = drive.at(kind === "in" ? drive.reached : 0).front;
  const leftward = (last[0] - first[0]) * -(onto[1] - first[1]) + (last[1] - first[1]) * (onto[0] - first[0]) > 0 ? 1 : -1, going = along * leftward * (kind === "back" ? -1 : 1) > 0 ? "toward-left" : "toward-right";
  if (kind !== "back" && traffic !== "both" && traffic !== going) faults.push(`drives ${going} where traffic goes ${traffic}`);
  return faults;
}

/** How far a hitch is bent where the bends of a road are followed for ever, by the sharpest of them over the last stretch, as long as the rig: degrees. On a straight road 0. */
function mostSettled({ combination, at, reached }: Leg["drive"], hitch: number): number {
  const { vehicle, units } = combination, stretch = units.reduce<number>((sum, u) => sum + u.hitchToAxle + Math.abs(u.hitchBehindAxle), vehicle.wheelbase);
  return Math.max(...Array.from({ length: 41 }, (_, i) => {
    const tangent = Math.tan(Math.abs(at(reached - (stretch * i) / 40).steer));
    if (tangent < 1e-6) return 0;
    // Every axle runs around one centre: the hitch behind its axle on a wider circle, the axle behind the hitch on a narrower one.
    let radius: number = vehicle.wheelbase / tangent, bend = 0;
    for (const { hitchBehindAxle, hitchToAxle } of units.slice(0, hitch + 1)) {
      const reach = Math.hypot(radius, hitchBehindAxle);
      bend = Math.atan2(hitchBehindAxle, radius) + Math.asin(Math.min(1, hitchToAxle / reach));
      radius = Math.sqrt(Math.max(0, reach ** 2 - hitchToAxle ** 2));
    }
    return degrees(bend);
  }));
}

function offLine([x, y]: Vector, a: Vector, b: Vector, first: boolean, last: boolean): number {
  const dx = b[0] - a[0], dy = b[1] - a[1], t = ((x - a[0]) * dx + (y - a[1]) * dy) / (dx * dx + dy * dy), q = Math.min(last ? Infinity : 1, Math.max(first ? -Infinity : 0, t));
  return Math.hypot(x - a[0] - q * dx, y - a[1] - q * dy);
}

/** The tightest place is as tight as it is told: from the one thing to the other, less what is kept. */
function faultsOfTightest(site: Site, { tightest, room }: Way, policy: Policy): string[] {
  const { from, to, other } = tightest, apart = Math.hypot(from[0] - to[0], from[1] - to[1]), faults: string[] = [];
  if (Math.abs(tightest.room - room) > 1) faults.push(`tightest ${tightest.room}, room ${room}`);
  if (tightest.room <= 0 && other !== "ground") return faults;
  const kinds = [...site.obstacles, ...site.approach!.heightLimits].filter(({ id, kind }) => id === other && kind === "wire"), kept = other === "ground" ? policy.footing : kinds.length > 0 ? policy.wireClearance : policy.clearance;
  if (Math.abs(apart - kept - tightest.room) > 2) faults.push(`tightest by ${other}: ${Math.round(apart)} mm apart, ${kept} kept, ${Math.round(tightest.room)} told`);
  const [least, most] = [groundDepth(site, from, true), groundDepth(site, from)];
  if (other === "ground" && apart < 900 && (apart < least - READING || apart > most + READING)) faults.push(`tightest by the ground: ${Math.round(least)} to ${Math.round(most)} mm deep, ${Math.round(apart)} told`);
  return faults;
}
