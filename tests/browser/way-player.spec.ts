import type { Locator, Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";

const rig = "kind=travel-trailer&units=ft-in";
const gettingIn = (page: Page) => page.getByRole("region", { name: "Getting in" });

async function open(page: Page, site: string, query = rig): Promise<Locator> {
  await page.goto(`/sites/${site}?${query}`);
  const section = gettingIn(page);
  await expect(section).toBeVisible();
  return section;
}

const slider = (section: Locator) => section.getByRole("slider", { name: "How far along" });
const along = async (section: Locator) => Number(await slider(section).inputValue());
/** Where the truck is drawn: the one body with a nose. */
const drawn = (section: Locator) => section.getByRole("img", { name: /^Plan of the way in/ }).locator("g[transform]:has(> polyline)").getAttribute("transform");

test("a guest runs the way in, stops it, steps and drags it, and is told what happens", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "no-preference" });
  const section = await open(page, "d03");
  await expect(section.getByText("If you cannot see your helper, stop.")).toBeVisible();
  await expect(section.getByText(/^Start here, in line on the road, with the site on your left\./)).toBeVisible();
  const begin = await drawn(section);

  await section.getByRole("button", { name: "Run", exact: true }).click();
  await expect.poll(() => along(section)).toBeGreaterThan(1000);
  await section.getByRole("button", { name: "Stop", exact: true }).click();
  const stopped = await along(section), there = await drawn(section);
  expect(there).not.toBe(begin);
  await page.waitForTimeout(400);
  expect([await along(section), await drawn(section)]).toEqual([stopped, there]);

  await section.getByRole("button", { name: "Step on" }).click();
  const stepped = await along(section);
  expect(stepped).toBeGreaterThan(stopped);
  await expect(section.getByRole("status")).toHaveText(/^Back slowly, wheel .+; the trailer .+ from .+ to .+\./);
  await section.getByRole("button", { name: "Step back" }).click();
  await expect.poll(() => along(section)).toBeLessThan(stepped);

  await slider(section).fill(String(await slider(section).getAttribute("max")));
  await expect(section.getByText("You are in. Stop and check all sides.").and(section.locator("p:visible")).first()).toBeVisible();
  await expect(slider(section)).toHaveAttribute("aria-valuetext", /^\d+ ft of \d+ ft\. You are in\./);
  await section.getByRole("button", { name: "Run again" }).click();
  await expect(section.getByRole("button", { name: "Stop", exact: true })).toBeVisible();
  await expect.poll(() => along(section)).toBeLessThan(stepped);
});

test("runs to the end by itself, faster where asked, and says so once", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "no-preference" });
  const section = await open(page, "d03");
  await section.getByLabel("Speed").selectOption("Fast");
  await section.getByRole("button", { name: "Run", exact: true }).click();
  await expect(section.getByRole("status")).toHaveText("You are in. Stop and check all sides.", { timeout: 20_000 });
  await expect(section.getByRole("button", { name: "Run again" })).toBeVisible();
});

test("goes by stills where no motion is wanted", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "reduce" });
  const section = await open(page, "d03");
  await section.getByLabel("Speed").selectOption("Fast");
  await section.getByRole("button", { name: "Run", exact: true }).click();
  const seen = new Set<number>();
  await expect.poll(async () => seen.add(await along(section)).size, { intervals: [40], timeout: 15_000 }).toBeGreaterThanOrEqual(3);
  await section.getByRole("button", { name: "Stop", exact: true }).click();
  // Between two stills nothing moves: far fewer places than looks at it.
  for (const place of [...seen].sort((a, b) => a - b).slice(1)) expect(place - Math.max(...[...seen].filter((other) => other < place))).toBeGreaterThan(500);
});

test("is worked from the keyboard with the plan in focus", async ({ page }) => {
  const section = await open(page, "d03"), plan = section.getByRole("group", { name: "The way in, moving" });
  await plan.focus();
  await page.keyboard.press("ArrowRight");
  const first = await along(section);
  expect(first).toBeGreaterThan(0);
  await page.keyboard.press("ArrowRight");
  await expect.poll(() => along(section)).toBeGreaterThan(first);
  await page.keyboard.press("ArrowLeft");
  await expect.poll(() => along(section)).toBe(first);
  await page.keyboard.press("t");
  await expect(section.getByRole("status")).toHaveText(/^Back slowly/);
  await page.keyboard.press("End");
  await expect(section.getByRole("status")).toHaveText("You are in. Stop and check all sides.");
  await page.keyboard.press("Home");
  await expect.poll(() => along(section)).toBe(0);
  await page.keyboard.press("Space");
  await expect(section.getByRole("button", { name: "Stop", exact: true })).toBeVisible();
  await page.keyboard.press("Space");
  await expect(section.getByRole("button", { name: "Run", exact: true })).toBeVisible();
});

test("a page that is hidden stops it", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "no-preference" });
  const section = await open(page, "d03");
  await section.getByRole("button", { name: "Run", exact: true }).click();
  await expect(section.getByRole("button", { name: "Stop", exact: true })).toBeVisible();
  await page.evaluate(() => {
    Object.defineProperty(document, "hidden", { value: true, configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));
  });
  await expect(section.getByRole("button", { name: "Run", exact: true })).toBeVisible();
});

test("a pull-through is driven in and out, leg by leg, the second one after the first", async ({ page }) => {
  await page.emulateMedia({ reducedMotion: "no-preference" });
  const section = await open(page, "b02"), legs = section.getByRole("group", { name: "Leg", exact: true });
  await expect(legs.getByRole("button", { name: "1 Drive in" })).toHaveAttribute("aria-pressed", "true");
  await legs.getByRole("button", { name: "2 Drive out" }).click();
  await expect(legs.getByRole("button", { name: "2 Drive out" })).toHaveAttribute("aria-pressed", "true");
  await expect(section.getByRole("status")).toHaveText(/^Leave from here\. Walk around the rig first\./);
  await section.getByRole("group", { name: "The way in, moving" }).press("PageUp");
  await section.getByLabel("Speed").selectOption("Fast");
  await slider(section).fill("34000");
  await section.getByRole("button", { name: "Run", exact: true }).click();
  await expect(legs.getByRole("button", { name: "2 Drive out" })).toHaveAttribute("aria-pressed", "true");
  await expect(section.getByRole("status")).toHaveText("You are out on the road.", { timeout: 30_000 });
});

test("reads well with any aid, on any width", async ({ page }) => {
  const section = await open(page, "d03");
  await expectAccessible(page);
  await section.getByRole("button", { name: "Step on" }).click();
  await section.getByText("How to read it").click();
  await expect(section.getByText(/^Hatched: the ground the rig passes over/)).toBeVisible();
  await expectAccessible(page);
  await page.setViewportSize({ width: 360, height: 740 });
  await expectNoSideways(page);
  const touch = await section.getByRole("button").evaluateAll((buttons) => buttons.map((button) => button.getBoundingClientRect().height));
  expect(Math.min(...touch)).toBeGreaterThanOrEqual(44);
});

test("on paper every leg is a row of numbered stills, with nothing to press", async ({ page }) => {
  const section = await open(page, "d03");
  await section.getByRole("button", { name: "Step on" }).click();
  await expect(section.getByRole("listitem").filter({ hasText: /^1\s*Start here/ })).toBeHidden();
  await page.emulateMedia({ media: "print" });
  for (const text of [/^1\s*Start here/, /^2\s*Back slowly/, /^3\s*Back slowly/, /^4\s*You are in/]) await expect(section.getByRole("listitem").filter({ hasText: text })).toBeVisible();
  await expect(section.getByRole("button", { name: "Run" })).toBeHidden();
  await expect(slider(section)).toBeHidden();
  await expect(section.getByText("If you cannot see your helper, stop.")).toBeVisible();
});

test("the arrival card has it too", async ({ page }) => {
  await page.goto(`/sites/d03/card?${rig}`);
  const section = page.getByRole("region", { name: "The way in" });
  await section.getByRole("button", { name: "Step on" }).click();
  await expect(section.getByRole("status")).toHaveText(/^Back slowly/);
  await expectAccessible(page);
  await page.emulateMedia({ media: "print" });
  await expect(section.getByRole("listitem").filter({ hasText: /^4\s*You are in/ })).toBeVisible();
});

test("says that nobody measured it, or that none was found, with the try that came nearest", async ({ page }) => {
  const unmeasured = await open(page, "d04", "kind=van&units=ft-in");
  await expect(unmeasured.getByText("Nobody has measured the way in. Walk it before you drive it, with a helper.")).toBeVisible();
  await expect(unmeasured.getByRole("button")).toHaveCount(0);
  const none = await open(page, "c04");
  await expect(none.getByText("No way in found; staff to check on the ground.")).toBeVisible();
  await expect(none.getByText(/^The try that came nearest has .+ too little room between .+ and .+\. It is drawn here\. Do not drive it\.$/)).toBeVisible();
  await expect(none.getByRole("img", { name: /not a way to drive/ })).toBeVisible();
  await expectAccessible(page);
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("it is a still of the whole way and a row of stills, with nothing to press", async ({ page }) => {
    const section = await open(page, "d03");
    await expect(section.getByRole("img", { name: /^Plan of the way in to site D-03, with the site on the driver’s left/ })).toBeVisible();
    await expect(section.getByText("If you cannot see your helper, stop.")).toBeVisible();
    await expect(section.getByRole("listitem").filter({ hasText: /^2\s*Back slowly/ })).toBeVisible();
    await expect(section.getByRole("button", { name: "Run" })).toBeHidden();
    await expectNoSideways(page);
  });
});
