import type { Locator, Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";

const STEPS = ["size", "opens", "hookups", "party"] as const;

const field = (page: Page, name: string) => page.getByRole("textbox", { name, exact: true });
const seeSites = (page: Page) => page.getByRole("button", { name: "See the sites" });
const answer = (page: Page) => page.getByRole("status").first();
const paramsOf = (page: Page) => new URL(page.url()).searchParams;

/** Counts what a guest has to do: every tap, and every field typed into, is one. */
class Guest {
  done = 0;
  constructor(readonly page: Page) {}
  async tap(what: Locator) {
    this.done++;
    await what.click();
  }
}

test("a first-timer has an answer after three taps, and knows which numbers were not measured", async ({ page }) => {
  const guest = new Guest(page);
  await page.goto("/");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText("What do you travel in?");
  await expect(page.getByRole("main").getByRole("listitem")).toHaveCount(8);
  await guest.tap(page.getByRole("link", { name: /^Travel trailer/ }));
  await guest.tap(page.getByRole("button", { name: /^31\sft$/ }));
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Travel trailer, 31\sft$/);
  await expect(page.getByText("typical, not measured")).toHaveCount(5); // the length is told by now
  await expect(field(page, "Length overall")).toHaveValue("31 ft");
  await guest.tap(seeSites(page));
  await expect(answer(page)).toHaveText(/^Of 72 sites, \d+ fit with what you have/);
  expect(guest.done).toBeLessThanOrEqual(4);
  expect(new URL(page.url()).search).toBe("?kind=travel-trailer&length=31+ft&units=ft-in");
});

test("every kind leads to an answer in two taps", async ({ page }) => {
  await page.goto("/");
  const kinds = await page.getByRole("main").getByRole("listitem").getByRole("link").allInnerTexts();
  expect(kinds).toHaveLength(8);
  for (const kind of [0, 3, 7]) {
    await page.goto("/");
    await page.getByRole("main").getByRole("listitem").getByRole("link").nth(kind).click();
    await seeSites(page).click();
    await expect(answer(page)).toHaveText(/^Of 72 sites/);
  }
});

test("an owner gives exact numbers in feet and inches, and the hitch comes off the length", async ({ page }) => {
  await page.goto("/rig?kind=travel-trailer");
  await field(page, "Length overall").fill("31' 4\"");
  await field(page, "Hitch").fill("3 ft 10 in");
  await expect(page.getByText(/^Overall less hitch leaves a body of/).locator("..")).toContainText(/27\sft\s6\sin/);
  await field(page, "Height").fill("11.5");
  await page.getByRole("button", { name: "Next: what opens" }).click();

  await expect(page.getByText("Step 2 of 4")).toBeVisible();
  await page.getByRole("link", { name: "Slide, driver’s side" }).click();
  await field(page, "How far it comes out").fill("3 ft");
  await field(page, "Rear wall to where it begins").fill("14' 2\"");
  await page.getByRole("button", { name: "Next: hookups" }).click();
  await page.getByRole("checkbox", { name: "Sewer" }).check();
  await field(page, "Sewer hose").fill("20");
  await page.getByLabel("Your cord’s plug").selectOption({ label: "50 A (four prongs)" });
  await page.getByRole("checkbox", { name: "50 A plug into 30 A socket" }).check();
  await page.getByRole("button", { name: "Next: who comes" }).click();
  await field(page, "Pets").fill("1");
  await page.getByLabel("On the site or not?").selectOption({ label: "It stays hitched" });
  await expectNoSideways(page);
  await seeSites(page).click();

  await expect(answer(page)).toHaveText(/^Of 72 sites/);
  await expect(page.getByText(/^31\sft\s4\sin overall, .*11\sft\s6\sin high$/)).toBeVisible();
  expect(Object.fromEntries(paramsOf(page))).toMatchObject({
    length: "31' 4\"", hitch: "3 ft 10 in", height: "11.5 ft", "part-slide.depth": "3 ft", "part-slide.start": "14' 2\"", sewerHose: "20 ft", plug: "50", adapter: "50-to-30", pets: "1", tow: "hitched",
  });
  expect(paramsOf(page).getAll("want")).toEqual(["power", "water", "sewer"]);
});

test("an owner gives exact numbers in meters, and switching the units moves none", async ({ page }) => {
  await page.goto("/rig?kind=fifth-wheel&units=metric");
  await field(page, "Length overall").fill("10,06");
  await field(page, "Height").fill("395 cm");
  await seeSites(page).click();
  await expect(page.getByText(/^10\.06\sm overall, .* 3\.95\sm high$/)).toBeVisible();
  expect(paramsOf(page).get("length")).toBe("10,06 m");
  await page.getByRole("link", { name: "Change the rig" }).click();
  await page.getByRole("link", { name: "Use feet and inches" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Fifth wheel, 33\sft$/);
  await expect(field(page, "Height")).toHaveValue("395 cm");
  await page.getByRole("link", { name: "Use meters" }).click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Fifth wheel, 10\.06\sm$/);
});

test("a typical number that is typed is a measured one", async ({ page }) => {
  await page.goto("/rig?kind=van");
  const width = field(page, "Width"), row = width.locator("..");
  await expect(row.getByText("typical, not measured")).toBeVisible();
  const typical = (await width.getAttribute("placeholder"))!.replace(/\s/g, " ");
  await width.fill(typical);
  await expect(row.getByText("typical, not measured")).toBeHidden();
  await expect(row.getByText("yours")).toBeVisible();
  await seeSites(page).click();
  await page.waitForURL(/\/sites\?/);
  expect(paramsOf(page).get("width")).toBe(typical);
});

test("a wall that is tapped gets what was chosen, a part that is tapped shows its numbers", async ({ page }) => {
  await page.goto("/rig?kind=class-c&length=25+ft&step=opens");
  const right = page.getByRole("group", { name: /^The door side of your rig/ });
  await page.getByText("Slide", { exact: true }).first().click();
  const wall = right.locator("[data-wall]"), box = (await wall.boundingBox())!;
  await wall.click({ position: { x: box.width * 0.15, y: box.height * 0.7 } });
  await expect(page).toHaveURL(/part=door-side-slide%40\d+/);
  expect(Number(/@(\d+)/.exec(paramsOf(page).get("part")!)![1])).toBeGreaterThan(5);
  expect(Number(/@(\d+)/.exec(paramsOf(page).get("part")!)![1])).toBeLessThan(30);
  const fold = page.locator("#part-door-side-slide");
  await expect(fold).toHaveAttribute("open", "");
  await expect(fold.getByText(/typical, not measured/).first()).toBeVisible();
  await right.getByRole("link", { name: "Awning, door side" }).click();
  await expect(page.locator("#part-awning")).toHaveAttribute("open", "");
  await fold.getByRole("button", { name: "Take off the door side slide" }).click();
  await expect(page.locator("#part-door-side-slide")).toHaveCount(0);
  expect(paramsOf(page).has("part")).toBe(false);
});

test("a part that was tapped before the page's script came has its numbers unfolded", async ({ page }) => {
  await page.goto("/rig?kind=class-c&length=25+ft&step=opens#part-awning");
  await expect(page.locator("#part-awning")).toHaveAttribute("open", "");
});

test("a guest who needs an accessible site gets only those", async ({ page }) => {
  await page.goto("/");
  await page.getByRole("link", { name: /^Small motorhome/ }).click();
  await page.getByRole("button", { name: "Who comes" }).click();
  await page.getByRole("checkbox", { name: "We need an accessible site" }).check();
  await seeSites(page).click();
  const fits = page.getByRole("region", { name: /^Sites that fit/ });
  const first = fits.getByRole("link", { name: /^See the plan of site/ });
  await expect(first.first()).toBeVisible();
  const count = await first.count();
  expect(count).toBeGreaterThan(0);
  expect(count).toBeLessThan(12);
  await first.first().click();
  await expect(page.getByText("Kept for guests who need an accessible site")).toBeVisible();
});

test("what cannot be read is told beside its field, all at once, and kept; the first one has the focus", async ({ page }) => {
  await page.goto("/rig?kind=travel-trailer&length=31+ft");
  await field(page, "Hitch").fill("three");
  await field(page, "Width").fill("0");
  await seeSites(page).click();
  await expect(page).toHaveURL(/\/rig\?/);
  const summary = page.locator("main").getByRole("alert");
  await expect(summary.getByRole("heading")).toHaveText("2 numbers need another look");
  const hitch = field(page, "Hitch");
  await expect(hitch).toBeFocused();
  await expect(hitch).toHaveAttribute("aria-invalid", "true");
  await expect(hitch).toHaveAccessibleDescription(/“three” cannot be read as a length/);
  await expect(field(page, "Width")).toHaveAccessibleDescription(/This has to be more than zero/);
  await expectAccessible(page);
  await page.reload();
  await expect(hitch).toHaveValue("three");
  await summary.getByRole("link", { name: "Width" }).click();
  await expect(field(page, "Width")).toBeInViewport();
  await hitch.fill("3 ft");
  await field(page, "Width").fill("8'");
  await seeSites(page).click();
  await expect(answer(page)).toHaveText(/^Of 72 sites/);
});

test("a fault in another step is led to, unfolded", async ({ page }) => {
  await page.goto("/rig?kind=travel-trailer&length=31+ft&part-slide.depth=deep&step=party");
  await page.locator("main").getByRole("alert").getByRole("link", { name: "Slide, how far it comes out" }).click();
  await expect(page.getByText("Step 2 of 4")).toBeVisible();
  await expect(field(page, "How far it comes out").first()).toHaveValue("deep");
  await expect(field(page, "How far it comes out").first()).toBeVisible();
});

test("a rare number is asked about and counts", async ({ page }) => {
  await page.goto("/rig?kind=van&height=5+ft");
  await expect(field(page, "Height")).toHaveAccessibleDescription(/Under 6\sft nobody stands up in it/);
  await seeSites(page).click();
  await expect(page.getByText(/5\sft high$/)).toBeVisible();
});

test("the link keeps the rig, and this device offers the last one", async ({ page, context, browserName }) => {
  if (browserName === "chromium") await context.grantPermissions(["clipboard-read", "clipboard-write"]);
  await page.goto("/rig?kind=class-a&length=35+ft&pets=2&step=party");
  const link = await page.getByRole("textbox", { name: "Link to your rig" }).inputValue();
  expect(link).toBe(`${new URL(page.url()).origin}/sites?kind=class-a&length=35+ft&pets=2&units=ft-in`);
  await page.getByRole("button", { name: "Copy the link" }).click();
  await expect(page.getByRole("button", { name: "Copied" })).toBeVisible();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(link);
  await page.goto("/");
  const last = page.getByRole("region", { name: "Go on with your last one" });
  await last.getByRole("link", { name: /Large motorhome, 35 ft/ }).click();
  await expect(answer(page)).toHaveText(/^Of 72 sites/);
  expect(paramsOf(page).get("pets")).toBe("2");
  await page.goto("/");
  await last.getByRole("button", { name: "Forget it" }).click();
  await expect(last).toHaveCount(0);
  await page.reload();
  await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  await expect(last).toHaveCount(0);
});

test("a rig that the park keeps starts from its own numbers", async ({ page }) => {
  await page.goto("/rig?rig=demo-tt-31");
  await expect(page.getByText("typical, not measured")).toHaveCount(0);
  await expect(field(page, "Length overall")).not.toHaveValue("");
  await seeSites(page).click();
  await page.waitForURL(/\/sites\?/);
  expect(new URL(page.url()).search).toBe("?rig=demo-tt-31&units=ft-in");
});

test("a keyboard alone goes from the kinds to the sites", async ({ page }) => {
  await page.goto("/");
  const van = page.getByRole("link", { name: /^Van/ });
  for (let i = 0; i < 8 && !(await van.evaluate((e) => e === document.activeElement)); i++) await page.keyboard.press("Tab");
  await expect(van).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.getByText("Step 1 of 4")).toBeVisible();
  const length = field(page, "Length overall");
  for (let i = 0; i < 20 && !(await length.evaluate((e) => e === document.activeElement)); i++) await page.keyboard.press("Tab");
  await expect(length).toBeFocused();
  await page.keyboard.type("19 ft 6 in");
  await page.keyboard.press("Enter");
  await expect(answer(page)).toHaveText(/^Of 72 sites/);
  expect(paramsOf(page).get("length")).toBe("19 ft 6 in");
});

for (const path of ["/", ...STEPS.map((step) => `/rig?kind=travel-trailer&length=34+ft&step=${step}`), "/rig?kind=folding-trailer&step=opens&open=front-bed&units=metric", "/rig?kind=class-a&step=hookups&open=sewer", "/rig?kind=truck-camper&part=driver-side-steps%4050&step=opens&open=driver-side-steps"]) {
  test(`${path} is accessible, and never scrolls sideways on the narrowest phone`, async ({ page }) => {
    await page.goto(path);
    for (const width of [360, 600, 900]) {
      await page.setViewportSize({ width, height: 740 });
      await expectNoSideways(page);
    }
    await expectAccessible(page);
    const levels = await page.locator("h1, h2, h3").evaluateAll((all) => all.map((h) => Number(h.tagName.charAt(1))));
    expect(levels[0]).toBe(1);
    const ids = await page.locator("[id]").evaluateAll((all) => all.map((e) => e.id));
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
  });
}

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("the whole rig can be told, and what was told in one step stays in the others", async ({ page }) => {
    await page.goto("/");
    await page.getByRole("link", { name: /^Trailer with a garage/ }).click();
    await page.getByRole("button", { name: /^34\sft$/ }).click();
    await field(page, "Height").fill("13 ft");
    await page.getByRole("button", { name: "Next: what opens" }).click();
    await page.getByText("Awning", { exact: true }).first().click();
    await expect(page.getByRole("radio", { name: "Awning" })).toBeChecked();
    await page.getByRole("button", { name: "Add to the driver’s side" }).click();
    await expect(field(page, "How far it comes out").first()).toBeVisible();
    await page.getByRole("button", { name: "Who comes" }).click();
    await field(page, "Adults").fill("x");
    await seeSites(page).click();
    await expect(page.locator("main").getByRole("alert")).toContainText("is not a whole number");
    await field(page, "Adults").fill("4");
    await seeSites(page).click();
    await expect(answer(page)).toHaveText(/^Of 72 sites/);
    expect(Object.fromEntries(paramsOf(page))).toMatchObject({ kind: "toy-hauler", length: "34 ft", height: "13 ft", adults: "4" });
    expect(paramsOf(page).get("part")).toMatch(/^driver-side-awning@/);
  });
});

for (const path of ["/", "/rig?kind=travel-trailer&step=opens"]) {
  test(`${path} takes less than 150 kB of compressed script`, async ({ page }) => {
    test.skip(process.env["PADWRIGHT_TEST_SERVER"] !== undefined, "a server for development sends more than it is built from");
    const sizes: number[] = [];
    page.on("response", async (response) => {
      if (response.request().resourceType() === "script") sizes.push(Number((await response.request().sizes()).responseBodySize));
    });
    await page.goto(path, { waitUntil: "networkidle" });
    expect(sizes.length).toBeGreaterThan(0);
    expect(sizes.reduce((a, b) => a + b, 0)).toBeLessThan(150_000);
  });
}
