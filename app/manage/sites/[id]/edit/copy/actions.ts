"use server";

import { redirect } from "next/navigation";
import { copySite } from "@/lib/park/edit/copy";
import { listSitesAt } from "@/lib/store/site-changes";
import { createDraft } from "@/lib/store/site-drafts";
import { siteEditor } from "@/lib/wording/en/site-editor";
import { requireManager } from "../../../../../staff-session";

const { copy: words } = siteEditor;

/** What is typed for a copy, and what is wrong with it, each beside its field. */
export interface Copying {
  readonly id: string;
  readonly label: string;
  readonly loop: string;
  readonly mirrored: boolean;
  readonly faults: { readonly id?: string; readonly label?: string; readonly loop?: string };
}

const LONGEST = 80;

/** Makes a new site of the one named by `from`, to be looked at before it is saved. */
export async function copySiteAction(from: string, _before: Copying, form: FormData): Promise<Copying> {
  const { actor } = await requireManager();
  const text = (name: string) => String(form.get(name) ?? "").trim();
  const id = text("id"), label = text("label"), loop = text("loop"), mirrored = form.get("mirrored") === "yes";
  const sites = await listSitesAt(actor);
  const source = sites.get(from)?.record;
  if (!source) redirect("/manage");
  const labels = [...sites.values()].filter(({ retired }) => !retired).map(({ record }) => record.label?.toLowerCase());
  const faults = {
    ...(id === "" ? { id: words.idEmpty } : !/^[A-Za-z0-9-]{1,40}$/.test(id) ? { id: words.idForm } : sites.has(id) ? { id: words.idTaken(id) } : {}),
    ...(label === "" ? { label: words.labelEmpty } : label.length > LONGEST ? { label: words.labelLong } : labels.includes(label.toLowerCase()) ? { label: words.labelTaken(label) } : {}),
    ...(loop.length > LONGEST ? { loop: words.labelLong } : {}),
  };
  if (Object.keys(faults).length > 0) return { id: id.slice(0, 2 * LONGEST), label: label.slice(0, 2 * LONGEST), loop: loop.slice(0, 2 * LONGEST), mirrored, faults };
  const record = copySite(source, { id, label, loop: loop === "" ? null : loop, mirrored });
  const draft = await createDraft(actor, { siteId: id, base: null, record, cause: "copy" });
  redirect(`/manage/sites/${encodeURIComponent(id)}/change?draft=${draft}`);
}
