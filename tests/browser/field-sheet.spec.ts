import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, test } from "./fixtures";

test.use({ as: "desk" });

/** How many pages Chromium's PDF has: each is an object of its own. */
const pagesOf = (pdf: Buffer): number => pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
/** The paper, points. */
const paperOf = (pdf: Buffer): string[] => [...new Set([...pdf.toString("latin1").matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, w, h]) => `${Math.round(Number(w))} x ${Math.round(Number(h))}`))];

test("a blank sheet, a site's and a whole loop's are chosen, and printed two pages a site on the paper that was chosen", async ({ page }) => {
  test.slow();
  await page.goto("/manage/park");
  await page.getByRole("link", { name: "Field sheets" }).click();
  await expect(page.getByRole("heading", { level: 1, name: "Field sheets" })).toBeVisible();
  await expect(page.getByRole("article", { name: "A blank sheet" }).getByRole("table", { name: "Hookups" }).getByRole("row")).toHaveCount(6);
  await expectAccessible(page);
  await expectNoSideways(page);

  await page.getByLabel("Sheets for").selectOption({ label: "C-07" });
  await page.getByLabel("Measured in").selectOption("Meters");
  await page.getByRole("button", { name: "Show the sheets" }).click();
  const sheet = page.getByRole("article", { name: "Site C-07" });
  await expect(sheet.getByRole("heading", { level: 2, name: "Site C-07" })).toBeVisible();
  await expect(sheet.getByRole("row", { name: /^Power pedestal/ })).toBeVisible();
  await expect(sheet).toContainText("Write meters, such as 10.55.");
  await expectAccessible(page);
  await expectNoSideways(page);

  const letter = await page.pdf({ preferCSSPageSize: true });
  expect([pagesOf(letter), paperOf(letter)]).toEqual([2, ["612 x 792"]]);

  await page.goto("/manage/survey/sheet?of=loop:C&paper=a4");
  const sites = Number(/: (\d+) sites/.exec(await page.getByLabel("Sheets for").locator("option:checked").innerText())![1]);
  await expect(page.getByText(`The sheets of ${sites - 1} more sites are printed after this one.`)).toBeVisible();
  const a4 = await page.pdf({ preferCSSPageSize: true });
  expect([pagesOf(a4), paperOf(a4)]).toEqual([2 * sites, ["595 x 842"]]);
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("the sheets are chosen just the same, and an address of nothing says so", async ({ page }) => {
    await page.goto("/manage/survey/sheet");
    await page.getByLabel("Sheets for").selectOption({ label: "A-01" });
    await page.getByRole("button", { name: "Show the sheets" }).click();
    await expect(page.getByRole("heading", { level: 2, name: "Site A-01" })).toBeVisible();
    await page.goto("/manage/survey/sheet?of=site:nowhere");
    await expect(page.getByText("There is no such site or loop. Here is a blank sheet.")).toBeVisible();
  });
});
