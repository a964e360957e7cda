import { readFileSync } from "node:fs";
import path from "node:path";
import { expect, type APIRequestContext, type TestInfo } from "@playwright/test";
import { addDays, asDate, dateOfDay, dayNumber } from "@/lib/stays/dates";

const seed = path.join(import.meta.dirname, "../../seed/quillback-meadow");
const { rigs } = JSON.parse(readFileSync(path.join(seed, "rigs.json"), "utf8")) as { rigs: { rig: { id: string } }[] };

export interface Opened {
  readonly id: string;
  readonly arrive: string;
  readonly depart: string;
  readonly token: string;
  readonly cancel: () => Promise<void>;
}

/** The demo park's rig of that id, as its record. */
export function demoRig(id = "demo-tt-31"): { id: string } {
  return rigs.find(({ rig }) => rig.id === id)!.rig;
}

/** Nights that only this test of this project uses: a slot of five nights in the next year, told by its number. */
export function nightsOf(info: TestInfo, slot: number, count = 2): { arrive: string; depart: string } {
  const today = dayNumber(asDate(new Date().toISOString().slice(0, 10)));
  const arrive = dateOfDay(today + 40 + (slot % 30) * 10 + (info.project.name === "phone" ? 0 : 5));
  return { arrive, depart: addDays(arrive, count) };
}

/** Books stays as guests do, over the interface; each can be canceled by its own link when the test is over. */
export async function openStays(request: APIRequestContext, info: TestInfo, slot: number, wanted: readonly { readonly site: string; readonly name: string; readonly rig?: string }[]): Promise<Opened[]> {
  const nights = nightsOf(info, slot);
  const opened: Opened[] = [];
  for (const { site, name, rig } of wanted) {
    const answer = await request.post("/api/stays", { data: { park: "quillback-meadow", ...nights, site, rig: demoRig(rig), guest: { name, phone: "555 010 0000" } } });
    expect(answer.status(), await answer.text()).toBe(201);
    const { stay, link } = (await answer.json()) as { stay: { id: string }; link: { token: string } };
    const cancel = async () => {
      await request.patch(`/api/stays/${stay.id}`, { data: { state: "cancelled" }, headers: { Authorization: `Bearer ${link.token}` } });
    };
    opened.push({ id: stay.id, ...nights, token: link.token, cancel });
  }
  return opened;
}
