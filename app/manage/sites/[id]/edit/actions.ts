"use server";

import { siteSchema } from "@/lib/park";
import { settleSurvey } from "@/lib/park/edit/survey";
import type { Draft } from "@/lib/park/edit/record";
import { getRevision, getSiteAt } from "@/lib/store/site-changes";
import { createDraft } from "@/lib/store/site-drafts";
import { errorSaid } from "@/lib/survey/tolerances";
import { staffSession } from "../../../../staff-session";
import { dateOf } from "../../../age";
import { initialsOf } from "../../../initials";

/** How whoever edits knows the new numbers of a surveyed site. */
export type Knowing = "tape" | "from-plan" | "estimated";

export interface Proposed {
  readonly siteId: string;
  readonly base: number | null;
  readonly record: unknown;
  readonly knowing: Knowing | null;
}

export type ProposeAnswer = { readonly ok: true; readonly address: string; /** Where editing goes on. */ readonly edit: string } | { readonly ok: false; /** Nobody is signed in who may. */ readonly gone: boolean };

/** No record of a site is larger, bytes: some hundred times the largest of the demo park. */
const LARGEST = 900_000;

/** Keeps an edited record to be looked at, and says where. What is wrong with it keeps it out, as in the editor. */
export async function proposeChange({ siteId, base, record, knowing }: Proposed): Promise<ProposeAnswer> {
  const session = await staffSession();
  if (session?.actor.kind !== "manager") return { ok: false, gone: true };
  const { actor } = session;
  const sound = typeof siteId === "string" && (base === null || Number.isInteger(base)) && JSON.stringify(record ?? null).length < LARGEST && siteSchema.safeParse(record).success;
  if (!sound) return { ok: false, gone: false };
  const before = await getSiteAt(actor, siteId);
  const edited = record as Draft;
  const how = knowing === "tape" || knowing === "estimated" ? knowing : "from-plan";
  // Held against what the editing began from: what somebody saved since is theirs to say, and is put together with this later.
  const began = base === null ? null : ((await getRevision(actor, siteId, base))?.record ?? before?.record ?? null);
  const settled = began ? settleSurvey(began, edited, knowing === null ? null : { how, error: (of, value) => errorSaid(how, of, value), on: dateOf(new Date()), by: initialsOf(session.name) }) : edited;
  const id = await createDraft(actor, { siteId, base, record: settled, cause: base === null && !before ? "copy" : "edit" });
  const here = `/manage/sites/${encodeURIComponent(siteId)}`;
  return { ok: true, address: `${here}/change?draft=${id}`, edit: `${here}/edit?draft=${id}` };
}
