import { readFileSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { formatBound, readBound } from "@/app/manage/rates/bounds";
import { changedLines, review, unpricedSites } from "@/app/manage/rates/compare";
import { changeRows, draftOf, firstDraft, readDraft, type Draft } from "@/app/manage/rates/draft";
import { readCard } from "@/app/manage/rates/read-card";
import { siteSchema } from "@/lib/park";
import { asDate, rateCardSchema, type RateCard } from "@/lib/stays";
import { manageRates } from "@/lib/wording/en/manage-rates";

const seed = path.join(import.meta.dirname, "../../../seed/quillback-meadow");
const fromSeed = (file: string) => JSON.parse(readFileSync(path.join(seed, file), "utf8")) as { rates: unknown; sites: unknown[] };
const demo = rateCardSchema.parse(fromSeed("park.json").rates);
const sites = fromSeed("sites.json").sites.map((site) => siteSchema.parse(site));
const today = asDate("2026-11-25");

function cardOf(draft: Draft): RateCard {
  const read = readCard(draft);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.card;
}

function faultsOf(draft: Draft) {
  const read = readCard(draft);
  return read.ok ? {} : read.faults;
}

describe("a rate card as a form", () => {
  it("comes back from its form as it was", () => {
    expect(changedLines(demo, cardOf(draftOf(demo)))).toEqual([]);
    expect(cardOf(draftOf(demo))).toEqual({ ...demo, prices: cardOf(draftOf(demo)).prices });
    expect(new Set(cardOf(draftOf(demo)).prices.map((price) => JSON.stringify(price)))).toEqual(new Set(demo.prices.map((price) => JSON.stringify(price))));
  });

  it("keeps every kind of deposit, periods with a year, and a currency without cents", () => {
    for (const deposit of [{ kind: "none" }, { kind: "share", basisPoints: 2550 }, { kind: "nights", nights: 2 }, { kind: "amount", amount: 5000 }] as const) {
      expect(cardOf(draftOf({ ...demo, deposit })).deposit).toEqual(deposit);
    }
    const card = { ...demo, currency: "JPY", seasons: [...demo.seasons, { id: "lights", name: "Lights", minNights: 3, periods: [{ first: "2027-12-30", last: "2028-01-02" }] }] };
    expect(cardOf(draftOf(card))).toMatchObject({ currency: "JPY", seasons: card.seasons });
  });

  it("reads money to the cent, and no more cents than there are", () => {
    const night = (text: string) => readCard({ ...firstDraft, classes: [{ services: [], amps: "", cells: { ALL: { night: text, week: "", month: "" } } }] });
    for (const [text, amount] of [["45", 4500], ["$45", 4500], ["45.5", 4550], ["1,200.00", 120000]] as const) expect(night(text), text).toMatchObject({ ok: true, card: { prices: [{ night: amount }] } });
    for (const text of ["", "45.555", "forty", "-3", "1e3"]) expect(night(text), text).toMatchObject({ ok: false });
  });

  it("tells every fault at once, each at its field", () => {
    const draft: Draft = {
      ...draftOf(demo),
      currency: "XQQ",
      seasons: [{ id: "summer", name: "", minNights: "two", periods: [{ first: "Feb 30", last: "" }] }, { id: "leaf", name: "Leaf", minNights: "1", periods: [{ first: "Sep 25", last: "Oct 18" }] }],
      longStay: [{ nights: "1", off: "101" }],
      taxes: [{ id: "lodging", name: "Tax", rate: "7%", on: [], upToNights: "" }],
      deposit: { kind: "share", value: "" },
    };
    expect(Object.keys(faultsOf(draft)).sort()).toEqual([
      "currency", "deposit.value", "longStay.0.nights", "longStay.0.off", "seasons.0.minNights", "seasons.0.name", "seasons.0.periods.0.first", "seasons.0.periods.0.last", "taxes.0.on",
    ]);
  });

  it("tells seasons that meet, and two classes that are the same, in words", () => {
    const draft = draftOf(demo);
    const meeting = { ...draft, seasons: draft.seasons.map((season) => ({ ...season, periods: [{ first: "Jun 12", last: "Sep 7" }] })) };
    expect(faultsOf(meeting)["seasons.1.periods.0.first"]).toBe("These days meet Jun 12 to Sep 7. A night can be in one season only.");
    expect(faultsOf({ ...draft, classes: [...draft.classes, draft.classes[0]!] })["classes.5"]).toBe("Another class above is the same. Change its hookups or amps, or take it out.");
  });

  it("reads fields by their names, whatever else is sent", () => {
    const form = new FormData();
    for (const [name, value] of [["card.currency", " usd "], ["card.seasons.1.name", "Late"], ["card.seasons.0.name", "Early"], ["card.classes.0.services[]", "power"], ["card.classes.0.services[]", "water"], ["card.classes.0.cells.ALL.night", "40"], ["card.__proto__.polluted", "x"], ["do", "save"]] as const) form.append(name, value);
    const draft = readDraft(form);
    expect(draft).toMatchObject({ currency: "usd", seasons: [{ name: "Early" }, { name: "Late" }], classes: [{ services: ["power", "water"], cells: { ALL: { night: "40" } } }] });
    expect(({} as { polluted?: string }).polluted).toBeUndefined();
  });

  it("adds and takes out rows, each new one with an id of its own", () => {
    const once = changeRows(changeRows(draftOf(demo), "add taxes"), "add taxes");
    expect(new Set(once.taxes.map(({ id }) => id)).size).toBe(3);
    expect(changeRows(once, "remove taxes 0").taxes.map(({ id }) => id)).toEqual(once.taxes.slice(1).map(({ id }) => id));
    expect(changeRows(once, "add seasons 0 periods").seasons[0]!.periods).toHaveLength(2);
    expect(changeRows(once, "remove constructor 0")).toEqual(once);
    const full = Array.from({ length: 60 }).reduce<Draft>((draft) => changeRows(draft, "add seasons"), draftOf(demo));
    expect(full.seasons).toHaveLength(50);
  });
});

describe("days of a season as they are typed", () => {
  it.each([["Jun 12", "06-12"], ["June 12", "06-12"], ["6/12", "06-12"], ["06-12", "06-12"], ["Jul 2, 2027", "2027-07-02"], ["2027-07-02", "2027-07-02"], ["Feb 29", "02-29"]])("%s is %s", (text, bound) => {
    expect(readBound(text)).toBe(bound);
    expect(readBound(formatBound(bound))).toBe(bound);
  });

  it.each(["", "Feb 30", "Feb 29, 2027", "13/1", "summer", "Jun", "ju 4"])("%s is no day", (text) => expect(readBound(text)).toBeNull());
});

describe("what other rates would change", () => {
  it("is nothing where nothing changed, and every price where a tax did", () => {
    expect(review(demo, demo, sites, today)).toMatchObject({ lines: [], samples: [], changed: 0, unpriced: [] });
    const taxed = review(demo, { ...demo, taxes: [] }, sites, today);
    expect(taxed.changed).toBe(taxed.priced);
    expect(taxed.lines).toEqual([{ before: expect.stringMatching(/^Lodging tax: 7%/) as string, after: null }]);
  });

  it("names the sites that are left without a price, season by season", () => {
    const power = demo.prices.filter(({ services }) => services.length > 0);
    const without = sites.filter(({ hookups }) => !hookups.some(({ kind }) => kind === "power"));
    expect(without.length).toBeGreaterThan(0);
    expect(unpricedSites({ ...demo, prices: power }, sites, today).map(({ season, sites: named }) => [season, named.length])).toEqual([[null, without.length], ["Summer", without.length], ["Leaf season", without.length]]);
  });

  it("warns of no season whose nights have passed, and of other nights only where there are some", () => {
    const powered = demo.prices.filter(({ services }) => services.length > 0);
    const wholeYear = { ...demo, prices: powered, seasons: [{ id: "always", name: "Always", minNights: 1, periods: [{ first: "01-01", last: "12-31" }] }, { id: "gone", name: "Gone", minNights: 1, periods: [{ first: "2026-07-01", last: "2026-07-09" }] }] };
    expect(unpricedSites({ ...wholeYear, prices: powered.filter(({ season }) => season === null) }, sites, today).map(({ season }) => season)).toEqual(["Always"]);
  });

  it("prices a season that is shorter than a week", () => {
    const lights = { id: "lights", name: "Lights", minNights: 1, periods: [{ first: "2027-05-01", last: "2027-05-03" }] };
    const after = { ...demo, seasons: [...demo.seasons, lights], prices: [...demo.prices, { season: "lights", services: [], amps: null, night: 9000, week: null, month: null }] };
    const { samples } = review(demo, after, sites, today);
    // One for each class: they all come to one price, from different ones.
    expect(samples).toHaveLength(5);
    for (const sample of samples) expect(sample).toMatchObject({ season: "Lights", formerly: { season: null }, arrive: "2027-05-01" });
    const [price] = samples[0]!.prices;
    // Two nights at $90 and a fee of $6, with 7 % tax of both.
    expect(price!.after).toMatchObject({ ok: true, quote: { total: 19902 } });
  });

  it("prices the nights of a season that is taken out", () => {
    const after = { ...demo, seasons: demo.seasons.filter(({ id }) => id !== "summer"), prices: demo.prices.filter(({ season }) => season !== "summer") };
    const { samples } = review(demo, after, sites, today);
    expect(samples.length).toBeGreaterThan(1);
    for (const sample of samples) expect(sample).toMatchObject({ season: null, formerly: { season: "Summer" }, arrive: "2027-06-12" });
  });

  it("tells apart sites that are to share a price and do not yet", () => {
    const after = { ...demo, prices: demo.prices.filter(({ amps }) => amps === null) };
    const { samples } = review(demo, after, sites, today);
    expect(samples.map(({ hookups, season }) => [hookups.amps, season])).toEqual([[50, null], [50, "Summer"], [50, "Leaf season"]]);
  });

  it("says what changed of a price without its name twice", () => {
    expect(manageRates.was("Power, Summer: $44.00 a night", "Power, Summer: $45.00 a night")).toBe("Power, Summer: $45.00 a night (was: $44.00 a night)");
  });
});
