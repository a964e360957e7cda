import { rigSchema, type Rig } from "@/lib/rig";
import { client } from "./client";
import { inStore } from "./errors";

/** A rig that a park keeps at hand to try sites with. */
export interface KeptRig {
  readonly id: string;
  readonly name: string;
  readonly note: string | null;
  readonly rig: Rig;
}

/** The rigs a park keeps, in its own order; none where there is no such park. */
export async function listRigs(parkSlug: string): Promise<KeptRig[]> {
  const rows = await inStore(() =>
    client().rig.findMany({
      where: { park: { slug: parkSlug } },
      orderBy: [{ position: "asc" }, { rigId: "asc" }],
      select: { rigId: true, name: true, note: true, record: true },
    }),
  );
  return rows.map(({ rigId, name, note, record }) => ({ id: rigId, name, note, rig: rigSchema.parse(record) }));
}
