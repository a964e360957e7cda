import type { Rig } from "@/lib/rig";

export interface Size {
  /** Body without hitch, mm. */
  readonly length: number;
  readonly hitch: number;
  readonly width: number;
  readonly height: number;
}

export function sizeOf({ body, hitch }: Rig): Size {
  return { length: body.length, hitch: hitch?.length ?? 0, width: body.width, height: body.height };
}

/**
 * The rig in another size. Wheels, jacks, slides and inlets keep their share of the length and of the width: a guess,
 * until each has been measured. Depths and heights of what opens out stay, but for what would reach above the roof.
 */
export function resized(rig: Rig, size: Size): Rig {
  const { body, hitch } = rig;
  const along = size.length / body.length, across = size.width / body.width;
  const ahead = hitch && hitch.length > 0 ? size.hitch / hitch.length : 1;
  const u = (value: number) => (value <= body.length ? value * along : size.length + (value - body.length) * ahead);
  const v = (value: number) => value * across;
  const lower = (value: number) => (value <= body.height ? Math.min(value, size.height) : value);
  return {
    ...rig,
    body: { ...body, length: size.length, width: size.width, height: size.height },
    hitch: hitch && { ...hitch, length: size.hitch },
    supports: rig.supports.map((s) => ({ ...s, at: [u(s.at[0]), v(s.at[1])] })),
    parts: rig.parts.map((p) => {
      const onEnd = p.side === "rear" || p.side === "front";
      const [from, to] = [p.span[0], p.span[1]];
      return { ...p, span: onEnd ? [v(from), v(to)] : [from * along, to * along], from: lower(p.from), to: lower(p.to) };
    }),
    inlets: rig.inlets.map((i) => ({ ...i, u: i.u === undefined ? undefined : u(i.u), v: i.v === undefined ? undefined : v(i.v) })),
  };
}
