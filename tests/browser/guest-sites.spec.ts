import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";

const TRAILER = "/sites?kind=travel-trailer&length=31+ft";
const siteLink = /^See the plan of site/;

/** How many sites the list holds, folded away or not. */
async function listed(page: Page): Promise<number> {
  return page.locator("main ol > li").filter({ has: page.getByRole("checkbox", { name: /^Compare site/, includeHidden: true }) }).count();
}

test("a first-timer reads the answer, filters it, compares two sites and opens one", async ({ page }) => {
  await page.goto(TRAILER);
  await expect(page.getByRole("heading", { level: 1, name: "Which sites fit" })).toBeVisible();
  await expect(page.getByText(/^31\sft overall, .* wide, .* high$/)).toBeVisible();
  await expect(page.getByRole("status").first()).toHaveText(/^Of 72 sites, \d+ fit with what you have/);
  const fits = page.getByRole("region", { name: /^Sites that fit: \d+/ });
  await expect(fits.getByRole("listitem").first()).toContainText(/room/);
  await expect(page.getByRole("region", { name: /^Sites that do not fit: \d+/ })).toBeVisible();
  await expect(page.getByRole("img", { name: /^Plan of site .*: Fits/ })).toHaveCount(3);
  await expect.poll(() => listed(page)).toBe(72);

  await page.getByText("Show only some sites").click();
  await page.getByRole("checkbox", { name: /^Pull-through/ }).check();
  await page.getByRole("checkbox", { name: /^50 A power/ }).check();
  const left = Number(/\((\d+)\)/.exec((await page.getByText(/^Pull-through \(\d+\)$/).textContent()) ?? "")?.[1]);
  await page.getByRole("button", { name: "Show these sites" }).click();
  await expect(page).toHaveURL(/only=pull-through&only=50-amp/);
  const shown = Number(/^(\d+) of 72 sites pass your filters/.exec((await page.getByText(/pass your filters/).textContent()) ?? "")?.[1]);
  expect(shown).toBeGreaterThan(0);
  expect(shown).toBeLessThan(left);
  await expect.poll(() => listed(page)).toBe(shown);

  const ticks = page.getByRole("checkbox", { name: /^Compare site/ });
  await ticks.nth(0).check();
  await ticks.nth(1).check();
  await page.getByRole("button", { name: "Compare the ticked sites" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Sites side by side" })).toBeVisible();
  const table = page.getByRole("table", { name: "What differs and what does not" });
  await expect(table.getByRole("columnheader")).toHaveCount(3);
  await expect(table.getByRole("row", { name: /^Answer/ }).getByRole("cell")).toHaveCount(2);
  await expect(table.getByRole("row", { name: /^Way in the same/ })).toContainText("Pull-through");
  await expect(page.getByRole("img", { name: /^Plan of site/ })).toHaveCount(2);

  await table.getByRole("link", { name: /^Open site/ }).first().click();
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Site B-/);
  await expect(page.getByText(/^Number \d+ of \d+ in the order$/)).toBeVisible();
  await expect(page.getByRole("img", { name: /where site B-\d+ lies$/ })).toBeVisible();
  await page.getByRole("link", { name: "Back to all sites" }).click();
  await expect(page.getByText(/pass your filters/)).toBeVisible();
  await page.getByRole("link", { name: "Clear every filter" }).click();
  await expect.poll(() => listed(page)).toBe(72);
});

test("filters that leave nothing say which one keeps what out, and drop with one tap", async ({ page }) => {
  await page.goto(`${TRAILER}&only=pull-through&only=accessible&loop=B`);
  await expect(page.getByText("No site passes all of these filters together.")).toBeVisible();
  await expect(page.getByText("Without “Accessible”: 16 sites.")).toBeVisible();
  await expect(page.getByText("Without “Loop B” there is still none.")).toBeVisible();
  await expect(page.getByRole("button", { name: "Compare the ticked sites" })).toHaveCount(0);
  await expectNoSideways(page);
  await expectAccessible(page);
  await page.getByRole("link", { name: "Drop the filter “Accessible”" }).click();
  await expect(page.getByText("16 of 72 sites pass your filters.")).toBeVisible();
  await expect.poll(() => listed(page)).toBe(16);
});

test("the map holds every site with its answer, comes closer to a loop, and leads to the sites", async ({ page }) => {
  await page.goto(TRAILER);
  const map = page.getByRole("region", { name: "Map of the park" });
  await expect(map.getByRole("link", { name: /^Site [A-E]-\d\d: (Fits|Fits with extra gear|One measurement missing|Does not fit)$/ })).toHaveCount(72);
  for (const verdict of ["Fits", "Does not fit"]) {
    const inList = await page.locator("h3").filter({ hasText: new RegExp(`^[A-E]-\\d\\d ${verdict}$`) }).count();
    await expect(map.getByRole("link", { name: new RegExp(`: ${verdict}$`) })).toHaveCount(inList);
  }
  await map.getByRole("link", { name: "Loop C, The Terrace" }).click();
  await expect(page).toHaveURL(/loop=C.*#map$/);
  await expect(map.getByRole("group", { name: /Loop C, The Terrace/ }).getByRole("link")).toHaveCount(14);
  await expect(map.getByText("C-07", { exact: true })).toBeVisible();
  await expect(map.getByText("100 ft", { exact: true })).toBeVisible();
  await expectNoSideways(page);
  await map.getByRole("link", { name: /^Site C-07: / }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Site C-07" })).toBeVisible();
});

test("a guest who needs an accessible site is led to no other", async ({ page }) => {
  await page.goto("/sites?kind=class-c&length=25+ft&accessible=1");
  const fitting = page.locator("h3").filter({ hasText: /Fits/ });
  await expect(fitting.first()).toBeVisible();
  for (const text of await fitting.allTextContents()) expect(["D-01", "D-02", "D-12", "E-10"]).toContain(text.slice(0, 4));
  await page.getByRole("link", { name: siteLink }).first().click();
  await expect(page.getByText("Kept for guests who need an accessible site").first()).toBeVisible();
});

test("an owner with exact numbers reads everything in meters, and the same sites in feet", async ({ page }) => {
  await page.goto("/sites?kind=travel-trailer&length=9.45+m&hitch=1.12+m&width=2.44+m&height=3.31+m&units=metric");
  await expect(page.getByText(/^9\.45\sm overall, 2\.44\sm wide, 3\.31\sm high$/)).toBeVisible();
  const list = page.locator("main ol").first();
  await expect(list).toContainText(/longest run \d+\.\d\d\sm/);
  // The other system stands in brackets where it stands at all.
  const told = ((await page.locator("main").textContent()) ?? "").replace(/\([^()]*\)/g, "");
  expect(/.{0,40}\d\s(ft|in)\b.{0,20}/.exec(told)).toBeNull();
  const order = await page.getByRole("link", { name: siteLink }).allTextContents();
  const answer = await page.getByRole("status").first().textContent();
  await page.getByRole("link", { name: "Feet and inches" }).click();
  await expect(page.getByText(/^31\sft overall/)).toBeVisible();
  await expect(page.getByRole("link", { name: siteLink })).toHaveText(order);
  await expect(page.getByRole("status").first()).toHaveText(answer ?? "");
});

test("what was taken from typical numbers is told, each with the way to one's own", async ({ page }) => {
  await page.goto(TRAILER);
  await page.getByText(/^What we took from typical numbers \(\d+\)$/).click();
  const height = page.getByRole("link", { name: "From the ground to the highest thing on the roof" });
  await expect(height).toBeVisible();
  await expect(page.getByRole("heading", { name: "What nobody knows" })).toBeVisible();
  await expect(page.getByText("The person on the ground decides. If it looks wrong", { exact: false })).toBeVisible();
  await height.click();
  await expect(page).toHaveURL(/\/rig\?kind=travel-trailer.*#field-height$/);
});

test("numbers that cannot be read are told, with the way back to them", async ({ page }) => {
  await page.goto("/sites?kind=travel-trailer&length=31+ft&width=0");
  await expect(page.locator("main").getByRole("alert")).toContainText("1 number needs another look before the sites can be checked.");
  await page.getByRole("link", { name: "Look at the numbers" }).click();
  await expect(page).toHaveURL(/\/rig\?/);
});

test("a comparison takes sites out and in, and says what is amiss", async ({ page }) => {
  await page.goto(TRAILER.replace("/sites", "/compare") + "&site=d08");
  await expect(page.getByText("Two or three sites can be compared.", { exact: false })).toBeVisible();
  await page.getByLabel("Add a site").selectOption({ label: "A-15: fits" });
  await page.getByRole("button", { name: "Add it" }).click();
  const columns = page.getByRole("columnheader");
  await expect(columns).toHaveCount(3);
  await expect(page.getByRole("row", { name: /^Loop differs/ })).toContainText("Loop D, Mill Circle");
  await page.getByRole("link", { name: "Take D-08 out of the comparison" }).click();
  await expect(columns).toHaveCount(2);
  await page.goto(TRAILER.replace("/sites", "/compare") + "&site=d08&site=a15&site=b05&site=c01");
  await expect(page.getByText("You ticked 4 sites. The first three are compared.")).toBeVisible();
  await expect(columns).toHaveCount(4);
  await page.goto(TRAILER.replace("/sites", "/compare") + "&site=zz9&site=a15");
  await expect(page.locator("main").getByRole("alert")).toHaveText("Not in this park: zz9.");
});

test("a site that does not fit says why and what would change it, and its neighbors in the order are a tap away", async ({ page }) => {
  await page.goto("/sites/a04?rig=demo-fw-42");
  await expect(page.getByRole("heading", { name: "Does not fit" })).toBeVisible();
  await expect(page.getByRole("heading", { name: "Why" })).toBeVisible();
  const place = Number(/^Number (\d+)/.exec((await page.getByText(/^Number \d+ of 72/).textContent()) ?? "")?.[1]);
  await page.getByRole("link", { name: /^Next best: / }).click();
  await expect(page.getByText(`Number ${place + 1} of 72 in the order`)).toBeVisible();
});

test("the plan's text alternative is tied to the drawing", async ({ page }) => {
  await page.goto("/sites/b05?rig=demo-tt-31");
  await expect(page.getByRole("img", { name: /^Plan of site B-05/ })).toHaveAccessibleDescription(/The site is a pull-through.*stands/);
});

test("a site that is not there is told so", async ({ page, watch }) => {
  watch.allow(/404/);
  const answer = await page.goto("/sites/zz99");
  expect(answer?.status()).toBe(404);
  await expect(page.getByRole("heading", { name: "There is no such page" })).toBeVisible();
});

for (const path of [
  TRAILER, "/sites?rig=demo-van-20", "/sites?rig=demo-fw-42&units=metric&loop=A", "/sites/b05?rig=demo-tt-31", "/sites/a04?rig=demo-fw-42", "/sites/c07",
  "/compare?rig=demo-tt-31&site=d08&site=b05&site=a04", "/compare", "/sites?kind=van&length=much",
]) {
  test(`${path} is accessible and never scrolls sideways`, async ({ page }) => {
    await page.goto(path);
    await expectNoSideways(page);
    await page.setViewportSize({ width: 360, height: 740 }); // the narrowest phone
    await expectNoSideways(page);
    await expectAccessible(page);
  });
}

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("list, filters, map, comparison and plan all work", async ({ page }) => {
    await page.goto(TRAILER);
    await expect(page.getByRole("status").first()).toHaveText(/^Of 72 sites/);
    await page.getByText("Show only some sites").click();
    await page.getByRole("checkbox", { name: /^Back-in/ }).check();
    await page.getByRole("button", { name: "Show these sites" }).click();
    await expect(page.getByText(/^56 of 72 sites pass your filters/)).toBeVisible();
    await page.getByRole("checkbox", { name: /^Compare site/ }).nth(0).check();
    await page.getByRole("checkbox", { name: /^Compare site/ }).nth(2).check();
    await page.getByRole("button", { name: "Compare the ticked sites" }).click();
    await expect(page.getByRole("columnheader")).toHaveCount(3);
    await page.getByRole("link", { name: "Back to all sites" }).click();
    await expect(page.getByRole("checkbox", { name: /^Compare site/, checked: true })).toHaveCount(2);
    await page.getByRole("region", { name: "Map of the park" }).getByRole("link", { name: "Loop D, Mill Circle" }).click();
    await page.getByRole("link", { name: siteLink }).first().click();
    await expect(page.getByRole("img", { name: /^Plan of site/ })).toBeVisible();
  });
});

test("a keyboard alone goes from the top of the page to a plan", async ({ page }) => {
  await page.goto(TRAILER);
  const link = page.getByRole("link", { name: siteLink }).first();
  // The head, the rig, two dates of four stops each, the filters folded away: the list comes before the map and its many marks.
  for (let i = 0; i < 26 && !(await link.evaluate((node) => node === document.activeElement)); i++) await page.keyboard.press("Tab");
  await expect(link).toBeFocused();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Space");
  await expect(page.getByRole("checkbox", { name: /^Compare site/ }).first()).toBeChecked();
  await page.keyboard.press("Shift+Tab");
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Site /);
});

test("on paper the answer stands without its switches", async ({ page }) => {
  await page.goto(`${TRAILER}&loop=D`);
  await page.emulateMedia({ media: "print" });
  await expect(page.getByRole("group", { name: /Loop D, Mill Circle/ })).toBeVisible();
  await expect(page.getByRole("heading", { name: /^Sites that fit/ })).toBeVisible();
  await expect(page.getByRole("button", { name: "Compare the ticked sites" })).toBeHidden();
  await expect(page.getByText("Show only some sites")).toBeHidden();
  await expect(page.getByRole("navigation", { name: "Units" })).toBeHidden();
});

test("a lost connection is told, keeps the page, and so is its coming back", async ({ page, context, watch }) => {
  watch.allow(/ERR_INTERNET_DISCONNECTED|WebSocket/);
  await page.goto(TRAILER);
  await expect(page.getByRole("status").first()).toHaveText(/^Of 72 sites/);
  await page.waitForLoadState("networkidle");
  await context.setOffline(true);
  const notice = page.getByText("No connection. What is on the page still stands; nothing new can be checked.");
  await expect(notice).toBeVisible();
  await page.getByRole("link", { name: siteLink }).first().click();
  await page.getByText("Show only some sites").click();
  await page.getByRole("button", { name: "Show these sites" }).click();
  await expect(page.getByRole("button", { name: "Show these sites" })).toBeVisible();
  await expect(notice).toBeVisible();
  expect(new URL(page.url()).pathname).toBe("/sites");
  await context.setOffline(false);
  await expect(page.getByText("The connection is back.")).toBeVisible();
  await page.getByRole("button", { name: "Show these sites" }).click();
  await expect(page).toHaveURL(/units=ft-in/);
});

for (const path of [TRAILER, "/sites/b05?rig=demo-tt-31", "/compare?rig=demo-tt-31&site=d08&site=b05"]) {
  test(`${path} takes less than 150 kB of compressed script`, async ({ page }) => {
    test.skip(Boolean(process.env["PADWRIGHT_TEST_SERVER"]), "a server for editing sends script as it is written");
    const sizes: number[] = [];
    page.on("response", async (response) => {
      if (response.request().resourceType() === "script") sizes.push(Number((await response.request().sizes()).responseBodySize));
    });
    await page.goto(path, { waitUntil: "networkidle" });
    expect(sizes.length).toBeGreaterThan(0);
    expect(sizes.reduce((a, b) => a + b, 0)).toBeLessThan(150_000);
  });
}
