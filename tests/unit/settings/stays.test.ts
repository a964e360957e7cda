import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { stayChanges } from "@/app/manage/settings/stay-words";
import { draftOf, readDraft, readSettings, type StaysDraft } from "@/app/manage/settings/stays/draft";
import { followsOf } from "@/app/manage/settings/stays/follow";
import { changedSettings, mergeSettings } from "@/app/manage/settings/stays/merge";
import { unitSystems } from "@/lib/measure";
import { defaultStaySettings, staySettingsSchema, type StaySettings } from "@/lib/stays";

const { staySettings } = JSON.parse(readFileSync("seed/quillback-meadow/park.json", "utf8")) as { staySettings: object };
const meadow = staySettingsSchema.parse(staySettings);
const by = { units: "ft-in", places: 2 } as const;

/** The form as a browser sends it. */
function send({ texts }: StaysDraft, more: Record<string, string> = {}): StaysDraft {
  const form = new FormData();
  for (const [name, text] of Object.entries({ ...texts, ...more })) form.set(name, text);
  return readDraft(form);
}

function read(more: Record<string, string>, base: StaySettings = meadow) {
  return readSettings(send(draftOf(base, by), more), base, by);
}

describe("the form of the settings for stays", () => {
  it("gives back what it was filled in with, to the millimeter, in either units", () => {
    const odd = staySettingsSchema.parse({ ...staySettings, lends: [{ id: "cord", name: "Cord", kind: "power-cord", reach: 9141, count: 0 }], cancellation: [{ daysBefore: 0, keep: { kind: "share", basisPoints: 3333 } }, { daysBefore: 7, keep: { kind: "amount", amount: 1 } }], answerHours: 48 });
    for (const settings of [meadow, odd, defaultStaySettings]) {
      for (const units of unitSystems) {
        const again = readSettings(send(draftOf(settings, { ...by, units })), settings, { ...by, units });
        expect(again.faults).toBeNull();
        expect(changedSettings(settings, again.settings!).filter((name) => name !== "cancellation")).toEqual([]);
        expect(again.settings!.cancellation).toEqual(settings.cancellation.toSorted((a, b) => b.daysBefore - a.daysBefore));
      }
    }
  });

  it("takes a new thing to lend, one renamed with its id, and one off the list", () => {
    const { settings } = read({ "thing.0.name": "Long cord", "thing.1.name": "", "thing.7.name": "30 A cord, 25 ft", "thing.7.kind": "power-cord", "thing.7.reach": "25", "thing.7.count": "1" });
    expect(settings?.lends.map(({ id, name }) => [id, name]).filter(([id]) => id?.includes("cord"))).toEqual([["cord-30", "Long cord"], ["30-a-cord-25-ft", "30 A cord, 25 ft"]]);
    expect(settings?.lends.at(-1)?.reach).toBe(7620);
  });

  it("gives no new thing the id of one that is or was there: loans carry it", () => {
    const { settings } = read({ "thing.6.name": "", "thing.7.name": "Blocks", "thing.7.kind": "blocks", "thing.7.count": "2" });
    expect(settings?.lends.at(-1)).toMatchObject({ id: "blocks-2", name: "Blocks" });
  });

  it("keeps no quiet hours where both are empty, and no terms where every line is", () => {
    const empty = Object.fromEntries([0, 1, 2].flatMap((i) => [[`step.${i}.daysBefore`, ""], [`step.${i}.value`, ""]]));
    const { settings } = read({ ...empty, "quiet.from": "", "quiet.to": "", more: " \n\n One. \r\nTwo.\n" });
    expect([settings?.houseRules.quietHours, settings?.cancellation, settings?.houseRules.more]).toEqual([null, [], ["One.", "Two."]]);
  });

  it("tells every fault at once, beside its field", () => {
    const { faults, settings } = read({
      zone: "Mars/North", guestsMay: "hm", holdMinutes: "0", answerHours: "1000", daysAhead: "x", longestStay: "401", checkIn: "25:00", "quiet.to": "", "generators.from": "8",
      "step.0.value": "ten", "step.1.daysBefore": "0", "step.2.value": "101", "thing.0.count": "-1", "thing.2.reach": "far", campfires: "", more: "x".repeat(301),
    });
    expect(settings).toBeNull();
    expect(Object.keys(faults!).toSorted()).toEqual([
      "answerHours", "campfires", "checkIn", "daysAhead", "generators.from", "guestsMay", "holdMinutes", "longestStay", "more", "quiet.to",
      "step.0.value", "step.2.value", "thing.0.count", "thing.2.reach", "zone",
    ]);
  });

  it("asks for a line of 0 days, and for no day twice", () => {
    expect(Object.keys(read({ "step.2.daysBefore": "1", "step.3.daysBefore": "" }).faults!)).toEqual(["step.3.daysBefore"]);
    expect(Object.keys(read({ "step.1.daysBefore": "14" }).faults!)).toEqual(["step.1.daysBefore"]);
  });

  it("passes over fields that are none of its own", () => {
    const form = new FormData();
    form.set("__proto__", "x");
    form.set("step.9999999.value", "1");
    form.set("thing.constructor.name", "y");
    const draft = readDraft(form);
    expect(draft.steps).toBeLessThanOrEqual(100);
    expect(Number.isInteger(draft.things)).toBe(true);
    expect(readSettings(draft, meadow, by).settings).toBeNull();
  });
});

describe("mergeSettings", () => {
  const quiet = (from: string) => ({ ...meadow, houseRules: { ...meadow.houseRules, quietHours: { from, to: "07:00" } } });

  it("puts what I changed on top of what they did, and leaves theirs where I left it", () => {
    const mine = { ...quiet("21:00"), holdMinutes: 30 }, theirs = { ...meadow, longestStay: 14, houseRules: { ...meadow.houseRules, campfires: "never" as const } };
    const { settings, both } = mergeSettings(meadow, mine, theirs);
    expect(settings).toEqual({ ...meadow, holdMinutes: 30, longestStay: 14, houseRules: { ...meadow.houseRules, campfires: "never", quietHours: { from: "21:00", to: "07:00" } } });
    expect(both).toEqual([]);
  });

  it("tells what both changed, unless to the same", () => {
    expect(mergeSettings(meadow, quiet("21:00"), quiet("23:00"))).toMatchObject({ both: ["quietHours"], settings: quiet("21:00") });
    expect(mergeSettings(meadow, quiet("21:00"), quiet("21:00")).both).toEqual([]);
  });

  it("alters none of what it is handed", () => {
    const before = JSON.stringify([meadow, quiet("23:00")]), theirs = quiet("23:00");
    mergeSettings(meadow, quiet("21:00"), theirs);
    expect(JSON.stringify([meadow, theirs])).toBe(before);
  });
});

describe("what follows", () => {
  const nobody = { staysAhead: 0, stock: [] };

  it("says of canceling terms that stays which are booked keep theirs", () => {
    const [line] = followsOf(meadow, { ...meadow, cancellation: [] }, { ...nobody, staysAhead: 3 });
    expect(line).toBe("New terms count for stays that are booked from now on. The 3 stays that are booked now keep the terms that were agreed to.");
  });

  it("names what is lent out beyond what there would be", () => {
    const stock = [{ id: "cord-30", name: "30 A cord, 25 ft", out: 2 }, { id: "dogbone", name: "Adapter", out: 1 }, { id: "hose", name: "Hose", out: 1 }];
    const lends = meadow.lends.flatMap((thing) => (thing.id === "dogbone" ? [] : [thing.id === "cord-30" ? { ...thing, count: 1 } : thing]));
    const lines = followsOf(meadow, { ...meadow, lends }, { ...nobody, stock });
    expect(lines.filter((line) => line.includes("lent out now"))).toEqual([
      "30 A cord, 25 ft: 2 are lent out now, and the list would have 1. Ask for it back, or lend no more until it is back.",
      "Adapter: 1 is lent out now. Taken off the list, it stays noted with the stays that have it.",
    ]);
  });

  it("is nothing where nothing changes, and no sentence twice", () => {
    expect(followsOf(meadow, meadow, nobody)).toEqual([]);
    const rules = { ...meadow.houseRules, campfires: "never" as const, generatorHours: null };
    expect(followsOf(meadow, { ...meadow, houseRules: rules }, nobody)).toHaveLength(1);
  });
});

describe("stayChanges", () => {
  it("tells each difference in words", () => {
    const after = staySettingsSchema.parse({
      ...staySettings, guestsMay: "ask", holdMinutes: 30, houseRules: { ...meadow.houseRules, quietHours: null, more: meadow.houseRules.more.slice(1) },
      cancellation: [{ daysBefore: 0, keep: { kind: "share", basisPoints: 5000 } }], lends: meadow.lends.filter(({ id }) => id !== "hose"),
    });
    expect(stayChanges(meadow, after, "ft-in", "USD").map(({ name, from, to }) => `${name}: ${from} to ${to}`)).toEqual([
      "A guest’s stay is: Booked at once to Asked for, the desk answers",
      "A site is held for: 20 minutes to 30 minutes",
      "Quiet hours: 10:00 PM to 7:00 AM to none",
      "What the park keeps: $10.00 if 14 days or more before; 1 night if 3 days or more before; 100% of the price if later to 50% of the price whenever it is",
      "House rule: “One fire ring a site; never leave a fire alone.” to none",
      "Lending: Drinking-water hose, 25 ft: 4 to lend, “Drinking-water hose, 25 ft” (water hose, 25 ft) to not on the list",
    ]);
    expect(stayChanges(meadow, meadow, "metric", "USD")).toEqual([]);
  });
});
