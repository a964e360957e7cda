/**
 * A second reading of the motion, written apart from the engine's equations: nothing but string and sticks. The front axle is moved
 * a little; what hangs on a hitch is turned so that its axle stays on the line it stood on, at its distance. That is a tractrix in the limit
 * of small moves. First order, and slow.
 */
export interface Pulled {
  readonly width: number;
  readonly wheelbase: number;
  readonly frontOverhang: number;
  readonly rearOverhang: number;
  readonly units: readonly { readonly hitchBehindAxle: number; readonly hitchToAxle: number; readonly width: number; readonly rearOverhang: number }[];
}

type Vector = [number, number];

/** Least distance of the last axle from the arc's centre, greatest bend (degrees), greatest distance of a corner that is beside the arc. */
export function pullThrough(train: Pulled, radius: number, degrees: number, move: number): { nearest: number; sharpest: number; outermost: number } {
  const angle = (degrees * Math.PI) / 180, drawn = train.units.reduce((sum, u) => sum + Math.abs(u.hitchBehindAxle) + u.hitchToAxle, train.wheelbase);
  const tail = Math.max(train.rearOverhang, ...train.units.map((u) => u.rearOverhang));
  const axles: Vector[] = [[-train.wheelbase, 0]], heads: Vector[] = [[1, 0]];
  for (const u of train.units) {
    axles.push([axles.at(-1)![0] - u.hitchBehindAxle - u.hitchToAxle, 0]);
    heads.push([1, 0]);
  }
  let nearest = Infinity, sharpest = 0, outermost = 0;
  for (let s = 0; s <= radius * angle + 4 * drawn + tail; s += move) {
    let pull = frontAt(s, radius, angle);
    axles.forEach((axle, i) => {
      const reach = i === 0 ? train.wheelbase : train.units[i - 1]!.hitchToAxle;
      const dx = pull[0] - axle[0], dy = pull[1] - axle[1], far = Math.hypot(dx, dy);
      heads[i] = [dx / far, dy / far];
      axles[i] = [pull[0] - reach * heads[i]![0], pull[1] - reach * heads[i]![1]];
      const behind = train.units[i]?.hitchBehindAxle ?? 0;
      pull = [axles[i]![0] - behind * heads[i]![0], axles[i]![1] - behind * heads[i]![1]];
      if (i > 0) sharpest = Math.max(sharpest, (Math.abs(Math.atan2(cross(heads[i - 1]!, heads[i]!), dot(heads[i - 1]!, heads[i]!))) * 180) / Math.PI);
      for (const corner of cornersOf(train, i, axles[i]!, heads[i]!)) if (isBeside(corner, radius, angle)) outermost = Math.max(outermost, Math.hypot(corner[0], corner[1] - radius));
    });
    nearest = Math.min(nearest, Math.hypot(axles.at(-1)![0], axles.at(-1)![1] - radius));
  }
  return { nearest, sharpest, outermost };
}

/** From the origin along x, round to the left about (0, radius), then straight on. */
function frontAt(s: number, radius: number, angle: number): Vector {
  const round = Math.min(angle, s / radius), rest = Math.max(0, s - radius * angle);
  return [radius * Math.sin(round) + rest * Math.cos(angle), radius - radius * Math.cos(round) + rest * Math.sin(angle)];
}

function cornersOf(train: Pulled, i: number, axle: Vector, head: Vector): Vector[] {
  const unit = train.units[i - 1], half = (unit ?? train).width / 2, front = unit ? unit.hitchToAxle : train.wheelbase + train.frontOverhang, rear = -(unit ?? train).rearOverhang;
  return [front, rear].flatMap((u) => [half, -half].map((v): Vector => [axle[0] + u * head[0] - v * head[1], axle[1] + u * head[1] + v * head[0]]));
}

/** For arcs of at most half a round: past the line through the arc's start and not yet past that through its end. */
function isBeside([x, y]: Vector, radius: number, angle: number): boolean {
  return x >= 0 && x * Math.cos(angle) + (y - radius) * Math.sin(angle) <= 0;
}

function cross(a: Vector, b: Vector): number {
  return a[0] * b[1] - a[1] * b[0];
}

function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1];
}
