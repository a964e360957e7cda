import { z } from "zod";
import { across, repeatedIds, unitSystems } from "@/lib/measure";
import { siteSchema } from "@/lib/park";
import { rigSchema } from "@/lib/rig";
import type { Unknowns } from "./fit-site";
import { policySchema } from "./policy";
import { takeUnknowns, withNumbers } from "./unknowns";

/** More sites than this in one call would hold up everybody else; ask again with the rest. */
export const MAX_SITES_PER_CALL = 2000;

/** Above so many sites an answer leaves out what would turn each refusal: it would take too long. */
export const MAX_SITES_WITH_REMEDIES = 200;

const slug = z.string("must be the short name of a park").regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be a park's short name: small letters, digits and hyphens").max(80);

/** What is asked: some sites (or the stored sites of a park), a rig, and how strict the park is. */
export const fitRequestSchema = z
  .object({
    sites: z.array(siteSchema, "must be a list of sites").max(MAX_SITES_PER_CALL).optional().describe(`The sites to judge, at most ${MAX_SITES_PER_CALL} in one call. Or give park.`),
    park: slug.optional().describe("The short name of a stored park, in place of sites."),
    rig: rigSchema,
    policy: policySchema.prefault({}),
    units: z.enum(unitSystems, "must be ft-in or metric").default("ft-in").describe("Units of the sentences in the answer. Data is always in millimetres."),
  }, "must be an object: { sites, rig } or { park, rig }")
  .check(across((request, fault) => {
    if (request.sites !== undefined && request.park !== undefined) fault(["park"], "give sites or park, not both");
    if (request.sites === undefined && request.park === undefined) fault(["sites"], "must be a list of sites, or give park");
    for (const { at, id } of repeatedIds(request.sites)) fault(["sites", at, "id"], `"${id}" is already the id of another site in this list`);
  }));

export type FitRequest = z.infer<typeof fitRequestSchema>;
export type FitRequestInput = z.input<typeof fitRequestSchema>;

/** One thing that is wrong: where it stands (`sites.0.pad.outline`, or empty for the whole) and what it should be. */
export interface Fault {
  readonly path: string;
  readonly message: string;
}

export type ParsedFitRequest = { readonly ok: true; readonly request: FitRequest; readonly unknowns: Unknowns } | { readonly ok: false; readonly faults: readonly Fault[] };

/** The one way in for the pages, the interface and the command line: every fault at once, or a request. */
export function parseFitRequest(value: unknown): ParsedFitRequest {
  const tooMany = countFault(value);
  if (tooMany) return { ok: false, faults: [tooMany] };
  const taken = takeAll(value);
  const parsed = fitRequestSchema.safeParse(taken.value);
  const early = [...taken.faults, ...endFaults(taken)];
  const faults = [...early, ...(parsed.success ? [] : faultsOf(parsed.error).filter(({ path }) => !early.some((f) => f.path === path)))];
  return parsed.success && faults.length === 0 ? { ok: true, request: parsed.data, unknowns: taken.unknowns } : { ok: false, faults };
}

/** More numbers than this unknown in one record would take minutes to look into, and say that it was not measured. */
const MAX_UNKNOWN = 100;

interface TakenAll {
  readonly value: unknown;
  readonly unknowns: Unknowns;
  readonly faults: readonly Fault[];
  /** Of each record with numbers that are not known: where it stands in the request, and what its schema reads with all at their least and at their most. */
  readonly ranged: readonly { readonly path: string; readonly unknowns: Unknowns["rig"]; readonly read: (record: unknown) => z.ZodError | undefined; readonly record: unknown }[];
}

/** Both ends of a range have to be such as the field takes. What fields say of each other is asked of the likely numbers only. */
function endFaults({ ranged }: TakenAll): Fault[] {
  return ranged.flatMap(({ path, unknowns, read, record }) => {
    const inRequest = (field: string) => field.replace(/^(rig|site)/, path);
    if (unknowns.length > MAX_UNKNOWN) return [{ path, message: `has ${unknowns.length} numbers that are not known: at most ${MAX_UNKNOWN}` }];
    const ends = [unknowns.map(({ field, min }) => [field, min] as const), unknowns.map(({ field, max }) => [field, max] as const)];
    const faults = ends.flatMap((numbers) => {
      const issues = read(withNumbers(record, numbers))?.issues ?? [];
      return issues.flatMap(({ code, path: steps, message }) => {
        const unknown = unknowns.find(({ field }) => field.split(".").slice(1).join(".") === steps.map(String).join("."));
        return unknown && code !== "custom" ? [{ path: inRequest(unknown.field), message }] : [];
      });
    });
    return faults.filter((fault, i) => faults.findIndex((other) => other.path === fault.path) === i);
  });
}

/** Numbers that are not known, taken out of the rig and every site before the schema reads the rest. */
function takeAll(value: unknown): TakenAll {
  if (typeof value !== "object" || value === null) return { value, unknowns: { rig: [], sites: {} }, faults: [], ranged: [] };
  const { rig, sites } = value as { rig?: unknown; sites?: unknown };
  const ofRig = takeUnknowns(rig, "rig");
  const ofSites = Array.isArray(sites) ? sites.map((site: unknown) => takeUnknowns(site, "site")) : null;
  const named = ofSites?.flatMap((taken) => {
    const { id } = (taken.value ?? {}) as { id?: unknown };
    return typeof id === "string" && taken.unknowns.length > 0 ? [[id, taken.unknowns] as const] : [];
  });
  const records = [{ path: "rig", taken: ofRig, schema: rigSchema }, ...(ofSites ?? []).map((taken, i) => ({ path: `sites.${i}`, taken, schema: siteSchema }))];
  return {
    ranged: records.filter(({ taken }) => taken.unknowns.length > 0).map(({ path, taken, schema }) => ({ path, unknowns: taken.unknowns, record: taken.value, read: (record) => schema.safeParse(record).error })),
    value: { ...value, ...(rig === undefined ? {} : { rig: ofRig.value }), ...(ofSites ? { sites: ofSites.map((taken) => taken.value) } : {}) },
    unknowns: { rig: ofRig.unknowns, sites: Object.fromEntries(named ?? []) },
    faults: [...ofRig.faults, ...(ofSites ?? []).flatMap((taken, i) => taken.faults.map((f) => ({ ...f, path: f.path.replace(/^site/, `sites.${i}`) })))],
  };
}

/** A schema's complaints as data a caller can act on. */
export function faultsOf(error: z.ZodError): Fault[] {
  return error.issues.map(({ path, message }) => ({ path: path.map(String).join("."), message }));
}

/** Told before anything else is read, so that a list far too long costs nothing. */
function countFault(value: unknown): Fault | null {
  const sites: unknown = typeof value === "object" && value !== null && "sites" in value ? value.sites : null;
  if (!Array.isArray(sites) || sites.length <= MAX_SITES_PER_CALL) return null;
  return { path: "sites", message: `at most ${MAX_SITES_PER_CALL} sites in one call, got ${sites.length}` };
}
