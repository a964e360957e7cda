"use server";

import { headers } from "next/headers";
import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import { readCalendarNow } from "@/lib/jobs/read-calendars";
import { issueFeed, revokeFeed } from "@/lib/store/calendars";
import { StoreError } from "@/lib/store/errors";
import { addOutsideCalendar, removeOutsideCalendar } from "@/lib/store/outside-calendars";
import { listSites } from "@/lib/store/sites";
import { manageCalendars as words } from "@/lib/wording/en/manage-calendars";
import { linkBase } from "../../link-base";
import { requireManager } from "../../staff-session";
import type { CalendarFormState } from "./calendar-form";
import { addressOf, readFeedFields, readOutsideFields } from "./read-fields";

const page = "/manage/calendars";

/** An address to hand over, in the answer to this one request and nowhere else. */
export async function issueAction(state: CalendarFormState, form: FormData): Promise<CalendarFormState> {
  const { actor } = await requireManager();
  const labels = await siteLabels(actor.park);
  const { values, faults } = readFeedFields(form, new Set(labels.keys()));
  if (Object.keys(faults).length > 0) return refuse(state, values, faults);
  const { site, name } = values as { site: string; name: string };
  const token = await issueFeed(actor, actor.park, site, name);
  revalidatePath(page);
  return { turn: state.turn + 1, link: { url: `${linkBase(await headers())}/calendar/${token}.ics`, about: words.feeds.linkAbout(labels.get(site) ?? site, name) } };
}

/** Adds it and reads it at once; what came of that stands in the list. */
export async function addAction(state: CalendarFormState, form: FormData): Promise<CalendarFormState> {
  const { actor } = await requireManager();
  const { values, faults } = readOutsideFields(form, new Set((await siteLabels(actor.park)).keys()));
  if (Object.keys(faults).length > 0) return refuse(state, values, faults);
  const { site, name, url } = values as { site: string; name: string; url: string };
  const id = await addOutsideCalendar(actor, actor.park, site, { name, url: addressOf(url) });
  await readCalendarNow(actor, actor.park, id);
  redirect(`${page}?said=added`);
}

export async function revokeAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  await tryTo(() => revokeFeed(actor, actor.park, idOf(form)), "ended");
}

export async function removeAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  await tryTo(() => removeOutsideCalendar(actor, actor.park, idOf(form)), "removed");
}

export async function readNowAction(form: FormData): Promise<void> {
  const { actor } = await requireManager();
  await tryTo(() => readCalendarNow(actor, actor.park, idOf(form)), "read");
}

/** Back to the lists, with a word on what was done, or that there was nothing to do it to. */
async function tryTo(work: () => Promise<void>, said: keyof typeof words.said): Promise<never> {
  let answer = `?said=${said}`;
  try {
    await work();
  } catch (error) {
    if (!(error instanceof StoreError) || error.kind !== "missing") throw error;
    answer = "?refused=gone";
  }
  redirect(`${page}${answer}`);
}

function refuse({ turn }: CalendarFormState, values: CalendarFormState["values"], faults: CalendarFormState["faults"]): CalendarFormState {
  return { turn: turn + 1, values: values!, faults: faults!, summary: words.faults.summary };
}

async function siteLabels(park: string): Promise<Map<string, string>> {
  return new Map((await listSites(park)).map(({ id, label }) => [id, label ?? id]));
}

function idOf(form: FormData): string {
  return z.uuid().parse(form.get("id"));
}
