import type { StayLine } from "@/lib/exchange";
import { rigSchema } from "@/lib/rig";
import { client } from "./client";
import { inStore } from "./errors";
import type { Manager } from "./site-changes";
import { requireStaff } from "./stays-actor";

/** Every stay of the park, first arrival first, for managers; sites that are only held while a form is filled in are left out. */
export async function listStayLines(actor: Manager): Promise<StayLine[]> {
  requireStaff(actor, actor.park, ["manager"]);
  const rows = await inStore(() => client().stay.findMany({ where: { park: { slug: actor.park }, state: { not: "held" } }, orderBy: [{ arrive: "asc" }, { reference: "asc" }], include: { site: { select: { siteId: true } } } }));
  return rows.map((row) => {
    const rig = rigSchema.safeParse(row.rig).data;
    return {
      reference: row.reference, state: row.state, arrive: row.arrive.toISOString().slice(0, 10), depart: row.depart.toISOString().slice(0, 10), site: row.site?.siteId ?? "",
      guest: row.guestName ?? "", email: row.guestEmail ?? "", phone: row.guestPhone ?? "", plate: row.plate ?? "",
      rigKind: rig?.kind ?? "", rigLength: rig ? rig.body.length + (rig.hitch?.length ?? 0) : null, note: row.note,
    };
  });
}
