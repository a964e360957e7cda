import { z } from "zod";

/** A stay put on a site in spite of what the fit says, by a person who answers for it. Kept with the stay until its site or rig changes. */
export const fitOverrideSchema = z.object({
  verdict: z.enum(["fits", "gear", "ask", "unsettled", "no"]),
  /** The reasons' codes as the fit gave them then. */
  codes: z.array(z.string()),
  why: z.string("must be a text").trim().min(1, "say why, so that whoever is there when they arrive knows").max(500, "must not be longer than 500 letters"),
});

export type FitOverride = z.infer<typeof fitOverrideSchema>;
