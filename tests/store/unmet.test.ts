import { describe, expect, it } from "vitest";
import { nights, wantedSchema } from "@/lib/stays";
import { answerUnmet, leaveWord, listUnmet, recordUnmet, type UnmetAsk } from "@/lib/store/unmet";
import { withStore } from "./client";
import type { Actor } from "@/lib/store/stays-actor";
import { ask as stayAsk, day, desk, guest, manager, openPark, park, refusal } from "./stays-park";

withStore();

const otherDesk: Actor = { kind: "desk", account: "desk-one", park: "elsewhere" };
const nobody = { kind: "guest", link: null } as const;
const asked = (from: number, count: number, more: Partial<UnmetAsk> = {}): UnmetAsk => ({
  nights: nights(day(from), day(from + count)),
  rig: stayAsk(5, 2).rig,
  wanted: wantedSchema.parse({}),
  reasons: { taken: 2, turnedAway: { stand: 3, "reach:sewer": 1 } },
  ...more,
});
const ada = { name: "Ada Example", email: "ada@example.org", phone: undefined, plate: undefined };
const bob = { name: "Bob Example", email: undefined, phone: "555 010 0123", plate: undefined };

describe("a request that found nothing", () => {
  it("is kept once a day, counted, with what it last met", async () => {
    await openPark();
    expect(await recordUnmet(nobody, park, asked(5, 2))).toBe(true);
    await recordUnmet(nobody, park, asked(5, 2, { reasons: { taken: 3, turnedAway: { stand: 2 } } }));
    await recordUnmet(nobody, park, asked(5, 3));
    await recordUnmet(nobody, park, asked(5, 2, { wanted: wantedSchema.parse({ loop: "A" }) }));
    const kept = await listUnmet(manager, park);
    expect(kept.map(({ nights: { depart }, wanted: { loop }, times }) => [depart, loop ?? null, times]).sort()).toEqual([[day(7), null, 2], [day(7), "A", 1], [day(8), null, 1]].sort());
    expect(kept.find(({ times }) => times === 2)).toMatchObject({ reasons: { taken: 3, turnedAway: { stand: 2 } }, guest: null, answeredAt: null, note: "" });
  });

  it("sent many times at once is still one", async () => {
    await openPark();
    await Promise.all(Array.from({ length: 8 }, () => recordUnmet(nobody, park, asked(5, 2))));
    expect((await listUnmet(desk, park)).map(({ times }) => times)).toEqual([8]);
  });
});

describe("word that a guest left", () => {
  it("joins the request without a name, and replaces what they left before", async () => {
    await openPark();
    await recordUnmet(nobody, park, asked(5, 2));
    const first = await leaveWord(nobody, park, asked(5, 2), ada, "Any loop will do");
    expect(await leaveWord(nobody, park, asked(5, 2), ada, "Loop A would be best")).toBe(first);
    await recordUnmet(nobody, park, asked(5, 2));
    expect(await listUnmet(desk, park)).toMatchObject([{ id: first, times: 2, guest: { name: "Ada Example", email: "ada@example.org" }, note: "Loop A would be best" }]);
  });

  it("by another guest with the same rig and nights is one of its own", async () => {
    await openPark();
    const [first, second] = [await leaveWord(nobody, park, asked(5, 2), ada), await leaveWord(nobody, park, asked(5, 2), bob)];
    expect(first).not.toBe(second);
    expect(await leaveWord(nobody, park, asked(5, 2), bob, "again")).toBe(second);
    expect((await listUnmet(desk, park, { withWord: true })).map(({ guest: who }) => who?.name).sort()).toEqual(["Ada Example", "Bob Example"]);
  });

  it("is answered once, by who answered it first", async () => {
    await openPark();
    const id = await leaveWord(nobody, park, asked(5, 2), ada);
    await recordUnmet(nobody, park, asked(9, 2));
    await answerUnmet(desk, park, id);
    const [before] = (await listUnmet(manager, park)).filter((one) => one.id === id);
    await answerUnmet(manager, park, id);
    const [after] = (await listUnmet(manager, park)).filter((one) => one.id === id);
    expect(before!.answeredAt).not.toBeNull();
    expect(after).toEqual(before);
    expect(await listUnmet(manager, park, { open: true, withWord: true })).toEqual([]);
    expect(await listUnmet(manager, park, { open: true })).toHaveLength(1);
  });
});

it("is nothing for a guest or another park's staff to see or answer", async () => {
  await openPark();
  const id = await leaveWord(nobody, park, asked(5, 2), ada);
  for (const actor of [guest, otherDesk]) {
    expect(await refusal(listUnmet(actor, park))).toMatchObject({ kind: "missing" });
    expect(await refusal(answerUnmet(actor, park, id))).toMatchObject({ kind: "missing" });
  }
  for (const wrong of ["x", "00000000-0000-4000-8000-000000000000"]) expect(await refusal(answerUnmet(desk, park, wrong))).toMatchObject({ kind: "missing" });
});
