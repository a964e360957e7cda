import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";

test.use({ as: "desk" });

function table(page: Page) {
  return page.getByRole("region", { name: /^Table of rigs and sites/ }).locator("table");
}

/** The table, once it is worked out and the keyboard can be used. */
async function openGrid(page: Page, address = "/manage/fits"): Promise<void> {
  await page.goto(address);
  await expect(page.getByRole("grid")).toBeVisible({ timeout: 45_000 });
}

/** How many rigs each site takes, down the page. */
async function takenDown(page: Page): Promise<number[]> {
  return table(page).locator("tbody tr > td:nth-of-type(1) span[aria-hidden]").allTextContents().then((all) => all.map((text) => Number(/^\d+/.exec(text)?.[0])));
}

test.describe("every rig on every site", () => {
  test("a manager opens it, switches rigs, sorts, reads a reason and opens the plan", async ({ page }) => {
    await openGrid(page);
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Every rig on every site");
    await expect(page.getByRole("status")).toHaveText(/^Of 1,944 pairs of a site and a rig, \d+ work, \d+ of them with gear to bring\.$/);
    await expect(table(page).locator("tbody tr")).toHaveCount(72);
    await expect(table(page).locator("thead th")).toHaveCount(27 + 2);

    await page.getByLabel("Rigs", { exact: true }).selectOption("fifth-wheel");
    await page.getByLabel("Order of sites").selectOption("turned-away");
    await page.getByRole("button", { name: "Show" }).click();
    await expect(page).toHaveURL(/rigs=fifth-wheel.*sites=turned-away/);
    await expect(page.getByRole("grid")).toBeVisible({ timeout: 45_000 });
    await expect(table(page).locator("thead th")).toHaveCount(5 + 2);
    await expect(table(page).locator("thead th").nth(2)).toContainText("Fifth wheel");
    const taken = await takenDown(page);
    expect(taken).toHaveLength(72);
    expect(taken).toEqual([...taken].sort((a, b) => a - b));

    const refused = page.locator("td[data-verdict=no] a").first();
    await refused.focus();
    const reason = await refused.locator("span").last().textContent();
    expect(reason?.length).toBeGreaterThan(20);
    if (await page.evaluate(() => matchMedia("(hover: hover)").matches)) {
      await expect(page.locator("main p[aria-hidden]")).toContainText(reason!.replace(/^: /, ""));
    }
    await refused.press("Enter");
    await expect(page).toHaveURL(/\/sites\/[a-z0-9]+\?kind=fifth-wheel&length=\d+\+ft&units=ft-in/);
    await expect(page.getByRole("heading", { level: 1 })).toBeVisible();
  });

  test("says the same of a cell as the guest's page it leads to", async ({ page }) => {
    await openGrid(page);
    const labels = { fits: /Fits/, gear: /Fits with extra gear/, no: /Does not fit/ } as const;
    for (const verdict of ["fits", "gear", "no"] as const) {
      const cell = page.locator(`td[data-verdict=${verdict}] a`).nth(5);
      await page.goto((await cell.getAttribute("href"))!);
      await expect(page.getByRole("main")).toContainText(labels[verdict]);
      await page.goBack();
      await expect(page.getByRole("grid")).toBeVisible();
    }
  });

  test("is one stop for the tab key, and arrow keys lead through it", async ({ page }, { project }) => {
    test.skip(project.name === "phone", "a keyboard is for the desk");
    await openGrid(page);
    await expect(page.locator("[data-at][tabindex='0']")).toHaveCount(1);
    await page.locator("[data-at='0 0']").focus();
    const at = () => page.evaluate(() => (document.activeElement as HTMLElement).dataset.at);
    for (const [key, cell] of [["ArrowRight", "0 1"], ["ArrowDown", "1 1"], ["PageDown", "11 1"], ["End", "11 26"], ["Home", "11 -1"], ["Control+Home", "0 0"], ["ArrowUp", "-1 0"], ["Control+End", "71 26"]] as const) {
      await page.keyboard.press(key);
      await expect.poll(at).toBe(cell);
    }
    await expect(page.locator("[data-at][tabindex='0']")).toHaveCount(1);
    await page.keyboard.press("Tab");
    await expect.poll(at).toBeUndefined();
    await page.keyboard.press("Shift+Tab");
    await expect.poll(at).toBe("71 26");
    // What has the focus is not under the heads that stay in place.
    await page.keyboard.press("Control+Home");
    const [cell, head] = await Promise.all([page.locator("[data-at='0 0']").boundingBox(), table(page).locator("thead th").first().boundingBox()]);
    expect(cell!.y).toBeGreaterThanOrEqual(head!.y + head!.height - 1);
  });

  test("keeps its heads in sight, and scrolls within its own region down to 360 pixels", async ({ page }) => {
    await page.setViewportSize({ width: 360, height: 740 });
    await openGrid(page, "/manage/fits?rigs=all");
    await expectNoSideways(page);
    const region = page.getByRole("region", { name: /Table of rigs and sites/ });
    await region.evaluate((e) => e.scrollTo(600, 900));
    const box = (await region.boundingBox())!;
    const [corner, site] = await Promise.all([table(page).locator("thead th").first().boundingBox(), table(page).locator("tbody th").nth(25).boundingBox()]);
    expect(Math.abs(corner!.y - box.y)).toBeLessThan(4);
    expect(Math.abs(site!.x - box.x)).toBeLessThan(4);
    expect(await region.evaluate((e) => e.scrollLeft)).toBeGreaterThan(0);
  });

  test("is accessible, in feet and in meters", async ({ page }) => {
    await openGrid(page, "/manage/fits?rigs=travel-trailer&loop=A");
    await expectAccessible(page);
    await openGrid(page, "/manage/fits?rigs=travel-trailer&loop=A&units=metric");
    await expect(table(page).locator("thead th").nth(2)).toContainText("m");
    await expectAccessible(page);
  });

  test("prints the whole table with its heads, and nothing to press", async ({ page }) => {
    await openGrid(page);
    await page.emulateMedia({ media: "print" });
    await expect(page.getByRole("button", { name: "Show" })).toBeHidden();
    await page.setViewportSize({ width: 1040, height: 720 }); // a sheet of A4 on its side, within its margins
    await expectNoSideways(page);
    const { outer, inner } = await page.getByRole("grid").evaluate((table) => ({ outer: table.parentElement!.clientHeight, inner: table.scrollHeight }));
    expect(outer).toBeGreaterThanOrEqual(inner);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    const sizes = [...pdf.matchAll(/\/MediaBox\s*\[\s*0 0 (\d+)[\d.]* (\d+)/g)];
    expect(sizes.length).toBeGreaterThan(1);
    for (const [, width, height] of sizes) expect(Number(width)).toBeGreaterThan(Number(height));
  });

  test("tells how far it is while it works, and has the page ready then", async ({ page, request }) => {
    // The route works out what the page would; what is known by then is told at once.
    const answer = await request.get("/manage/fits/progress?rigs=all");
    expect(answer.headers()["content-type"]).toContain("application/x-ndjson");
    const lines = (await answer.text()).trim().split("\n").map((line) => JSON.parse(line) as { done: number; total: number; complete?: boolean });
    expect(lines.at(-1)).toEqual({ done: 72 * 40, total: 72 * 40, complete: true });
    expect(lines.map(({ done }) => done)).toEqual(lines.map(({ done }) => done).sort((a, b) => a - b));
    await openGrid(page, "/manage/fits?rigs=all");
    await expect(table(page).locator("tbody tr")).toHaveCount(72);
  });

  test("takes any address", async ({ page }) => {
    await openGrid(page, "/manage/fits?rigs=%00&loop=Z&sites=&across=9&units=x");
    await expect(table(page).locator("tbody tr")).toHaveCount(72);
  });
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("the table is there, its cells are links, and the form chooses", async ({ page }) => {
    await page.goto("/manage/fits?rigs=class-c&loop=B");
    // Where it takes longer than a moment the page asks for itself again until all is known.
    await expect(page.getByRole("table").first()).toBeVisible({ timeout: 45_000 });
    await expect(table(page).locator("tbody tr").first().getByRole("link").nth(1)).toHaveAttribute("href", /^\/sites\/b01\?kind=class-c/);
    await page.getByLabel("Rigs", { exact: true }).selectOption("van");
    await page.getByRole("button", { name: "Show" }).click();
    await expect(table(page).locator("thead th").nth(2)).toContainText("Van", { timeout: 45_000 });
  });
});

test.describe("a site's sections", () => {
  test("tell who it turns away, what one change would let in, and lengths to post", async ({ page }) => {
    await page.goto("/manage/sites/a07");
    const turned = page.getByRole("region", { name: "Who it turns away" }), longest = page.getByRole("region", { name: "The longest rigs it takes" });
    await expect(turned.getByText(/^\d+ of the 27 rigs the park keeps find no place here\.$/)).toBeVisible({ timeout: 30_000 });
    await expect(turned.getByRole("row", { name: /^The posted length limit/ })).toBeVisible();
    await expect(turned.getByText(/^Lets in \d+ of \d+: “/).first()).toBeVisible();
    await turned.getByText(/^\d+ rigs turned away/).click();
    await expect(turned.getByRole("listitem").first().getByRole("link")).toHaveAttribute("href", /^\/sites\/a07\?rig=/);
    await expect(longest.getByText(/^Travel trailers up to \d+\sft/)).toBeVisible({ timeout: 30_000 });
    await expect(longest.getByRole("rowheader", { name: "Travel trailers" })).toBeVisible();
    await expectAccessible(page);
    await page.setViewportSize({ width: 360, height: 740 });
    await expectNoSideways(page);
  });
});

test.describe("a rig on the whole park", () => {
  test("lists every site, best first, with why and what would turn it", async ({ page }) => {
    await openGrid(page, "/manage/fits?loop=A");
    await table(page).locator("thead th").nth(2 + 19).getByRole("link").click();
    await expect(page.getByRole("heading", { level: 1 })).toHaveText("Travel trailer, 31 ft, one slide on every site");
    const rows = page.locator("tbody tr");
    await expect(rows).toHaveCount(72);
    await expect(rows.first()).toContainText("Fits");
    await expect(rows.last()).toContainText("Does not fit");
    for (const text of await rows.locator("td:nth-of-type(2)").allTextContents()) expect(text.length).toBeGreaterThan(10);
    await expectAccessible(page);
    await page.setViewportSize({ width: 360, height: 740 });
    await expectNoSideways(page);
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 720, height: 960 });
    await expectNoSideways(page);
    await expect(page.getByRole("link", { name: "Every rig on every site" })).toBeHidden();
  });

  test("is not there for a rig the park does not keep", async ({ page, watch }) => {
    watch.allow(/404/);
    const answer = await page.goto("/manage/fits/no-such-rig");
    expect(answer?.status()).toBe(404);
  });
});
