import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";

test.use({ as: "desk" });

/** Opens a page and waits until its scripts have taken it over: before that, what is pressed may be pressed on the page as the server made it. */
async function open(page: Page, path: string) {
  await page.goto(path, { waitUntil: "networkidle" });
}

/** A page that is left while parts of it are still on their way tells its console so: a journey lets each arrive. */
async function arrive(page: Page, title: string) {
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(title);
  await page.waitForLoadState("networkidle");
}

const siteTable = (page: Page) => page.getByRole("region", { name: "Table of sites" });
const firstSites = async (page: Page, n: number) => (await page.locator("tbody th").allTextContents()).slice(0, n);
const left = (page: Page) => page.getByRole("status").filter({ hasText: /sites?\./ });

test.describe("the table of sites", () => {
  test("a manager sorts, filters, chooses columns, reloads, opens a site and comes back to the same table", async ({ page }) => {
    await open(page, "/manage");
    await expect(left(page)).toHaveText("72 sites. In the park’s own order.");

    await page.getByRole("button", { name: "Pad length" }).click();
    await expect(page.getByRole("columnheader", { name: "Pad length" })).toHaveAttribute("aria-sort", "ascending");
    await page.getByRole("button", { name: "Pad length" }).click();
    await expect(page.getByRole("columnheader", { name: "Pad length" })).toHaveAttribute("aria-sort", "descending");
    await expect(left(page)).toHaveText("72 sites. Sorted by pad length, longest first.");
    await expect.poll(() => firstSites(page, 1)).toEqual(["B-08"]);

    await page.getByRole("combobox", { name: "Loop" }).selectOption("C");
    await expect(left(page)).toHaveText("14 of 72 sites. Sorted by pad length, longest first.");
    await page.getByLabel("Has 50 A").check();
    await page.getByText(/^Columns: 13 of 19$/).click();
    await page.getByLabel("Obstacles").check();
    await page.getByLabel("Water").uncheck();
    await expect(page.getByRole("columnheader", { name: "Obstacles" })).toBeVisible();
    await expect(page.getByRole("columnheader", { name: "Water" })).toHaveCount(0);
    await expect(page).toHaveURL(/\/manage\?loop=C&power50=1&sort=-pad-length&show=site,/);
    const told = await left(page).textContent(), order = await firstSites(page, 20);

    await page.reload({ waitUntil: "networkidle" });
    await expect(left(page)).toHaveText(told!);
    await expect.poll(() => firstSites(page, 20)).toEqual(order);
    await expect(page.getByRole("columnheader", { name: "Obstacles" })).toBeVisible();
    await expect(page.getByRole("combobox", { name: "Loop" })).toHaveValue("C");

    await siteTable(page).getByRole("link", { name: order[1]! }).click();
    await arrive(page, `Site ${order[1]}`);
    await expect(page.getByText(`2 of ${order.length} in the table`)).toBeVisible();
    await page.getByRole("link", { name: `Next: ${order[2]}` }).click();
    await arrive(page, `Site ${order[2]}`);
    await page.getByRole("link", { name: `Previous: ${order[1]}` }).click();
    await arrive(page, `Site ${order[1]}`);
    await page.getByRole("link", { name: "Back to the table" }).click();
    await expect(left(page)).toHaveText(told!);
    await expect.poll(() => firstSites(page, 20)).toEqual(order);
  });

  test("the browser's own way back finds the table as it was left", async ({ page }) => {
    await open(page, "/manage");
    await page.getByRole("button", { name: "Pad width" }).click();
    await page.getByLabel("Site, loop or name").fill("meadow");
    await expect(page).toHaveURL(/q=meadow.*sort=pad-width/);
    await expect(left(page)).toHaveText("16 of 72 sites. Sorted by pad width, narrowest first.");
    const order = await firstSites(page, 16);
    expect(order).toHaveLength(16);
    await siteTable(page).getByRole("link").first().click();
    await arrive(page, `Site ${order[0]}`);
    await page.goBack();
    await expect(left(page)).toHaveText("16 of 72 sites. Sorted by pad width, narrowest first.");
    await expect.poll(() => firstSites(page, 16)).toEqual(order);
    await page.getByRole("link", { name: "Padwright" }).click();
    await expect(page).toHaveURL(/\/$/);
    await page.goBack();
    await expect(left(page)).toHaveText("16 of 72 sites. Sorted by pad width, narrowest first.");
  });

  test("where nothing matches it says so, and clears", async ({ page }) => {
    await open(page, "/manage?q=nowhere&loop=A");
    await expect(page.getByText("No site matches these filters.")).toBeVisible();
    await expect(left(page)).toHaveText("0 of 72 sites. In the park’s own order.");
    await expectAccessible(page);
    await page.getByText("No site matches these filters.").locator("..").getByRole("link", { name: "Clear filters" }).click();
    await expect(left(page)).toHaveText("72 sites. In the park’s own order.");
    await expect(page.getByLabel("Site, loop or name")).toHaveValue("");
    await expect(page).toHaveURL(/\/manage$/);
  });

  test("the keyboard alone filters, sorts and opens", async ({ page }) => {
    await open(page, "/manage");
    await page.getByLabel("Site, loop or name").focus();
    await page.keyboard.type("terrace");
    await expect(left(page)).toHaveText("14 of 72 sites. In the park’s own order.");
    await page.keyboard.press("Enter"); // out of habit: nothing is lost
    await expect(left(page)).toHaveText("14 of 72 sites. In the park’s own order.");
    await page.getByRole("button", { name: "Slope along" }).focus();
    await page.keyboard.press("Enter");
    await page.keyboard.press("Space");
    await expect(left(page)).toHaveText("14 of 72 sites. Sorted by slope along, steepest first.");
    await siteTable(page).focus();
    await expect(siteTable(page)).toBeFocused();
    const [steepest] = await firstSites(page, 1);
    await siteTable(page).getByRole("link").first().focus();
    await page.keyboard.press("Enter");
    await expect(page.getByRole("heading", { level: 1 })).toHaveText(`Site ${steepest}`);
  });

  test("meters are kept with the rest", async ({ page }) => {
    await open(page, "/manage?loop=C&sort=-pad-length");
    await page.getByRole("link", { name: "Meters" }).click();
    await expect(page.getByRole("cell", { name: "14.60 m" }).first()).toBeVisible();
    await page.getByRole("button", { name: "Power" }).click();
    await expect(page).toHaveURL(/loop=C&sort=power&units=metric$/);
    const [label] = await firstSites(page, 1);
    await siteTable(page).getByRole("link").first().click();
    await arrive(page, `Site ${label}`);
    await expect(page.getByRole("definition").filter({ hasText: /[\d.]+\sm long and [\d.]+\sm wide/ })).toBeVisible();
    await page.getByRole("link", { name: "Back to the table" }).click();
    await expect(page).toHaveURL(/units=metric/);
  });

  test("scrolls within itself, its heading and first column standing", async ({ page }) => {
    await page.setViewportSize({ width: 360, height: 740 });
    await open(page, "/manage");
    await expectNoSideways(page);
    const region = siteTable(page);
    const moved = await region.evaluate((box) => {
      box.scrollTo(400, 900);
      const edge = box.getBoundingClientRect();
      const corner = box.querySelector("thead th")!.getBoundingClientRect();
      return { by: [box.scrollLeft, box.scrollTop], corner: [corner.left - edge.left, corner.top - edge.top].map(Math.round), focusable: (box as HTMLElement).tabIndex };
    });
    expect(moved.by[0]).toBeGreaterThan(100);
    expect(moved.by[1]).toBeGreaterThan(100);
    for (const offset of moved.corner) expect(Math.abs(offset)).toBeLessThanOrEqual(2); // the border of the region
    expect(moved.focusable).toBe(0);
  });

  test("prints as a plain ruled table: the chosen rows and columns, nothing to press", async ({ page, browserName }) => {
    await page.goto("/manage?loop=D&sort=-pad-length&show=site,entry,pad-length,power,measured");
    await page.emulateMedia({ media: "print" });
    await expect(page.getByText(/^Quillback Meadow, sites as measured\. Printed /)).toBeVisible();
    await expect(page.getByText("Only: loop D, Mill Circle.")).toBeVisible();
    await expect(page.getByRole("search")).toBeHidden();
    await expect(page.getByRole("link", { name: "Desk" })).toBeHidden();
    const shown = await siteTable(page).evaluate((box) => ({
      rows: box.querySelectorAll("tbody tr").length,
      heads: [...box.querySelectorAll("thead th")].map((th) => th.textContent?.trim()),
      clipped: box.scrollWidth > box.clientWidth + 1 || box.scrollHeight > box.clientHeight + 1,
      position: getComputedStyle(box.querySelector("thead th")!).position,
    }));
    expect(shown).toEqual({ rows: 14, heads: ["Site", "Entry", "Pad length", "Power", "Measured on"], clipped: false, position: "static" });
    test.skip(browserName !== "chromium", "only Chromium prints to a file");
    const sheet = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(sheet.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    const [, width, height] = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(sheet)!;
    expect(Number(width)).toBeGreaterThan(Number(height)); // on its side
  });

  for (const path of ["/manage", "/manage?show=site,loop,entry,pad-length,pad-width,slope-along,slope-across,surface,power,water,sewer,max-length,guests,vehicles,pets,tents,accessible,obstacles,measured", "/manage/sites/c07", "/manage/sites/d01?units=metric", "/desk/check", "/desk/check?call=fw+37&loop=D", "/desk/check?call=camper", "/desk/check/b05?call=tt+31"]) {
    test(`${path.slice(0, 40)} is accessible and never scrolls sideways`, async ({ page }) => {
      await page.goto(path);
      await expectNoSideways(page);
      await page.setViewportSize({ width: 360, height: 740 });
      await expectNoSideways(page);
      await expectAccessible(page);
    });
  }
});

test.describe("one site on record", () => {
  test("tells every measurement in words, and which rigs fit, each linked to its plan", async ({ page }) => {
    await page.goto("/manage/sites/c07");
    await expect(page.getByText(/Loop C, The Terrace · back-in/)).toBeVisible();
    await expect(page.getByText("Gravel spurs on a hillside; bring blocks.", { exact: false })).toBeVisible();
    await expect(page.getByRole("img", { name: /^Plan of site C-07/ })).toBeVisible();
    const record = page.getByRole("region", { name: "What is on record" });
    for (const line of [
      /^May 2, 2026, \d+ (months?|years?)/, "Gravel, 47 ft 11 in long and 18 ft 8 1/2 in wide at its longest and widest.", "Along: falls toward the back 1.9 %.",
      "37 ft 9 in past the entry edge, 7 ft 8 1/2 in right of the centerline.", "20 A, 30 A and 50 A at 120 V, 3 ft 1 1/2 in above the ground.", "51 psi, 2 ft 3 1/2 in above the ground.",
      "The ground there lies 1 ft 9 1/2 in below the entry edge.", "Trunk 1 ft 3 1/2 in through. Limbs from 14 ft 5 in to 42 ft 8 in up, reaching 7 ft 2 1/2 in out.", "May be taken away.", "Posted limit 42 ft, body and hitch together.",
    ]) await expect(record.getByText(line).first()).toBeVisible();

    const fits = page.getByRole("region", { name: "Which kinds and lengths of rig fit" });
    await expect(fits.getByRole("row")).toHaveCount(9);
    const cell = fits.getByRole("link", { name: /^Travel trailer, 31.ft: / });
    const told = (await cell.getAttribute("aria-label"))!.split(": ")[1]!;
    await cell.click();
    await expect(page).toHaveURL(/\/sites\/c07\?kind=travel-trailer&length=31/);
    await expect(page.getByRole("heading", { name: told, exact: true }).first()).toBeVisible();
  });

  test("an accessible site is asked about for those it is kept for", async ({ page }) => {
    await page.goto("/manage/sites/d01");
    await expect(page.getByText("Each is asked about as for a guest who needs an accessible site", { exact: false })).toBeVisible();
    await expect(page.getByRole("link", { name: /: Fits$/ }).first()).toBeVisible();
  });

  test("spot heights tell how far the ground is from a plane", async ({ page }) => {
    await page.goto("/manage/sites/c07");
    await expect(page.getByText("No spot heights", { exact: false })).toBeVisible();
    await page.goto("/manage/sites/c03");
    await expect(page.getByText(/From \d+ spot heights; the one that fits the plane worst is off by|Recorded as two slopes/)).toBeVisible();
  });

  test("a site that is not there is told so", async ({ page, watch }) => {
    watch.allow(/404/);
    expect((await page.goto("/manage/sites/zz99"))?.status()).toBe(404);
  });
});

test.describe("the desk", () => {
  test("a clerk with a caller answers by keyboard alone", async ({ page }) => {
    await open(page, "/desk/check");
    await expect(page.getByLabel("Kind and length")).toBeFocused();
    await page.keyboard.type("tt 31");
    await page.keyboard.press("Enter");
    const answer = page.getByRole("status").filter({ hasText: /^Travel trailer, 31\sft overall\. \d+ sites? fits? as it is\./ });
    await expect(answer).toBeVisible({ timeout: 30_000 });
    await expect(page).toHaveURL(/\/desk\/check\?call=tt\+31/);
    const before = await answer.textContent();

    // The focus is on the question that changes the most.
    const questions = page.locator("[data-question]");
    await expect(questions.first().getByRole("link").first()).toBeFocused({ timeout: 30_000 });
    const sizes = (await questions.allTextContents()).map((text) => [...text.replace(/^.*\?/, "").matchAll(/(\d+) (?:fewer|more|that)/g)].reduce((sum, [, n]) => sum + Number(n), 0));
    expect(sizes.length).toBeGreaterThan(1);
    expect([...sizes].sort((a, b) => b - a)).toEqual(sizes);

    const drain = page.locator('[data-question="sewer"]');
    const lost = Number(/(\d+) fewer/.exec((await drain.textContent())!)![1]);
    while (!(await drain.getByRole("link").first().evaluate((link) => link === document.activeElement))) await page.keyboard.press("ArrowDown");
    await page.keyboard.press("y");
    await expect(page).toHaveURL(/sewer=yes/, { timeout: 30_000 });
    await expect(page.getByRole("list", { name: "Answered" })).toContainText("Do they need a sewer drain at the site? Yes");
    // What the question foretold is what comes of the answer.
    const taking = (text: string) => { const [, fits, gear] = /(\d+|No) sites? fits? as it is\. (\d+|None) more/.exec(text)!; return (Number(fits) || 0) + (Number(gear) || 0); };
    await expect.poll(async () => taking((await page.getByRole("status").filter({ hasText: /^Travel trailer/ }).textContent())!)).toBe(taking(before!) - lost);

    await page.keyboard.press("Escape");
    await expect(page.getByLabel("Kind and length")).toBeFocused();
    await page.keyboard.type("cc 25"); // the line before is selected: the next caller
    await page.keyboard.press("Enter");
    await expect(page.getByRole("status").filter({ hasText: /^Small motorhome, 25\sft overall/ })).toBeVisible({ timeout: 30_000 });
    await expect(page).not.toHaveURL(/sewer=yes/);
  });

  test("a clerk whose Enter comes before the page's script goes on by keyboard all the same", async ({ page }) => {
    await page.route(/_next\/static\/.*\.js/, async (route) => {
      if (new URL(page.url()).search === "") return; // no script until the form has gone by itself
      await route.continue();
    });
    await page.goto("/desk/check", { waitUntil: "commit" });
    await page.getByLabel("Kind and length").fill("tt 31");
    await page.getByLabel("Kind and length").press("Enter");
    await expect(page).toHaveURL(/\/desk\/check\?.*call=tt\+31/);
    await expect(page.locator("[data-question]").first().getByRole("link").first()).toBeFocused();
    await page.keyboard.press("y");
    await expect(page).toHaveURL(/=yes/);
  });

  test("an answer is taken back, a loop is chosen, a site's plan opened with the same rig", async ({ page }) => {
    await open(page, "/desk/check?call=tt+31&right-slide=yes&pets=no");
    await expect(page.getByRole("list", { name: "Answered" }).getByRole("listitem")).toHaveCount(2);
    await page.getByRole("link", { name: "Take back the answer to: Do they bring a pet?" }).click();
    await expect(page).not.toHaveURL(/pets=/);
    await page.getByRole("combobox", { name: "Loop" }).selectOption("B");
    await page.getByRole("button", { name: "Check" }).click();
    await expect(page.getByRole("status").filter({ hasText: "In loop B." })).toBeVisible({ timeout: 30_000 });
    await expect(page).toHaveURL(/loop=B&.*right-slide=yes|right-slide=yes.*loop=B/);
    await page.getByRole("link", { name: /^Plan of site B-/ }).first().click();
    await expect(page.getByRole("img", { name: /^Plan of site B-/ })).toBeVisible();
    // The plan in words names the slide that was answered.
    await expect(page.getByRole("img", { name: /^Plan of site B-/ })).toHaveAccessibleDescription(/right slide \(curb side\)/);
    await page.getByRole("link", { name: "Back to the caller" }).click();
    await expect(page.getByLabel("Kind and length")).toHaveValue("tt 31");
  });

  test("what cannot be read is told beside the field, all at once, and kept", async ({ page }) => {
    await open(page, "/desk/check");
    const field = page.getByLabel("Kind and length");
    await field.fill("motorhome");
    await field.press("Enter");
    await expect(field).toHaveAttribute("aria-invalid", "true");
    await expect(field).toHaveAccessibleDescription(/“motorhome” may mean large motorhome \(ca\) or small motorhome \(cc\)\. Ask which\. How long is it, hitch included\?/);
    await expect(field).toHaveValue("motorhome");
    await expect(field).toBeFocused();
    await page.reload();
    await expect(field).toHaveValue("motorhome");
    await expect(field).toHaveAttribute("aria-invalid", "true");
  });
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("the table is there in the order of the address, and the form sorts and filters", async ({ page }) => {
    await page.goto("/manage?sort=-pad-length&loop=C");
    await expect.poll(() => firstSites(page, 3)).toEqual(["C-07", "C-02", "C-12"]);
    await page.getByLabel("Site, loop or name").fill("c-0");
    await page.getByRole("button", { name: "Apply" }).click();
    await expect(left(page)).toHaveText("9 of 72 sites. Sorted by pad length, longest first.");
    await page.getByRole("button", { name: "Pad width" }).click();
    await expect(left(page)).toHaveText("9 of 72 sites. Sorted by pad width, narrowest first.");
    await page.getByText(/^Columns: /).click();
    await page.getByLabel("Obstacles").check();
    await page.getByRole("button", { name: "Apply" }).click();
    await expect(page.getByRole("columnheader", { name: "Obstacles" })).toBeVisible();
    await expect(left(page)).toHaveText("9 of 72 sites. Sorted by pad width, narrowest first.");
    await page.getByRole("link", { name: "Clear filters" }).click();
    await expect(left(page)).toHaveText("72 sites. Sorted by pad width, narrowest first.");
    await siteTable(page).getByRole("link").first().click();
    await expect(page.getByRole("heading", { name: "What is on record" })).toBeVisible();
  });

  test("the desk answers, by line or by lists, and takes answers", async ({ page }) => {
    await page.goto("/desk/check");
    await page.getByLabel("Kind and length").fill("fw 37");
    await page.getByRole("button", { name: "Check" }).click();
    await expect(page.getByRole("status").filter({ hasText: /^Fifth wheel, 37\sft overall/ })).toBeVisible();
    await page.getByLabel("Kind and length").fill("");
    await page.getByText("Choose from lists instead").click();
    await page.getByLabel("Kind", { exact: true }).selectOption("van");
    await page.getByLabel("Length overall").fill("19 ft");
    await page.getByRole("button", { name: "Check" }).click();
    await expect(page.getByRole("status").filter({ hasText: /^Van, 19\sft overall/ })).toBeVisible();
    await expect(page.getByRole("link", { name: /^Plan of site/ }).first()).toBeVisible();
  });
});
