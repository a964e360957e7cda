import { revalidatePath } from "next/cache";
import type { StaffActor } from "../../staff-session";
import { requireDesk } from "../../staff-session";
import { NightsTaken, StayRefused, StoreError } from "@/lib/store/errors";
import { getSiteLabel } from "@/lib/store/sites";
import { catalogueOf } from "@/lib/wording";
import type { Acted } from "./act-form";
import type { Typed } from "./kept-fields";

const { stays: words, deskStays: { faults: told } } = catalogueOf();

/** Runs what a form of the desk asks for, as whoever is signed in, and turns every refusal into sentences, with what was typed. */
export async function acting(form: FormData, work: (actor: StaffActor) => Promise<Acted>): Promise<Acted> {
  const { actor } = await requireDesk();
  try {
    const acted = await work(actor);
    revalidatePath("/desk", "layout");
    return acted.faults.length > 0 || acted.confirm ? { ...acted, typed: typedIn(form) } : acted;
  } catch (error) {
    return { ...refused(await sentencesOf(error, actor.park)), typed: typedIn(form) };
  }
}

/** No field of the desk may hold more. */
const longestField = 2000;

/** The fields a person filled in; what the framework sends along is its own. */
function typedIn(form: FormData): Typed {
  return Object.fromEntries([...form].flatMap(([name, value]) => (typeof value === "string" && !name.startsWith("$") ? [[name, value.slice(0, longestField)]] : [])));
}

/** Why the store refused it; anything else is no refusal and goes on. */
async function sentencesOf(error: unknown, parkSlug: string): Promise<string[]> {
  if (error instanceof NightsTaken) return [told.taken(await getSiteLabel(parkSlug, error.site), error.free.length)];
  if (error instanceof StayRefused) return error.faults.map(words.fault);
  if (error instanceof StoreError && error.kind === "stale") return [told.stale];
  throw error;
}

export function refused(faults: readonly string[]): Acted {
  return { faults, said: null };
}

export function done(said: string, link?: string): Acted {
  return { faults: [], said, ...(link ? { link } : {}) };
}

/** A field of a form as text without blanks around it; empty where it is not there. */
export function textOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value.trim() : "";
}

/** The version the person saw, where the form carries it. */
export function versionOf(form: FormData): { version?: number } {
  const version = Number(textOf(form, "version"));
  return Number.isInteger(version) && version > 0 ? { version } : {};
}
