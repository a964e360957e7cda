import type { Site } from "@/lib/park/schema";
import type { Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { FitResult, Pose } from "@/lib/fit/types";
import { GAP, keptNice, near, ROUNDING } from "./claims";
import { groundPlane, liftAsked, liftMeans } from "./ground";
import { headingsAllowed, rulesBroken } from "./needs";
import { leastSlack, slacks } from "./slacks";
import { checkBring, checkNeeds, checkPower, checkVehicle } from "./check-needs";

/** Every claim of a result that can be checked at its own pose. Empty when all of them hold. */
export function checkResult(site: Site, rig: Rig, policy: Policy, result: FitResult): string[] {
  const faults: string[] = [];
  const say = (ok: boolean, text: string) => {
    if (!ok) faults.push(text);
  };
  say(result.site === site.id, `site is ${result.site}, not ${site.id}`);
  say(["fits", "gear", "unsettled", "no"].includes(result.verdict), `unexpected verdict ${result.verdict}`);
  say(result.score >= 0 && result.score <= 100, `score ${result.score} lies outside 0 to 100`);
  faults.push(...checkGround(site, rig, policy, result), ...checkBest(policy, result));
  if (result.verdict === "fits" || result.verdict === "gear") {
    if (!result.pose || result.room === null) return [...faults, `verdict ${result.verdict} without a pose and its room`];
    faults.push(...checkPose(site, rig, policy, result, result.pose, result.room));
    faults.push(...checkNeeds(site, rig, policy, result, result.pose), ...checkPower(site, rig, policy, result));
    faults.push(...checkVehicle(site, rig, policy, result, result.pose), ...checkBring(site, rig, policy, result));
  } else {
    say(result.pose === null, `verdict ${result.verdict} with a pose`);
    say(!result.tight, `verdict ${result.verdict} is flagged tight`);
  }
  if (result.verdict === "no") say(result.reasons.length > 0, "no reason is given for a no");
  return faults;
}

function checkGround(site: Site, rig: Rig, policy: Policy, result: FitResult): string[] {
  const faults: string[] = [];
  const plane = groundPlane(site), lift = liftAsked(site, rig, policy);
  const means = [liftMeans(lift.side, rig.gear.liftSide, policy.maxLiftSide), liftMeans(lift.along, rig.gear.liftAlong, policy.maxLiftAlong)];
  const ok = means.includes("no") ? "no" : means.includes("gear") ? "gear" : "own";
  const compare = (what: string, got: number, want: number) => {
    if (!near(got, want, 100)) faults.push(`${what} is ${got}, not ${want}`);
  };
  compare("ground.along", result.ground.along, plane.along);
  compare("ground.across", result.ground.across, plane.across);
  compare("ground.worstResidual", result.ground.worstResidual, plane.worstResidual);
  compare("level.side", result.level.side, lift.side);
  compare("level.along", result.level.along, lift.along);
  if (result.level.ok !== ok) faults.push(`level is ${result.level.ok}, not ${ok}`);
  if (result.verdict === "fits" && ok !== "own") faults.push(`fits although level is ${ok}`);
  if (result.verdict === "gear" && ok === "no") faults.push("gear although the slope cannot be levelled");
  const broken = rulesBroken(site, rig, policy);
  if (broken.length > 0 && result.verdict !== "no") faults.push(`${result.verdict} although ${broken.join(", ")} is broken`);
  return faults;
}

function checkBest(policy: Policy, result: FitResult): string[] {
  const faults: string[] = [];
  const { room, bound } = result.best;
  if (!(room <= bound + ROUNDING)) faults.push(`best.room ${room} is more than best.bound ${bound}`);
  if (result.verdict === "unsettled") return faults;
  if (bound >= 0 && !(bound - room <= GAP + ROUNDING)) faults.push(`best.bound ${bound} is more than ${GAP} above best.room ${room}`);
  if (bound < -policy.touch && result.verdict !== "no") faults.push(`${result.verdict} although best.bound is ${bound}`);
  if (result.room !== null && result.room >= 0 && result.room > bound + ROUNDING) faults.push(`room ${result.room} is more than best.bound ${bound}`);
  return faults;
}

function checkPose(site: Site, rig: Rig, policy: Policy, result: FitResult, pose: Pose, room: number): string[] {
  const faults: string[] = [];
  if (!headingsAllowed(site, rig).includes(pose.heading)) faults.push(`heading ${pose.heading} is not allowed here`);
  faults.push(...checkLeftIn(rig, result));
  const list = slacks(site, rig, policy, pose, keptNice(rig, result));
  for (const s of list) {
    if (!(s.slack >= -policy.touch - ROUNDING)) faults.push(`${s.id} is ${s.slack} at the pose`);
  }
  const least = leastSlack(list);
  const scale = Math.abs(pose.x) + Math.abs(pose.y);
  const bothShort = room < ROUNDING && least.slack < ROUNDING;
  if (!near(room, least.slack, scale) && !bothShort) faults.push(`room is ${room}, but ${least.id} is ${least.slack}`);
  if (result.tight !== room < policy.tight && !near(room, policy.tight)) faults.push(`tight is ${result.tight} with room ${room}`);
  if (result.limit) {
    const named = list.find((s) => s.id === result.limit!.id);
    if (!named) faults.push(`limit names ${result.limit.id}, which is no constraint here`);
    else if (!near(named.slack, least.slack, scale) && !bothShort) faults.push(`limit names ${named.id} (${named.slack}), but ${least.id} is ${least.slack}`);
    if (!bothShort && !near(result.limit.slack, room, scale)) faults.push(`limit.slack ${result.limit.slack} is not the room ${room}`);
    faults.push(...checkLimitPoints(result));
  } else faults.push("a pose without its limit");
  return faults;
}

function checkLimitPoints(result: FitResult): string[] {
  const { from, to, distance } = result.limit!;
  if (distance <= 0) return [];
  const apart = Math.hypot(from[0] - to[0], from[1] - to[1]);
  return Math.abs(apart - distance) <= 1e-3 ? [] : [`limit's points lie ${apart} apart, its distance is ${distance}`];
}

function checkLeftIn(rig: Rig, result: FitResult): string[] {
  const nice = rig.parts.filter((p) => p.need === "nice").map((p) => p.id);
  const inOrder = nice.filter((id) => result.leftIn.includes(id));
  return inOrder.join() === result.leftIn.join() ? [] : [`leftIn is ${result.leftIn.join()}, nice parts are ${nice.join()}`];
}
