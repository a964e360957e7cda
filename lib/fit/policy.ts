import { z } from "zod";

const length = (fallback: number, meaning: string) =>
  z.number().min(0).max(100_000).default(fallback).describe(meaning);

/**
 * A park's own settings. Millimetres, per cent, kPa. Every value is a park's to change; local code decides where
 * it asks for more.
 */
export const policySchema = z
  .object({
    touch: length(5, "A pose whose every slack is at least minus this holds: nobody measures a site closer (mm)."),
    clearance: length(150, "Kept in plan between rig and obstacle (mm)."),
    headroom: length(75, "Kept above and below between rig and obstacle (mm)."),
    limbRoom: length(300, "Kept below tree crowns, which sag and grow (mm)."),
    wireRoom: length(1400, "Kept below overhead conductors (mm). From memory of NEC 551.79; local code decides."),
    wireClearance: length(900, "Kept in plan from overhead conductors (mm). From memory of NEC 551.79; local code decides."),
    fireClearance: length(3000, "Kept in plan between an awning and a fire ring (mm)."),
    footing: length(150, "Half a tyre or jack plate: supports stand this far inside the pad's edge (mm)."),
    roadSetback: length(0, "The rig stands this far behind the road edge (mm)."),
    comfort: length(600, "Room beyond this is no better for the driver (mm)."),
    tight: length(150, "A fit with less room than this is flagged tight (mm)."),
    longest: z
      .object({
        power: length(15_000, "Longest power run allowed, whoever owns the cord (mm)."),
        water: length(30_000, "Longest water run allowed (mm)."),
        sewer: length(6_100, "Longest sewer run allowed (mm)."),
      })
      .prefault({}),
    levelWithin: z.number().min(0).max(20).default(0.9).describe("Slope up to this asks for no lift (per cent)."),
    maxLiftSide: length(200, "Most lift that may be brought, side to side (mm)."),
    maxLiftAlong: length(500, "Most lift that may be brought, front to back (mm)."),
    continuous: z.number().gt(0).max(1).default(0.8).describe("Share of a supply that may be loaded for hours (NEC 210.19, 125 % rule)."),
    maxPressure: z.number().min(0).max(5000).default(552).describe("Static water pressure above this wants a regulator (kPa). UPC 608.2, 80 psi."),
    overflow: z.boolean().default(true).describe("The park has overflow parking for vehicles that do not fit on the site."),
    underBody: z
      .array(z.enum(["power", "water", "sewer"]))
      .default(["power", "water", "sewer"])
      .describe("Services whose lines may run straight under the rig."),
    keepAccessible: z.boolean().default(true).describe("Accessible sites are kept for guests who need one."),
  })
  .describe("A park's own settings for what counts as a fit.");

export type Policy = z.infer<typeof policySchema>;
/** What a caller may send: any value left out takes its default. */
export type PolicyInput = z.input<typeof policySchema>;

export const defaultPolicy: Policy = policySchema.parse({});
