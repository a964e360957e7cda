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

for (const path of ["/docs/api", "/no/such/page"]) {
  test(`${path} is accessible and never scrolls sideways`, async ({ page, watch }) => {
    if (path.startsWith("/no/")) watch.allow(/404/);
    await page.goto(path);
    await expectNoSideways(page);
    await page.setViewportSize({ width: 360, height: 740 }); // the narrowest phone
    await expectNoSideways(page);
    await expectAccessible(page);
  });
}
