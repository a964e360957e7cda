import { expectAccessible } from "./expectations";
import { expect, test } from "./fixtures";

const trailer = "/sites?kind=travel-trailer&length=28+ft";

test("a guest is asked for one number at a time, the one that decides most, until nothing hangs on any", async ({ page }) => {
  await page.goto(trailer);
  const waiting = page.getByRole("region", { name: /^Sites waiting for one measurement: \d+/ });
  await expect(waiting.getByRole("listitem").first()).toContainText(/Measure .*Under .* it/);
  const before = await waiting.getByRole("heading", { level: 2 }).textContent();

  await page.getByRole("heading", { name: "Measure this next" }).click();
  await expect(page.getByText("Measure from the ground to the highest thing on the roof.").first()).toBeVisible();
  await expect(page.getByText(/^Over .* sites? (drop out|fits?)/).first()).toBeVisible();
  await expect(page.getByRole("img", { name: /^Measure from the ground to the highest/ })).toBeVisible();
  await expectAccessible(page);
  await page.getByLabel("Your number").fill("9' 6\"");
  await page.getByRole("button", { name: "Check again" }).click();

  // The next one comes by itself, the answers have moved, and the address keeps the number.
  await expect(page).toHaveURL(/height=9/);
  await expect(page.getByLabel("Your number")).toBeVisible();
  await expect(page.getByText("Measure from the ground to the highest thing on the roof.")).toHaveCount(0);
  await expect(waiting.getByRole("heading", { level: 2 })).not.toHaveText(before ?? "");

  for (let asked = 0; asked < 40 && (await page.getByRole("link", { name: "I can’t measure that now" }).count()) > 0; asked++) {
    await page.getByRole("link", { name: "I can’t measure that now" }).click();
    await page.waitForURL((url) => url.searchParams.getAll("skip").length === asked + 1);
  }
  await expect(page.getByText("Some answers hang on numbers you could not measure.")).toBeVisible();
  await page.getByRole("link", { name: "Ask me again" }).click();
  await expect(page.getByRole("heading", { name: "Measure this next" })).toBeVisible();
});

test("a rig that was measured is asked nothing", async ({ page }) => {
  await page.goto("/sites?rig=demo-tt-31");
  await expect(page.getByRole("status").first()).toHaveText(/^Of 72 sites/);
  await expect(page.getByText("Measure this next")).toHaveCount(0);
  await expect(page.getByText("waiting for one measurement")).toHaveCount(0);
});

test("a number that cannot be read is told where it can be put right", async ({ page }) => {
  await page.goto(`${trailer}&ask=1`);
  await page.getByLabel("Your number").fill("tall");
  await page.getByRole("button", { name: "Check again" }).click();
  await expect(page.locator("main").getByRole("alert")).toContainText(/needs another look/);
});

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("the questions are there all the same", async ({ page }) => {
    await page.goto(`${trailer}&ask=1`);
    await page.getByLabel("Your number").fill("3.1 m");
    await page.getByRole("button", { name: "Check again" }).click();
    await expect(page).toHaveURL(/height=3\.1/);
    await expect(page.getByRole("heading", { name: "Measure this next" })).toBeVisible();
  });
});
