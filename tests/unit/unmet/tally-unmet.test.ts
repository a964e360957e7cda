import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { nameOf } from "@/app/manage/unmet/counts";
import { addressOf, readChoice } from "@/app/manage/unmet/choice";
import { sharesOfOne, tallyUnmet } from "@/app/manage/unmet/tally-unmet";
import { siteSchema, type Site } from "@/lib/park";

const { sites: records } = JSON.parse(readFileSync("seed/quillback-meadow/sites.json", "utf8")) as { sites: unknown[] };
const sites: Site[] = records.map((record) => siteSchema.parse(record));
const holders = (id: string) => sites.filter((site) => site.obstacles.some((o) => o.id === id));
const ids = [...new Set(sites.flatMap(({ obstacles }) => obstacles.map(({ id }) => id)))];
/** A thing that the demo park has on one site, and one that it has on several. */
const lone = ids.find((id) => holders(id).length === 1)!;
const common = ids.find((id) => holders(id).length > 1)!;
const asked = (turnedAway: Record<string, number>, taken = 0, times = 1) => ({ reasons: { turnedAway, taken }, times });

describe("requests that found nothing, counted", () => {
  it("are counted once for each thing that stood in the way, most first, with how many no site took", () => {
    const tally = tallyUnmet([asked({ stand: 9, "reach:sewer": 4 }, 0, 3), asked({ stand: 2 }, 5), asked({ "missing:sewer": 7, stand: 30 })], sites);
    expect(tally).toMatchObject({ requests: 3, times: 5, taken: 1 });
    expect(tally.shares).toEqual([
      { by: "pad", site: null, requests: 3, unfit: 2, sites: 30 },
      { by: "missing:sewer", site: null, requests: 1, unfit: 1, sites: 7 },
      { by: "run:sewer", site: null, requests: 1, unfit: 1, sites: 4 },
    ]);
    expect(tallyUnmet([], sites)).toEqual({ requests: 0, times: 0, taken: 0, shares: [] });
  });

  it("name the thing and its site where one site alone has it, and its kind where several do", () => {
    const tally = tallyUnmet([asked({ [`clear:body:${lone}`]: 1, [`clear:awning:${lone}`]: 1, [`clear:body:${common}`]: 6 })], sites);
    const [kind, thing] = tally.shares;
    expect(kind).toEqual({ by: `kind:${holders(common)[0]!.obstacles.find(({ id }) => id === common)!.kind}`, site: null, requests: 1, unfit: 1, sites: 6 });
    // Two parts of the rig, one thing: one request.
    expect(thing).toMatchObject({ by: `thing:${lone}`, requests: 1, sites: 1 });
    expect(thing!.site?.id).toBe(holders(lone)[0]!.id);
    expect(nameOf(thing!.by, thing!.site)).toMatch(new RegExp(`^the .+ at ${holders(lone)[0]!.label}$`));
    expect(nameOf(kind!.by, null)).not.toMatch(/[:]/);
  });

  it("still count a thing that no site has any more", () => {
    const [share] = tallyUnmet([asked({ "clear:body:gone-oak": 2 })], sites).shares;
    expect(share).toMatchObject({ by: "thing:gone-oak", site: null, requests: 1 });
    expect(nameOf(share!.by, share!.site)).toBe("something that is no longer on the site");
  });

  it("tell of one request what turned it away from the most sites first", () => {
    expect(sharesOfOne({ taken: 0, turnedAway: { "reach:sewer": 2, stand: 40, "rule:pets": 2 } }, sites).map(({ by }) => by)).toEqual(["pad", "rule:pets", "run:sewer"]);
  });
});

it("the address of the list is read within bounds, and said again", () => {
  expect(readChoice({})).toEqual({ days: 30, which: "all", most: 50 });
  expect(readChoice({ days: "7", which: "open", most: "100" })).toEqual({ days: 7, which: "open", most: 100 });
  expect(readChoice({ days: "8", which: "x", most: "1e9" })).toEqual({ days: 30, which: "all", most: 1000 });
  expect(readChoice({ most: "-5" }).most).toBe(50);
  expect(addressOf({ days: 7, which: "open", most: 100 }, { said: "gone" })).toBe("/manage/unmet?days=7&which=open&most=100&said=gone");
});
