import type { Site } from "@/lib/park/schema";
import type { Rig } from "@/lib/rig/schema";
import type { Policy } from "@/lib/fit/policy";
import type { Bring, FitResult, NeedResult, Pose } from "@/lib/fit/types";
import { passesThrough } from "./geometry";
import { keptNice, near, ROUNDING } from "./claims";
import { liftAsked } from "./ground";
import { wanted } from "./needs";
import { footprint } from "./solids";
import { gearLength, inletAt, loadsServed, pairsOf, suppliesOf } from "./services";
import { inLineSlack, stallsFor } from "./vehicle";

/** Lines are drawn to a thousandth of a millimetre. */
const DRAWN = 1e-3;

export function checkNeeds(site: Site, rig: Rig, policy: Policy, result: FitResult, pose: Pose): string[] {
  const services = result.needs.map((n) => n.service);
  const faults: string[] = [];
  if ([...services].sort().join() !== wanted(rig).sort().join()) faults.push(`needs list ${services.join()}, wanted are ${wanted(rig).join()}`);
  for (const need of result.needs) faults.push(...checkNeed(site, rig, policy, result, pose, need).map((f) => `${need.service}: ${f}`));
  const borrowed = result.needs.some((n) => n.ok === "gear") || result.level.ok === "gear";
  if (result.verdict === "gear" && !borrowed) faults.push("gear, but every need is met with own gear");
  return faults;
}

export function checkPower(site: Site, rig: Rig, policy: Policy, result: FitResult): string[] {
  const need = result.needs.find((n) => n.service === "power");
  if (!need) return result.power === null ? [] : ["power is told although none is wanted"];
  const told = result.power;
  if (!told) return ["power is wanted but not told"];
  const hookup = site.hookups.find((h) => h.id === need.hookup);
  const way = hookup && suppliesOf(rig, policy, hookup).find((w) => w.receptacle === told.receptacle && w.through === told.through);
  if (!way) return [`power comes from a ${told.receptacle} A receptacle through ${told.through}, which does not serve`];
  const faults: string[] = [];
  if (!near(way.supplyVa, told.supplyVa)) faults.push(`supplyVa is ${told.supplyVa}, not ${way.supplyVa}`);
  if (!near(way.usableVa, told.usableVa)) faults.push(`usableVa is ${told.usableVa}, not ${way.usableVa}`);
  if (need.ok === "own" && !way.owned) faults.push(`own power through ${way.through}, which the guest has not`);
  const loads = loadsServed(rig, way.usableVa);
  for (const list of ["runs", "shed"] as const) {
    if ([...told[list]].sort().join() !== [...loads[list]].sort().join()) faults.push(`power ${list} ${told[list].join()}, not ${loads[list].join()}`);
  }
  return faults;
}

export function checkVehicle(site: Site, rig: Rig, policy: Policy, result: FitResult, pose: Pose): string[] {
  const { vehicle } = result, stays = rig.tow?.stays;
  if (stays !== "on-site") {
    const want = stays === "hitched" ? "hitched" : null;
    return vehicle === want ? [] : [`vehicle is ${vehicle}, not ${want}`];
  }
  const stalls = stallsFor(site, rig), kept = keptNice(rig, result);
  const inLine = (["strict", "loose"] as const).map((r) => inLineSlack(site, rig, policy, pose, kept, r));
  if (vehicle === "overflow") {
    if (!policy.overflow) return ["vehicle goes to overflow parking, which the park has not"];
    if (stalls.some((s) => s.slack >= 0)) return ["vehicle goes to overflow parking although a stall takes it"];
    return Math.min(...inLine) >= 0 ? [`vehicle goes to overflow parking although it stands in line with ${Math.min(...inLine)}`] : [];
  }
  if (vehicle === "in line") return Math.max(...inLine) >= -policy.touch - ROUNDING ? [] : [`vehicle does not stand in line: ${inLine.join(", ")}`];
  const stall = stalls.find((s) => s.id === vehicle);
  if (!stall) return [`vehicle is ${vehicle}, which is no stall here`];
  return stall.slack >= -policy.touch ? [] : [`vehicle is longer or wider than stall ${stall.id} by ${-stall.slack}`];
}

/** What is brought is what is lacking: no more, no less. */
export function checkBring(site: Site, rig: Rig, policy: Policy, result: FitResult): string[] {
  const faults: string[] = [];
  const expected = new Set<Bring["code"]>();
  const cords = { power: "cord", water: "hose", sewer: "sewer-hose" } as const;
  for (const need of result.needs) {
    if (need.ok !== "gear") continue;
    if (need.extra > 0) {
      const code = cords[need.service], brought = result.bring.find((b) => b.code === code);
      expected.add(code);
      if (brought && !(brought.amount !== null && brought.amount >= need.route! - policy.touch - ROUNDING)) faults.push(`${code} of ${brought.amount} for a run of ${need.route}`);
    }
    const hookup = site.hookups.find((h) => h.id === need.hookup);
    if (need.service === "water" && (hookup?.pressure ?? 0) > policy.maxPressure && !rig.gear.regulator) expected.add("regulator");
    const through = need.service === "power" ? result.power?.through : null;
    if (through && !rig.gear.adapters.includes(through)) {
      expected.add("adapter");
      if (!result.bring.some((b) => b.code === "adapter" && b.what === through)) faults.push(`adapter ${through} is not named`);
    }
  }
  const lift = liftAsked(site, rig, policy);
  if (lift.side > rig.gear.liftSide) expected.add("lift-side");
  if (lift.along > rig.gear.liftAlong) expected.add("lift-along");
  const told = result.bring.map((b) => b.code).sort().join();
  if (told !== [...expected].sort().join()) faults.push(`bring lists ${told || "nothing"}, lacking is ${[...expected].sort().join() || "nothing"}`);
  return faults;
}

function checkNeed(site: Site, rig: Rig, policy: Policy, result: FitResult, pose: Pose, need: NeedResult): string[] {
  const pairs = pairsOf(site, rig, policy, pose, need.service);
  const pair = pairs.find((p) => p.inlet === need.inlet && p.hookup === need.hookup);
  if (!pair) return [`inlet ${need.inlet} and hookup ${need.hookup} are no pair`];
  if (need.ok === "no") return [`${result.verdict} although a need is not met`];
  if (result.verdict === "fits" && need.ok !== "own") return ["fits, but not with own gear"];
  const faults: string[] = [];
  const own = gearLength(rig, need.service), floor = -policy.touch - ROUNDING;
  if (need.route === null || !near(need.route, pair.route)) faults.push(`route is ${need.route}, not ${pair.route}`);
  if (!near(need.own, own)) faults.push(`own is ${need.own}, not ${own}`);
  if (!(pair[need.ok] >= floor)) faults.push(`${need.ok} is claimed, but its slack is ${pair[need.ok]}`);
  const extra = Math.max(0, pair.route - own);
  if (need.ok === "own" ? need.extra !== 0 && !near(need.extra, extra) : !near(need.extra, extra)) faults.push(`extra is ${need.extra}, not ${extra}`);
  if (need.ok === "gear" && pairs.some((p) => p.own >= 0)) faults.push("gear is claimed, but own gear does");
  const shortest = Math.min(...pairs.filter((p) => p[need.ok as "own" | "gear"] >= 0).map((p) => p.route));
  if (pair.route > shortest + ROUNDING) faults.push(`route ${pair.route}, but ${shortest} would do`);
  if (pair.fall && !(need.fall && near(need.fall.drop, pair.fall.drop, 1e4) && near(need.fall.needed, pair.fall.needed))) faults.push(`fall is ${JSON.stringify(need.fall)}, not ${JSON.stringify(pair.fall)}`);
  return [...faults, ...checkLine(site, rig, policy, pose, need, pair.path, pair.under)];
}

/** The drawn run: from below the inlet to the hookup, as long as the path, and not under a body it may not pass. */
function checkLine(site: Site, rig: Rig, policy: Policy, pose: Pose, need: NeedResult, path: number, under: boolean): string[] {
  const faults: string[] = [];
  const { line } = need, hookup = site.hookups.find((h) => h.id === need.hookup)!;
  const from = inletAt(rig, pose, rig.inlets[need.inlet!]!);
  const apart = (p: readonly [number, number], q: readonly [number, number]) => Math.hypot(p[0] - q[0], p[1] - q[1]);
  if (line.length < 2 || apart(line[0]!, from) > DRAWN || apart(line.at(-1)!, hookup.at) > DRAWN) return ["the line does not run from inlet to hookup"];
  const drawn = line.slice(1).reduce((sum, p, i) => sum + apart(line[i]!, p), 0);
  if (Math.abs(drawn - path) > DRAWN) faults.push(`the line is ${drawn} long, its path ${path}`);
  const body = footprint(pose, { u: [0, rig.body.length], v: [-rig.body.width / 2, rig.body.width / 2] });
  const crosses = line.slice(1).some((p, i) => passesThrough(line[i]!, p, body, policy.touch + DRAWN));
  if (!policy.underBody.includes(need.service) && crosses) faults.push("the line passes under the body");
  if (under && !need.underBody) faults.push("the line passes under the body, which is not told");
  if (need.underBody && !passesThrough(from, hookup.at, body, 1e-9)) faults.push("the line is told to pass under the body but does not");
  if (need.underBody && !policy.underBody.includes(need.service)) faults.push("a line under the body is not allowed here");
  return faults;
}
