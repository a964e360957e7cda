import type { Page } from "@playwright/test";
import { expectAccessible, expectNoSideways } from "./expectations";
import { expect, sessionFile, test } from "./fixtures";
import { openStays } from "./open-stays";
import { restoreFirst } from "./restore-first";

test.use({ as: "manager" });

/** A site that no other test changes, one for each project. */
const siteOf = (project: string) => (project === "phone" ? "d13" : "d14");

/** Opens a site's editor, types another longest rig, and goes on to the page that shows what it changes. */
async function propose(page: Page, site: string, longest: string): Promise<void> {
  await page.goto(`/manage/sites/${site}/edit`);
  const field = page.getByLabel("Longest rig, hitch included");
  await expect(page.getByRole("button", { name: "Look at what changes" })).toBeVisible();
  if (!(await field.isVisible())) await page.getByRole("button", { name: "Rules", exact: true }).click();
  await field.fill(longest);
  await field.blur();
  await page.getByRole("button", { name: "Look at what changes" }).click();
  await expect(page).toHaveURL(/\/change\?draft=/, { timeout: 60_000 });
}

/** Once it is worked out what it means for the stays. */
async function weighed(page: Page): Promise<void> {
  await expect(page.getByRole("region", { name: "Stays from today on" }).getByRole("status").first()).toContainText(/from today on/, { timeout: 100_000 });
}

test("two managers change one site: the later sees what the other changed and chooses, the desk hears who no longer fits, and an earlier record is restored", async ({ page, context, browser, request, baseURL }, info) => {
  test.setTimeout(300_000);
  const site = siteOf(info.project.name), name = `Changed ${info.project.name}`;
  await restoreFirst(page, site);
  const [stay] = await openStays(request, info, 14, [{ site, name, rig: "demo-van-17" }]);
  try {
    const other = await context.newPage();
    await propose(page, site, "16 ft");
    await propose(other, site, "15 ft");

    await weighed(page);
    await expect(page.getByRole("row", { name: /Rules.*Longest rig/ })).toContainText("16 ft");
    const lost = page.getByRole("region", { name: "Stays from today on" }).getByRole("listitem").filter({ hasText: name });
    await expect(lost).toContainText(/does not fit then/);
    await expect(lost.getByRole("link")).toHaveAttribute("href", `/desk/stays/${stay!.id}`);
    await expectAccessible(page);
    await expectNoSideways(page);
    await page.getByLabel(/^Why/).fill("The bank behind the pad slid.");
    await page.getByRole("button", { name: "Save this change" }).click();
    await expect(page.getByText(/^Saved as revision \d+\.$/)).toBeVisible({ timeout: 60_000 });
    await expect(page.getByRole("listitem").filter({ hasText: "The bank behind the pad slid." }).first()).toContainText(/Edited by .*longest rig/is);
    await expectAccessible(page);

    await other.getByRole("button", { name: /^Save/ }).click();
    await expect(other.getByText("Somebody else saved this site first. Nothing of yours was saved.")).toBeVisible({ timeout: 60_000 });
    const stale = other.getByRole("region", { name: "Somebody changed this site after you began" });
    await expect(stale).toContainText("The bank behind the pad slid.");
    await expect(stale.getByLabel(/^Mine/)).toBeVisible();
    await expectAccessible(other);
    await expectNoSideways(other);
    await stale.getByLabel(/^Mine/).check();
    await stale.getByRole("button", { name: "Put the two together and look again" }).click();
    const row = other.getByRole("row", { name: /Rules.*Longest rig/ });
    await expect(row).toContainText("16 ft", { timeout: 60_000 });
    await expect(row).toContainText("15 ft");
    await other.getByRole("button", { name: "Give this change up" }).click();
    await expect(other.getByText("The change was given up. Nothing was saved.")).toBeVisible();
    await other.close();

    const desk = await browser.newContext({ storageState: sessionFile("desk", baseURL!), baseURL: baseURL! });
    const today = await desk.newPage();
    await today.goto("/desk");
    const told = today.getByRole("region", { name: /A site changed: these stays no longer fit/ }).getByRole("listitem").filter({ hasText: name });
    await expect(told).toContainText("The bank behind the pad slid.", { timeout: 60_000 });
    await expectAccessible(today);
    await today.goto(`/desk/stays/${stay!.id}`);
    await expect(today.getByRole("region", { name: "The site changed after this was booked" })).toBeVisible();
    await today.goto("/desk");
    await told.getByRole("button", { name: /^Seen/ }).click();
    await expect(told).toHaveCount(0);
    expect((await today.goto(`/manage/sites/${site}/history`))?.url()).toContain("/for-managers");
    await desk.close();

    await page.getByLabel("Older").selectOption("1");
    await page.getByRole("button", { name: "Compare" }).click();
    await expect(page.getByRole("heading", { name: /^Revision 1 and revision \d+$/ })).toBeVisible();
    await expect(page.getByRole("row", { name: /Rules.*Longest rig/ })).toBeVisible();
    await expectAccessible(page);
    await page.setViewportSize({ width: 360, height: 740 });
    await expectNoSideways(page);
  } finally {
    await restoreFirst(page, site);
    await stay!.cancel();
  }
});
