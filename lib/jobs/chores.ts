import { forgetOldUploads } from "@/lib/store/inventory-uploads";
import { listParks } from "@/lib/store/parks";
import { releaseRunOut } from "@/lib/store/stays";
import { keepDoing, type Chore } from "./chores-loop";
import { readDueCalendars } from "./read-calendars";
import { sendDueMail } from "./send-mail";
import { tellOfSiteChanges } from "./site-effects";

/** For how long after a hold or request ran out its guest may still book, while nobody else wants the nights: minutes. */
const grace = 60;

/** All that happens by itself. No guest is marked as not come: that is the desk's to say. */
export const chores: readonly Chore[] = [
  { name: "release what ran out", every: 30_000, run: releaseEverywhere },
  { name: "read calendars", every: 30_000, run: async (stop) => void (await readDueCalendars(stop)) },
  { name: "send mail", every: 5_000, run: async (stop) => void (await sendDueMail(stop)) },
  { name: "tell of changed sites", every: 5_000, run: async (stop) => void (await tellOfSiteChanges(stop)) },
  { name: "forget files that nobody read in", every: 600_000, run: forgetOldUploads },
];

/** Survives the reloading of modules in development. Whoever ends the process calls it: scripts/serve.mjs. */
const kept = globalThis as typeof globalThis & { padwrightStopChores?: () => Promise<void> };

/** Begins with all chores, once a process. */
export function startChores(): void {
  kept.padwrightStopChores ??= keepDoing(chores);
}

async function releaseEverywhere(stop: AbortSignal): Promise<void> {
  for (const { slug } of await listParks()) {
    if (stop.aborted) return;
    await releaseRunOut(slug, grace);
  }
}
