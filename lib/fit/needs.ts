import { lastBend, leastTautLength, passesThrough, sideOf, tautLength, tautPath, type Box, type Point, type SideView } from "@/lib/plane";
import { groundHeight, type GroundPlane, type Hookup, type Terrain } from "@/lib/park";
import { inletAt } from "@/lib/rig";
import { facing } from "./frames";
import { offsetsOf, type RigForm } from "./form";
import type { Policy } from "./policy";
import { bestOption, powerOptions, type PowerOption } from "./power";
import type { Heading, Service } from "./types";

/** With what the guest has, or with what could be brought. */
export type With = "own" | "gear";

/** A drain falls at least 1 in 48 of its run: 1/4 inch in a foot (UPC 708.1, from memory; municipal codes). */
export const DRAIN_FALL = 1 / 48;

/** A square of the search, as far as needs look at it. */
interface Square {
  readonly cx: number;
  readonly cy: number;
  readonly hx: number;
  readonly hy: number;
}

/** One inlet and one hookup at one heading: how far the run is from any pose, and how far it may be. */
export class Pair {
  readonly service: Service;
  /** Where the pose stands when the inlet is right over the hookup. */
  readonly qx: number;
  readonly qy: number;
  /** Drop plus climb for cord and water hose; the difference in height for the sewer hose. */
  readonly rise: number;
  /** The longest path on the ground, mm; below 0 where the pair cannot serve. */
  readonly limit: Readonly<Record<With, number>>;
  readonly power: Readonly<Record<With, PowerOption | null>>;
  private readonly body: Box;
  private readonly from: Point;
  readonly around: boolean;
  /** The body seen from the inlet; null where the inlet is not on its edge, or no line has to go around. */
  private readonly side: SideView | null;
  /** Drop from outlet to hookup at a pose, as a x + b y + d; sewer only. */
  private readonly drop: { readonly a: number; readonly b: number; readonly d: number } | null;
  private readonly touch: number;

  constructor(terrain: Terrain, form: RigForm, policy: Policy, heading: Heading, readonly inlet: number, readonly hookup: Hookup) {
    const { rig } = form;
    const entry = rig.inlets[inlet]!;
    const s = facing(heading);
    const [u, v] = inletAt(rig, entry);
    this.service = entry.kind;
    this.from = [s * u, s * v];
    this.qx = hookup.at[0] - s * u;
    this.qy = hookup.at[1] - s * v;
    this.body = offsetsOf(form.boxes[0]!, heading);
    this.around = !policy.underBody.includes(entry.kind);
    this.side = this.around ? sideOf(this.body, this.from) : null;
    this.touch = policy.touch;
    this.rise = entry.kind === "sewer" ? entry.height - hookup.height : entry.height + hookup.height;
    this.drop = entry.kind === "sewer" ? dropOf(terrain.ground, hookup, this.from, entry.height) : null;
    const options = entry.kind === "power" ? powerOptions(rig, hookup, policy).filter((o) => o.overload === 0) : [];
    this.power = { own: bestOption(options.filter((o) => !o.bringAdapter)), gear: bestOption(options) };
    const usable = usability(form, policy, hookup, this.power);
    const longest = policy.longest[entry.kind];
    this.limit = {
      own: usable.own ? this.pathWithin(Math.min(ownLength(form, entry.kind), longest)) : -1,
      gear: usable.gear ? this.pathWithin(longest) : -1,
    };
  }

  /** The path on the ground from below the inlet to the hookup, mm. */
  pathAt(x: number, y: number): number {
    if (this.around) return this.lengthAround(x, y);
    return Math.hypot(x - this.qx, y - this.qy);
  }

  /** All of drop, path and climb for a path on the ground, mm. */
  routeOf(path: number): number {
    return this.service === "sewer" ? Math.hypot(path, this.rise) : this.rise + path;
  }

  /** Drop beyond what the run needs, mm; Infinity for services that do not fall. */
  fallAt(x: number, y: number, path: number): number {
    return this.drop === null ? Infinity : this.dropAt(x, y) - path * DRAIN_FALL;
  }

  /** The drop from outlet to hookup, ground included, mm. */
  dropAt(x: number, y: number): number {
    return this.drop === null ? 0 : this.drop.a * x + this.drop.b * y + this.drop.d;
  }

  /** How fast the fall changes as the pose moves: what the ground rises plus what the run takes, mm per mm. */
  fallSteepness(): number {
    return this.drop === null ? 0 : Math.hypot(this.drop.a, this.drop.b) + DRAIN_FALL;
  }

  /** No pose of the square has a shorter path. */
  leastPath({ cx, cy, hx, hy }: Square): number {
    const dx = Math.max(0, Math.abs(cx - this.qx) - hx), dy = Math.max(0, Math.abs(cy - this.qy) - hy);
    const straight = Math.sqrt(dx * dx + dy * dy);
    return this.around ? Math.max(straight, this.leastAround(cx, cy, hx, hy)) : straight;
  }

  /** No pose of the square has more fall to spare. */
  greatestFall({ cx, cy, hx, hy }: Square, leastPath: number): number {
    if (this.drop === null) return Infinity;
    return this.dropAt(cx, cy) + Math.abs(this.drop.a) * hx + Math.abs(this.drop.b) * hy - leastPath * DRAIN_FALL;
  }

  /** Whether the pair serves at every pose of the square; false also where that is not easily told. */
  servesAllOver({ cx, cy, hx, hy }: Square, by: With): boolean {
    const limit = this.limit[by];
    if (limit < 0 || this.around) return false;
    const farthest = Math.hypot(Math.abs(cx - this.qx) + hx, Math.abs(cy - this.qy) + hy);
    if (farthest > limit) return false;
    if (this.drop === null) return true;
    return this.dropAt(cx, cy) - Math.abs(this.drop.a) * hx - Math.abs(this.drop.b) * hy >= farthest * DRAIN_FALL;
  }

  /** For a square over which the path ends in the same straight piece: where the pose stands when that is of no length, and how long the rest is. */
  bendIn({ cx, cy, hx, hy }: Square): { readonly x: number; readonly y: number; readonly length: number } | null {
    if (!this.around) return { x: this.qx, y: this.qy, length: 0 };
    if (!this.side) return null;
    const [mx, my] = this.hookupFrom(cx, cy);
    const bend = lastBend(this.side, { x0: mx - hx, x1: mx + hx, y0: my - hy, y1: my + hy });
    return bend && { x: this.hookup.at[0] - bend.x, y: this.hookup.at[1] - bend.y, length: bend.length };
  }

  /** The pose of the square with the shortest straight run. */
  nearestIn({ cx, cy, hx, hy }: Square): Point {
    return [Math.min(cx + hx, Math.max(cx - hx, this.qx)), Math.min(cy + hy, Math.max(cy - hy, this.qy))];
  }

  /** The run on the ground at a pose, as offsets turned into site points, and whether it passes under the body. */
  lineAt(x: number, y: number): { points: Point[]; underBody: boolean } {
    const to = this.hookupFrom(x, y);
    const points = this.around ? tautPath(this.body, this.from, to, this.touch).points : [this.from, to];
    return {
      points: points.map(([px, py]) => [px + x, py + y]),
      underBody: !this.around && passesThrough(this.body, this.from, to),
    };
  }

  private hookupFrom(x: number, y: number): Point {
    return [this.hookup.at[0] - x, this.hookup.at[1] - y];
  }

  /** The longest path on the ground for a run of so much in all, mm; below 0 where drop and climb alone take more. */
  pathWithin(length: number): number {
    if (this.service !== "sewer") return length - this.rise;
    return length < Math.abs(this.rise) ? -1 : Math.sqrt(length * length - this.rise * this.rise);
  }

  private lengthAround(x: number, y: number): number {
    const hx = this.hookup.at[0] - x, hy = this.hookup.at[1] - y, { x0, x1, y0, y1 } = this.body;
    const under = hx > x0 && hx < x1 && hy > y0 && hy < y1;
    if (this.side && !under) return tautLength(this.side, hx, hy);
    return tautPath(this.body, this.from, [hx, hy], this.touch).length;
  }

  /** Over the poses of the square that keep the hookup outside the body; where none does, nothing is claimed. */
  private leastAround(cx: number, cy: number, hx: number, hy: number): number {
    if (!this.side) return 0;
    const [mx, my] = this.hookupFrom(cx, cy);
    const least = leastTautLength(this.side, { x0: mx - hx, x1: mx + hx, y0: my - hy, y1: my + hy });
    return least === Infinity ? 0 : least - NOISE;
  }
}

/** What rounding may make of a length, mm. */
const NOISE = 1e-6;

/** The wanted services, each with every pair that could serve it. */
export interface Need {
  readonly service: Service;
  readonly pairs: readonly Pair[];
}

export function needsOf(terrain: Terrain, form: RigForm, policy: Policy, heading: Heading): Need[] {
  return wantedServices(form).map((service) => ({
    service,
    pairs: form.rig.inlets.flatMap((inlet, i) =>
      inlet.kind !== service ? [] : terrain.site.hookups.filter((h) => h.kind === service).map((h) => new Pair(terrain, form, policy, heading, i, h)),
    ),
  }));
}

export function wantedServices(form: RigForm): Service[] {
  return [...new Set(form.rig.wants)];
}

export function ownLength({ rig: { gear } }: RigForm, service: Service): number {
  return service === "power" ? gear.powerCord : service === "water" ? gear.waterHose : gear.sewerHose;
}

function usability({ rig }: RigForm, policy: Policy, hookup: Hookup, power: Readonly<Record<With, PowerOption | null>>): Record<With, boolean> {
  if (hookup.kind === "power") return { own: power.own !== null, gear: power.gear !== null };
  const wild = hookup.kind === "water" && (hookup.pressure ?? 0) > policy.maxPressure;
  return { own: !wild || rig.gear.regulator, gear: true };
}

function dropOf(ground: GroundPlane, hookup: Hookup, [ox, oy]: Point, outletHeight: number) {
  const rim = (hookup.groundZ ?? groundHeight(ground, hookup.at[0], hookup.at[1])) + hookup.height;
  return { a: ground.alongGradient, b: ground.acrossGradient, d: groundHeight(ground, ox, oy) + outletHeight - rim };
}
