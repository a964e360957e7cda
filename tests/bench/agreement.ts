import { fitSite } from "@/lib/fit";
import type { With } from "@/lib/fit/needs";
import type { BallAnswer } from "./ball-baseline";
import type { Question } from "./subjects";
import { GRAIN, type Swept } from "./sweep-baseline";
import { allowedFor } from "./setting";

/** Both searches stop within 5 mm of the most there is. */
const GAP = 5;
const NOISE = 0.01;

export interface Agreement {
  /** Where one of the two must be wrong. */
  readonly contradictions: string[];
  /** Where the lattice is merely too coarse for a place that the engine found. */
  readonly missed: string[];
}

/** The engine's answer against the obvious search's: the same numbers, give or take both gaps. */
export function againstBalls({ rig, site, result, policy }: Question, ball: BallAnswer): string[] {
  const here = `${rig.id} on ${site.id}`;
  if (ball.verdict !== result.verdict) return [`${here}: the engine says ${result.verdict}, the obvious search ${ball.verdict}`];
  const out: string[] = [];
  const apart = (what: string, engine: number, other: number, by: number) => {
    if (Math.abs(engine - other) > by) out.push(`${here}: ${what} ${engine.toFixed(1)} by the engine, ${other.toFixed(1)} by the obvious search`);
  };
  if (Math.max(result.best.room, ball.best.room) >= 0) apart("best room", result.best.room, ball.best.room, GAP + NOISE);
  // The engine may go 5 mm below the most room for a shorter run; the obvious search reports the room before it does.
  if (result.room !== null && ball.room !== null) apart("room at the pose", Math.min(result.room, policy.comfort), ball.room, 2 * GAP + NOISE);
  return out;
}

/** The engine's answer against the lattice's best. */
export function againstSweep(question: Question, swept: Swept): Agreement {
  const { rig, site, result, setting } = question;
  const here = `${rig.id} on ${site.id}`, allowed = allowedFor(setting);
  const out: Agreement = { contradictions: [], missed: [] };
  if (swept.best >= 0 && swept.best > result.best.bound + NOISE) out.contradictions.push(`${here}: the sweep finds room ${swept.best.toFixed(1)}, the engine's bound is ${result.best.bound.toFixed(1)}`);
  // Room changes by no more than the pose: a pose of the lattice lies this near to the engine's.
  if (result.best.room >= GRAIN && result.best.room - swept.best > GRAIN + NOISE) out.contradictions.push(`${here}: the engine finds room ${result.best.room.toFixed(1)}, the sweep ${swept.best.toFixed(1)}`);
  const placed = withoutNiceParts(question);
  if (placed) {
    const { by, room } = placed, found = swept.with[by];
    if (found > room + GAP + NOISE) out.contradictions.push(`${here}: the sweep places the rig with room ${found.toFixed(1)}, the engine with ${room.toFixed(1)}`);
    if (room - found > GRAIN + NOISE) out.missed.push(`${here}: the engine places the rig with room ${room.toFixed(1)}, the sweep ${found < 0 ? "nowhere" : `with ${found.toFixed(1)}`}`);
  }
  const verdict = allowed.own && swept.with.own >= 0 ? "fits" : allowed.gear && swept.with.gear >= 0 ? "gear" : "no";
  if (verdict !== result.verdict) (better(verdict, result.verdict) ? out.contradictions : out.missed).push(`${here}: the sweep says ${verdict}, the engine ${result.verdict}`);
  return out;
}

/** Where the engine puts the rig when it has its must parts only, as the sweep does: the room there, up to comfort. */
function withoutNiceParts({ site, rig, policy }: Question): { by: With; room: number } | null {
  const { verdict, room } = fitSite(site, { ...rig, parts: rig.parts.filter(({ need }) => need === "must") }, policy);
  return room === null ? null : { by: verdict === "fits" ? "own" : "gear", room: Math.min(room, policy.comfort) };
}

function better(a: string, b: string): boolean {
  const order = ["no", "gear", "fits"];
  return order.indexOf(a) > order.indexOf(b);
}
