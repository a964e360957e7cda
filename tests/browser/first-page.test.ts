import AxeBuilder from "@axe-core/playwright";
import type { Page } from "@playwright/test";
import { expect, test } from "./fixtures";

async function expectNoSideways(page: Page) {
  const [shown, there] = await page.evaluate(() => [document.documentElement.clientWidth, document.documentElement.scrollWidth]);
  expect(there).toBeLessThanOrEqual(shown!);
}

async function expectAccessible(page: Page) {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.target.join(" ")).join(", ")}`)).toEqual([]);
}

test("a guest chooses a rig and reads which sites fit, why, and where it stands", async ({ page }) => {
  await page.goto("/");
  await expect(page.getByText("Choose a rig to see the sites.")).toBeVisible();
  await page.getByLabel("Start from").selectOption({ label: "Travel trailer, 31 ft, one slide" });
  await page.getByRole("button", { name: "Use this rig" }).click();

  await expect(page.getByRole("status")).toHaveText(/^Of \d+ sites, \d+ fit with what you have/);
  const fits = page.getByRole("region", { name: /^Sites that fit: \d+/ });
  await expect(fits.getByRole("listitem").first()).toContainText("room");
  await expect(page.getByRole("region", { name: /^Sites that do not fit: \d+/ })).toBeVisible();
  await expect(page.getByRole("img", { name: /^Plan of site .*: Fits$/ })).toHaveCount(3);
  await expect(page.getByRole("complementary", { name: "Before you rely on this" })).toBeVisible();
  await expectNoSideways(page);
});

test("numbers that cannot be read are told beside their fields, all at once, and kept", async ({ page }) => {
  await page.goto("/?rig=demo-tt-31&length=thirty&width=0&adults=x");
  await expect(page.locator("main").getByRole("alert")).toHaveText("3 numbers need another look before the sites can be checked.");
  const length = page.getByLabel("Length overall, hitch included");
  await expect(length).toHaveValue("thirty");
  await expect(length).toHaveAccessibleDescription("“thirty” cannot be read as a length. Write it like 24 ft 6 in or 24.5.");
  await expect(page.getByLabel("Width", { exact: true })).toHaveAccessibleDescription("This has to be more than zero.");
  await expect(page.getByLabel("Adults")).toHaveAttribute("aria-invalid", "true");
  await page.reload();
  await expect(length).toHaveValue("thirty");
  await expectNoSideways(page);
  await expectAccessible(page);
  await length.fill("30 ft");
  await page.getByLabel("Width", { exact: true }).fill("8'");
  await page.getByLabel("Adults").fill("2");
  await page.getByRole("button", { name: "Check the sites" }).click();
  await expect(page.getByRole("status")).toHaveText(/^Of \d+ sites/);
});

for (const path of ["/", "/docs/api", "/no/such/page"]) {
  test(`${path} is accessible and never scrolls sideways`, async ({ page, watch }) => {
    if (path.startsWith("/no/")) watch.allow(/404/);
    await page.goto(path);
    await expectNoSideways(page);
    await page.setViewportSize({ width: 360, height: 740 }); // the narrowest phone
    await expectNoSideways(page);
    await expectAccessible(page);
  });
}

test.describe("without script", () => {
  test.use({ javaScriptEnabled: false });

  test("everything still works", async ({ page }) => {
    await page.goto("/");
    await page.getByLabel("Start from").selectOption({ label: "Travel trailer, 31 ft, one slide" });
    await page.getByRole("button", { name: "Use this rig" }).click();
    await expect(page.getByRole("status")).toHaveText(/^Of \d+ sites/);
    await page.getByRole("link", { name: /^See the plan of site/ }).first().click();
    await expect(page.getByRole("img", { name: /^Plan of site/ })).toBeVisible();
  });
});

test("a keyboard alone goes from the first field to a plan", async ({ page }) => {
  await page.goto("/?rig=demo-tt-31");
  await page.keyboard.press("Tab"); // the name
  await page.keyboard.press("Tab"); // how it works
  await page.keyboard.press("Tab");
  await expect(page.getByRole("link", { name: "Skip to the answer" })).toBeFocused();
  await page.keyboard.press("Enter");
  await page.keyboard.press("Tab");
  await expect(page.getByRole("link", { name: /^See the plan of site/ }).first()).toBeFocused();
  await page.keyboard.press("Enter");
  await expect(page.getByRole("heading", { level: 1 })).toHaveText(/^Site /);
});

test("a guest's page takes less than 150 kB of compressed script", async ({ page }) => {
  const sizes: number[] = [];
  page.on("response", async (response) => {
    if (response.request().resourceType() === "script") sizes.push(Number((await response.request().sizes()).responseBodySize));
  });
  await page.goto("/?rig=demo-tt-31", { waitUntil: "networkidle" });
  expect(sizes.length).toBeGreaterThan(0);
  expect(sizes.reduce((a, b) => a + b, 0)).toBeLessThan(150_000);
});
