import { readFileSync } from "node:fs";
import path from "node:path";
import { z } from "zod";
import { policySchema } from "@/lib/fit/policy";
import { unitSystems } from "@/lib/measure";
import { siteSchema } from "@/lib/park";
import { rigSchema } from "@/lib/rig";
import { rateCardSchema, staySettingsSchema } from "@/lib/stays";
import { client } from "./client";
import { inStore } from "./errors";
import type { Prisma, PrismaClient } from "./generated/client";
import { actAs } from "./stays-transaction";

/** The three files of a park in the open format, as parsed JSON. */
export interface ParkFiles {
  readonly park: unknown;
  readonly sites: unknown;
  readonly rigs: unknown;
}

export interface LoadedPark {
  readonly slug: string;
  readonly name: string;
  readonly sites: number;
  readonly rigs: number;
}

/** Everything wrong with a park's files at once, each fault with its file and the path of the field. */
export class ParkFaults extends Error {
  override readonly name = "ParkFaults";
  constructor(readonly faults: readonly string[]) {
    super(`The park's files hold ${faults.length} fault(s), nothing was saved:\n${faults.map((fault) => `  ${fault}`).join("\n")}`);
  }
}

const parkFile = z.object({
  slug: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be small letters, digits and single hyphens"),
  name: z.string().min(1, "needs a name"),
  units: z.enum(unitSystems, `must be ${unitSystems.join(" or ")}`).default("ft-in"),
  policy: policySchema.prefault({}),
  staySettings: staySettingsSchema.prefault({}),
  rates: rateCardSchema.nullable().default(null),
});

const sitesFile = z.object({
  measuredOn: z.iso.date("must be a date such as 2026-04-12").optional(),
  sites: z.array(siteSchema, "must be a list of sites").check(noRepeats((site) => site.id)),
});

const rigsFile = z.object({
  rigs: z
    .array(z.object({ name: z.string().min(1, "needs a name"), note: z.string().optional(), rig: rigSchema }), "must be a list of rigs")
    .check(noRepeats((entry) => entry.rig.id)),
});

/** Reads `park.json`, `sites.json` and `rigs.json` of `folder`. */
export function readParkFiles(folder: string): ParkFiles {
  const read = (name: string): unknown => {
    const file = path.join(folder, name);
    try {
      return JSON.parse(readFileSync(file, "utf8"));
    } catch (error) {
      throw new ParkFaults([`${name}: ${error instanceof SyntaxError ? `is not JSON (${error.message})` : `cannot be read at ${file}`}`]);
    }
  };
  return { park: read("park.json"), sites: read("sites.json"), rigs: read("rigs.json") };
}

/**
 * Puts a park with its sites and rigs into the database: all of it or, where anything is wrong, none of it. Records
 * are kept as they came in, whatever else they carry. A slug that is there already is refused (`taken`).
 */
export async function loadPark(files: ParkFiles, database: PrismaClient = client()): Promise<LoadedPark> {
  const park = parkFile.safeParse(files.park);
  const sites = sitesFile.safeParse(files.sites);
  const rigs = rigsFile.safeParse(files.rigs);
  if (!park.success || !sites.success || !rigs.success) {
    throw new ParkFaults([...faultsOf("park.json", park), ...faultsOf("sites.json", sites), ...faultsOf("rigs.json", rigs)]);
  }
  const { slug, name, units } = park.data;
  const rawSites = (files.sites as { sites: Prisma.InputJsonObject[] }).sites;
  const rawRigs = (files.rigs as { rigs: { rig: Prisma.InputJsonObject }[] }).rigs;
  const rawPark = files.park as Prisma.InputJsonObject & { policy?: Prisma.InputJsonObject; staySettings?: Prisma.InputJsonObject };
  const measuredOn = sites.data.measuredOn ? new Date(sites.data.measuredOn) : null;

  await inStore(() =>
    database.$transaction(async (tx) => {
      const { id: parkId } = await tx.park.create({
        data: { slug, name, units, policy: rawPark.policy ?? {}, staySettings: rawPark.staySettings ?? {}, record: rawPark },
      });
      // Rates and sites are kept with who brought them, like every change after: nobody's doing but the file's.
      await actAs(tx, { kind: "clock" }, "loaded with the park");
      if (park.data.rates) await tx.rateCard.create({ data: { parkId, number: 1, record: park.data.rates as unknown as Prisma.InputJsonObject } });
      await tx.site.createMany({
        data: sites.data.sites.map((site, position) => ({
          parkId,
          siteId: site.id,
          label: site.label ?? site.id,
          loop: site.loop ?? null,
          record: rawSites[position]!,
          measuredOn,
          position,
        })),
      });
      await tx.rig.createMany({
        data: rigs.data.rigs.map((entry, position) => ({
          parkId,
          rigId: entry.rig.id,
          name: entry.name,
          note: entry.note ?? null,
          record: rawRigs[position]!.rig,
          position,
        })),
      });
    }, { timeout: 60_000 }),
  );
  return { slug, name, sites: sites.data.sites.length, rigs: rigs.data.rigs.length };
}

function faultsOf(file: string, result: z.ZodSafeParseResult<unknown>): string[] {
  if (result.success) return [];
  return result.error.issues.map((issue) => `${file}: ${issue.path.join(".") || "the file"} ${issue.message}`);
}

/** A check that no two items share an id. */
function noRepeats<T>(idOf: (item: T) => string) {
  return (ctx: z.core.ParsePayload<T[]>): void => {
    const seen = new Set<string>();
    ctx.value.forEach((item, i) => {
      const id = idOf(item);
      if (seen.has(id)) ctx.issues.push({ code: "custom", input: ctx.value, path: [i], message: `repeats the id "${id}"` });
      seen.add(id);
    });
  };
}
