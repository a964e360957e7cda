import AxeBuilder from "@axe-core/playwright";
import { expect, type Page } from "@playwright/test";

/** The page itself never scrolls sideways; a region inside it may. */
export async function expectNoSideways(page: Page): Promise<void> {
  const [shown, there] = await page.evaluate(() => [document.documentElement.clientWidth, document.documentElement.scrollWidth]);
  expect(there).toBeLessThanOrEqual(shown!);
}

/** Nothing that axe finds fault with, named by rule and place where there is. */
export async function expectAccessible(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.target.join(" ")).join(", ")}`)).toEqual([]);
}
