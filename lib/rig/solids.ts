import { isMotorized, type Inlet, type Rig, type RigPart } from "./schema";
import { rigPoint, type RigPoint } from "@/lib/plane";

/** An upright box in the rig frame: a footprint along the axes, between two heights. Millimetres. */
export interface RigBox {
  /** "body", "hitch", "tow" or the id of a part. */
  readonly id: string;
  readonly kind: string;
  readonly u0: number;
  readonly u1: number;
  readonly v0: number;
  readonly v1: number;
  readonly from: number;
  readonly to: number;
  readonly need: "must" | "nice";
}

/** Every solid of the rig: body, hitch and hitched vehicle first, then the parts in listed order. */
export function boxesOf(rig: Rig): RigBox[] {
  const { body, hitch } = rig;
  const boxes: RigBox[] = [
    { id: "body", kind: "body", u0: 0, u1: body.length, v0: -body.width / 2, v1: body.width / 2, from: body.floor, to: body.height, need: "must" },
  ];
  if (hitch) {
    boxes.push({ id: "hitch", kind: "hitch", u0: body.length, u1: body.length + hitch.length, v0: -hitch.width / 2, v1: hitch.width / 2, from: hitch.from, to: hitch.to, need: "must" });
  }
  const tow = hitchedVehicle(rig);
  if (tow) boxes.push(tow);
  for (const part of rig.parts) boxes.push(boxOfPart(rig, part));
  return boxes;
}

function boxOfPart({ body }: Rig, part: RigPart): RigBox {
  const { id, kind, side, span: [a, b], depth, from, to, need } = part;
  const wall = body.width / 2;
  const base = { id, kind, from, to, need };
  switch (side) {
    case "left": return { ...base, u0: a, u1: b, v0: wall, v1: wall + depth };
    case "right": return { ...base, u0: a, u1: b, v0: -wall - depth, v1: -wall };
    case "rear": return { ...base, u0: -depth, u1: 0, v0: a, v1: b };
    case "front": return { ...base, u0: body.length, u1: body.length + depth, v0: a, v1: b };
  }
}

/**
 * The vehicle that stays on the hitch overnight. A trailer's stands ahead of it; a car towed by a motorized rig
 * follows behind, since such a rig is itself the one in front.
 */
function hitchedVehicle(rig: Rig): RigBox | null {
  const { body, hitch, tow } = rig;
  if (tow?.stays !== "hitched") return null;
  const overlap = tow.overlap ?? 0;
  const u0 = isMotorized(rig.kind) ? overlap - tow.length : body.length + (hitch?.length ?? 0) - overlap;
  return { id: "tow", kind: "vehicle", u0, u1: u0 + tow.length, v0: -tow.width / 2, v1: tow.width / 2, from: 0, to: tow.height, need: "must" };
}

/** Where an inlet stands on the body's edge. */
export function inletAt({ body }: Rig, inlet: Inlet): RigPoint {
  switch (inlet.side) {
    case "left": return rigPoint(inlet.u ?? 0, body.width / 2);
    case "right": return rigPoint(inlet.u ?? 0, -body.width / 2);
    case "rear": return rigPoint(0, inlet.v ?? 0);
    case "front": return rigPoint(body.length, inlet.v ?? 0);
  }
}

/** Body plus hitch: what people call the overall length (mm). */
export function overallLength({ body, hitch }: Rig): number {
  return body.length + (hitch?.length ?? 0);
}

export interface Spread {
  /** Between the outermost tyres side to side, mm. */
  readonly across: number;
  /**
   * What a lengthwise lift is measured over: between the outermost tyres for motorized rigs, from the middle of the
   * tyres to the foremost support for trailers, which pivot on their axles.
   */
  readonly along: number;
}

export function spreadOf(rig: Rig): Spread {
  const tyres = rig.supports.filter((s) => s.kind === "tyre").map((s) => s.at);
  const us = tyres.map(([u]) => u), vs = tyres.map(([, v]) => v);
  const across = Math.max(...vs) - Math.min(...vs);
  if (isMotorized(rig.kind)) return { across, along: Math.max(...us) - Math.min(...us) };
  const middle = us.reduce((sum, u) => sum + u, 0) / us.length;
  return { across, along: Math.max(...rig.supports.map((s) => s.at[0])) - middle };
}
