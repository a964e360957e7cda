"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { StoreError } from "@/lib/store/errors";
import { changeSites, listSitesAt } from "@/lib/store/site-changes";
import { siteEditor } from "@/lib/wording/en/site-editor";
import { requireManager } from "../../../../../staff-session";
import { paramsOf } from "../../../../../components/rig-form/params";
import { giveTo, readChosen } from "./chosen";

const LONGEST_WHY = 300;

/** Saves what was looked at, all of it or nothing: the source and every site have to be at the version that was shown. */
export async function giveAction(from: string, form: FormData): Promise<void> {
  const { actor } = await requireManager();
  const here = `/manage/sites/${encodeURIComponent(from)}/edit/loop`;
  const sites = await listSitesAt(actor);
  const source = sites.get(from);
  const address = new URLSearchParams([...form].flatMap(([name, value]) => (typeof value === "string" && (name === "part" || name === "to") ? [[name, value]] : [])));
  const chosen = readChosen(paramsOf(address), new Set(sites.keys()));
  address.set("look", "yes");
  if (!source) redirect("/manage");
  const shown = new Map(form.getAll("at").map((entry) => { const [version, ...id] = String(entry).split(" "); return [id.join(" "), Number(version)] as const; }));
  const given = giveTo(source.record, sites, chosen).filter(({ changes }) => changes.length > 0);
  if (given.length === 0) redirect(`${here}?${address}`);
  const stale = shown.get(from) !== source.version;
  if (stale) redirect(`${here}?${address}&stale=yes#found`);
  try {
    const why = String(form.get("why") ?? "").trim().slice(0, LONGEST_WHY);
    await changeSites(actor, given.map(({ siteId, after }) => ({ siteId, base: shown.get(siteId) ?? -1, record: after })), { cause: "copy", why: why || siteEditor.loop.title(source.record.label ?? from) });
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    redirect(`${here}?${address}&${error.kind === "stale" ? "stale" : "refused"}=yes#found`);
  }
  revalidatePath("/", "layout");
  redirect(`${here}?saved=${given.length}`);
}
