import type { Page } from "@playwright/test";
import { expect } from "./fixtures";

/** The site as it was loaded, whatever a run before left of it. */
export async function restoreFirst(page: Page, site: string): Promise<void> {
  await page.goto(`/manage/sites/${site}/history`);
  await expect(page.getByRole("heading", { name: /^History of site/ })).toBeVisible({ timeout: 60_000 });
  const restore = page.getByRole("button", { name: "Restore revision 1…" });
  if ((await restore.count()) === 0) return;
  await restore.click();
  await expect(page.getByRole("button", { name: "Give this change up" })).toBeVisible({ timeout: 60_000 });
  const save = page.getByRole("button", { name: /^Save/ });
  if ((await save.count()) > 0) {
    await save.click();
    await expect(page.getByText(/^Saved as revision \d+\.$/)).toBeVisible({ timeout: 60_000 });
  }
}
