import { z } from "zod";

/** What answers look like, for the description. The engine's own types are the truth; a test holds these to a real answer. */
const heading = z.enum(["tail-in", "nose-in"]).describe("Backed in, or driven in.");
const means = z.enum(["own", "gear", "no"]).describe("Met with the guest's own gear, with gear to bring, or not.");
const point = z.tuple([z.number(), z.number()]);

const verdict = z.enum(["fits", "gear", "ask", "unsettled", "no"]);

const need = z.object({
  service: z.enum(["power", "water", "sewer"]),
  hookup: z.string().nullable(),
  inlet: z.int().nullable().describe("Index into the rig's inlets."),
  route: z.number().nullable().describe("All of drop, path and climb (mm)."),
  own: z.number().describe("What the guest has (mm)."),
  extra: z.number().describe("What has to be brought beyond it (mm)."),
  ok: means,
  underBody: z.boolean().describe("The line passes under the rig."),
  line: z.array(point).describe("The path on the ground, site frame."),
  fall: z.object({ drop: z.number(), needed: z.number() }).optional().describe("Sewer only (mm)."),
});

const reason = z.object({
  code: z.string().describe("What it is about, such as clear:lounge:oak or reach:power."),
  parts: z.array(z.string()).describe("The two things that meet."),
  short: z.number().nullable().describe("By how much it fails, in the unit of the code."),
  have: z.number().optional(),
  need: z.number().optional(),
  while: z.array(z.string()).optional().describe("What else has to hold at the same time: it fails by so much while these do."),
  text: z.string().describe("The same as a sentence, in the units asked for."),
});

const bring = z.object({
  code: z.string().describe("cord, hose, sewer-hose, adapter, regulator, lift-side or lift-along."),
  amount: z.number().nullable().describe("The whole length of a hose or cord, or the lift (mm)."),
  what: z.string().nullable().describe("Which adapter."),
});

const remedy = z.object({
  changes: z.array(z.object({
    code: z.string().describe("Such as trim, move, lengthen, add-receptacle, waive, leave-in."),
    what: z.string().optional().describe("The obstacle, hookup, part, service or rule."),
    amount: z.number().optional().describe("By how much, or to what height (mm); amperes for a receptacle."),
    by: point.optional().describe("Where a thing moves: along x and y (mm)."),
    at: point.optional().describe("Where a new hookup stands (mm, site frame)."),
  })),
  verdict: z.enum(["fits", "gear"]).describe("What it turns the answer into."),
  bring: z.array(bring).describe("What the guest has to bring even then."),
  text: z.string(),
});

const pose = z.object({ x: z.number(), y: z.number(), heading });

const conflict = z.object({
  heading: heading.nullable().describe("Null: at every heading that is allowed."),
  constraints: z.array(z.string()).describe("What cannot hold together, while each one dropped leaves the rest possible."),
  shown: z.object({
    dropped: z.string().describe("The constraint that fails at this pose, while the rest of the conflict holds."),
    pose,
    gap: z.object({
      from: point, to: point.describe("The point of the rig that is in the way, and where it would have to be; for a service the ends of the run (mm, site frame)."),
      short: z.number().describe("By how much (mm)."),
      line: z.array(point).optional().describe("A service's run on the ground."),
    }).nullable(),
  }).nullable().describe("The nearest try: not a place to park. Null where no place would make a difference."),
});

const result = z.object({
  site: z.string(),
  verdict,
  tight: z.boolean(),
  score: z.number().describe("0 to 100: orders sites within a verdict."),
  pose: pose.nullable().describe("Where the middle of the rig's rear wall stands (mm, site frame)."),
  room: z.number().nullable().describe("The smallest slack there (mm)."),
  best: z.object({ room: z.number(), bound: z.number() }).describe("Some pose has this room; none has more than the bound (mm)."),
  limit: z.object({ id: z.string(), slack: z.number(), distance: z.number(), from: point, to: point }).nullable().describe("The gap with least to spare."),
  needs: z.array(need),
  level: z.object({ side: z.number(), along: z.number(), ok: means }).describe("Lifts asked for (mm)."),
  ground: z.object({ along: z.number(), across: z.number(), worstResidual: z.number() }),
  power: z.object({ receptacle: z.number(), through: z.string().nullable(), supplyVa: z.number(), usableVa: z.number(), runs: z.array(z.string()), shed: z.array(z.string()) }).nullable(),
  vehicle: z.string().nullable().describe("A stall's id, in line, hitched, overflow, no, or null."),
  leftIn: z.array(z.string()).describe("Parts that have to stay in."),
  conflicts: z.array(conflict),
  remedies: z.array(remedy).describe("What would turn a no, easiest first; at most two changes together. Empty where a call asks about more than 200 sites."),
  asks: z.array(z.object({ field: z.string().describe("Such as rig.inlets.2.u."), turnsAt: z.number(), below: verdict, above: verdict, text: z.string() })).describe("Measurements that are not known and decide the verdict."),
  access: z.object({
    state: z.enum(["found", "not-found", "no"]).describe("not-found: no way in was found, which proves nothing; staff to check on the ground. no: none can lead to any place on the pad, and the verdict is no."),
    from: z.enum(["left", "right"]).nullable().describe("From which side one comes, seen from the road looking onto the site."),
    sight: z.enum(["sight", "blind"]).nullable().describe("Whether the rig turns to the side the driver looks at."),
    room: z.number().nullable().describe("The least room on the way (mm)."),
  }).nullable().describe("The way in. Null where nobody has measured it, where the rig fits nowhere on the site, and in long answers beyond the first 100 sites. Where none leads to the roomiest pose, the answer stands at another that is reached."),
  bring: z.array(bring.extend({ text: z.string() })),
  reasons: z.array(reason),
});

export const resultSchemas = {
  Answer: z.object({ results: z.array(result) }),
  Refusal: z.object({ error: z.string(), faults: z.array(z.object({ path: z.string().describe("Such as sites.0.pad.outline; empty for the whole."), message: z.string(), code: z.string().optional().describe("Which rule of stays it breaks, where it is one: such as fit, min-nights or price."), reasons: z.array(z.object({ code: z.string(), text: z.string() })).optional().describe("Of a rig that does not fit: why, most telling first.") })) }),
};
