import AxeBuilder from "@axe-core/playwright";
import { expect, test } from "./fixtures";

test.use({ as: "manager" });

test("a site is turned by typing and by keys, undone, and nothing is saved before the list was looked at", async ({ page }) => {
  await page.goto("/manage/map?site=c07");
  const bearing = page.locator("#map-bearing"), grip = page.locator("[data-site=c07]").first(), look = page.getByRole("button", { name: "Look at what moved" });
  await expect(look).toBeDisabled();
  const was = await bearing.inputValue();
  await expect(async () => {
    await bearing.fill("200");
    await expect(look).toBeEnabled({ timeout: 500 });
  }).toPass();
  await grip.focus();
  await page.keyboard.press(".");
  await expect(bearing).toHaveValue("201°");
  await expect(page.locator("[data-said]")).toHaveText(/^Site C-07: .*heading 201°$/);
  await look.click();
  await expect(page.getByRole("region", { name: "What moved" })).toContainText(/C-07: turned \d+(\.\d)?° (counter)?clockwise/);
  await expect(page.getByRole("button", { name: "Save 1 site" })).toBeVisible();
  await page.keyboard.press("Control+z");
  await page.keyboard.press("Control+z");
  await expect(bearing).toHaveValue(was);
  await expect(look).toBeDisabled();
  expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
});
